#include "document/columns.hpp"

#include <catch2/catch.hpp>

using namespace pinfold;

// Expected texts: words we chose.

TEST_CASE("cells stand in columns as wide as their widest") {
    CHECK(in_columns({{"contact", "signal"}, {"1", "D2+"}, {"19", "HPD", "x"}}) ==
          "contact  signal\n"
          "1        D2+\n"
          "19       HPD     x\n");
}

TEST_CASE("columns are counted in characters, not in bytes") {
    CHECK(in_columns({{"Ω", "a"}, {"mm", "b"}}, "  ") == "  Ω   a\n  mm  b\n");
}

TEST_CASE("paragraphs keep to the width of the page, indent included") {
    std::string words;
    for (int i = 0; i < 40; ++i) words += "word ";
    const std::string text = in_lines(words, "    ");
    CHECK(text.starts_with("    word word"));
    CHECK(text.find('\n') <= page_width);
    CHECK(text.find('\n') > page_width - 6);
}
