#include "document/html.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <sstream>

#include "base/shown.hpp"

namespace pinfold {
namespace {

constexpr std::array<std::string_view, 14> void_elements{
    "area",  "base", "br",   "col",   "embed",  "hr",    "img",
    "input", "link", "meta", "param", "source", "track", "wbr"};

/// An empty text makes pugixml write `<td></td>` where it would write `<td/>`, which in HTML is
/// an open tag. Foreign elements inside svg close themselves.
void close_empty(pugi::xml_node node) {
    const std::string_view name = node.name();
    if (name == "svg") return;
    for (const pugi::xml_node child : node.children()) {
        if (child.type() == pugi::node_element) close_empty(child);
    }
    const bool is_void = std::ranges::find(void_elements, name) != void_elements.end();
    if (!node.first_child() && !is_void) node.append_child(pugi::node_pcdata);
}

}  // namespace

HtmlPage::HtmlPage(std::string_view title, std::string_view style) {
    assert(style.find_first_of("<>&") == std::string_view::npos);
    document_.append_child(pugi::node_doctype).set_value("html");
    pugi::xml_node html = document_.append_child("html");
    html.append_attribute("lang") = "en";
    pugi::xml_node head = html.append_child("head");
    head.append_child("meta").append_attribute("charset") = "utf-8";
    pugi::xml_node view = head.append_child("meta");
    view.append_attribute("name") = "viewport";
    view.append_attribute("content") = "width=device-width, initial-scale=1";
    add_element(head, "title", title);
    add_element(head, "style", style);
    main_ = html.append_child("body").append_child("main");
}

std::string HtmlPage::text() {
    close_empty(document_.child("html"));
    std::ostringstream out;
    document_.save(out, " ", pugi::format_indent | pugi::format_no_declaration,
                   pugi::encoding_utf8);
    return shown_page(out.str());
}

pugi::xml_node add_element(pugi::xml_node parent, const char* name, std::string_view text,
                           std::string_view style_class) {
    pugi::xml_node node = parent.append_child(name);
    if (!style_class.empty()) {
        node.append_attribute("class") = std::string(style_class).c_str();
    }
    if (!text.empty()) {
        node.append_child(pugi::node_pcdata).set_value(std::string(text).c_str());
    }
    return node;
}

}  // namespace pinfold
