#include "document/svg.hpp"

#include <fmt/format.h>

#include "document/table_words.hpp"

namespace pinfold {

std::string svg_number(double value) { return fmt::format("{:.5g}", value); }

pugi::xml_node add_svg(pugi::xml_node parent, const char* name,
                       std::initializer_list<SvgAttribute> attributes) {
    pugi::xml_node node = parent.append_child(name);
    for (const SvgAttribute& attribute : attributes) {
        node.append_attribute(attribute.name) = attribute.value.c_str();
    }
    return node;
}

pugi::xml_node add_drawing(pugi::xml_node parent, const std::string& id,
                           const std::string& view_box, const std::string& title,
                           const std::string& description) {
    const pugi::xml_node svg =
        add_svg(parent, "svg",
                {{"xmlns", "http://www.w3.org/2000/svg"},
                 {"viewBox", view_box},
                 {"role", "img"},
                 {"aria-labelledby", fmt::format("{0}-title {0}-desc", id)},
                 {"font-family", "Helvetica, Arial, 'DejaVu Sans', sans-serif"}});
    add_svg(svg, "title", {{"id", id + "-title"}}).text().set(one_line(title).c_str());
    add_svg(svg, "desc", {{"id", id + "-desc"}}).text().set(one_line(description).c_str());
    return svg;
}

}  // namespace pinfold
