// Which characters turn the direction of writing: Unicode Standard Annex #9, section 2, tables of
// the explicit and implicit directional formatting characters. Line and paragraph separator: The
// Unicode Standard, section 23.2. Byte order mark: section 23.8.
#include "base/shown.hpp"

#include <catch2/catch.hpp>

namespace pinfold {

TEST_CASE("what turns the direction of writing is shown as a question mark") {
    const std::string mark = GENERATE(as<std::string>{}, "\u061C", "\u200E", "\u200F", "\u202A",
                                      "\u202B", "\u202C", "\u202D", "\u202E", "\u2066", "\u2067",
                                      "\u2068", "\u2069", "\u2028", "\u2029", "\uFEFF");
    CHECK(shown("a" + mark + "b") == "a?b");
    CHECK(shown_page("a\n" + mark + "\n\tb\n\n") == "a\n?\n b\n\n");
    CHECK(shown(mark + mark) == "??");
}

TEST_CASE("neighbours of the turning marks, and other writing, are shown as they are") {
    const std::string text = GENERATE(as<std::string>{}, "\u061B", "\u200B", "\u200D", "\u2010",
                                      "\u2027", "\u202F", "\u2065", "\u206A", "\uFEFE", "\uFF00",
                                      "\u05D0\u05D1 \u65E5\u672C \U0001F600 \u00B5\u03A9");
    CHECK(shown(text) == text);
    CHECK(shown_page(text) == text);
}

TEST_CASE("controls and broken bytes are shown as question marks, tabs as blanks") {
    CHECK(shown("a\tb\x1B[31m\x7F\xC2\x9B\xFFz") == "a b?[31m???z");
}

}  // namespace pinfold
