// HTML pages built as a tree, so that no text can become markup.
#pragma once

#include <string>
#include <string_view>

#include <pugixml.hpp>

namespace pinfold {

/// One self-contained HTML5 page under construction. No scripts, nothing fetched.
class HtmlPage {
public:
    /// `style` is CSS of our own; it must not hold `<`, `>` or `&`.
    HtmlPage(std::string_view title, std::string_view style);

    pugi::xml_node main() const { return main_; }
    /// The whole page as text. Every element but HTML's void ones gets its end tag.
    std::string text();

private:
    pugi::xml_document document_;
    pugi::xml_node main_;
};

/// A child element with text in it; `style_class` may be empty.
pugi::xml_node add_element(pugi::xml_node parent, const char* name, std::string_view text = {},
                           std::string_view style_class = {});

}  // namespace pinfold
