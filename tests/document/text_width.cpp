#include "document/text_width.hpp"

#include <catch2/catch.hpp>

#include "base/utf8.hpp"

using namespace pinfold;

// Widths: what terminals do by Unicode Standard Annex 11; from memory.

TEST_CASE("wide characters take two columns, combining marks none") {
    CHECK(display_width("D2+") == 3);
    CHECK(display_width("Bö") == 2);
    CHECK(display_width("日本") == 4);
    CHECK(display_width("e\u0301") == 1);
    CHECK(display_width("＋5V") == 4);
}

TEST_CASE("padding counts columns, not bytes") {
    CHECK(padded("日本", 6) == "日本  ");
    CHECK(padded("too long", 3) == "too long");
}

TEST_CASE("lines are broken at blanks and never inside a word") {
    CHECK(wrapped("one two three", 7) == std::vector<std::string>{"one two", "three"});
    CHECK(wrapped("unbreakable x", 4) == std::vector<std::string>{"unbreakable", "x"});
    CHECK(wrapped("", 4) == std::vector<std::string>{""});
}

TEST_CASE("a code point cut short at the end of the text is read no further") {
    CHECK(code_point_at("\xE6\x97", 0).bytes == 2);
    CHECK(display_width("\xF0") == 1);
}
