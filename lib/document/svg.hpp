// SVG drawings built as a tree, so that no text can become markup.
#pragma once

#include <initializer_list>
#include <string>

#include <pugixml.hpp>

namespace pinfold {

struct SvgAttribute {
    const char* name;
    std::string value;
};

/// A length or place for an attribute: five digits, no locale.
std::string svg_number(double value);

/// A child element with attributes.
pugi::xml_node add_svg(pugi::xml_node parent, const char* name,
                       std::initializer_list<SvgAttribute> attributes);

/// The outer element, with a title and a description for those who cannot see it; `id` must be
/// unique on its page. `view_box` is in the drawing's own units.
pugi::xml_node add_drawing(pugi::xml_node parent, const std::string& id,
                           const std::string& view_box, const std::string& title,
                           const std::string& description);

}  // namespace pinfold
