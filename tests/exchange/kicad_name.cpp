#include "exchange/kicad_name.hpp"

#include <catch2/catch.hpp>

using namespace pinfold;

TEST_CASE("what a schematic cannot hold in a net's name is written as a word in braces") {
    CHECK(to_kicad_name("D+/D-") == "D+{slash}D-");
    CHECK(to_kicad_name("A<0>:\"x\" \\") ==
          "A{lt}0{gt}{colon}{dblquote}x{dblquote}{space}{backslash}");
    CHECK(to_kicad_name("a\nb\tc") == "a{return}b{tab}c");
}

TEST_CASE("a brace is left alone unless it would read as one of the words") {
    CHECK(to_kicad_name("~{INT}") == "~{INT}");
    CHECK(from_kicad_name("~{INT}") == "~{INT}");
    CHECK(to_kicad_name("{slash}") == "{brace}slash}");
}

TEST_CASE("every name comes back from its written form") {
    const std::string name = GENERATE(
        as<std::string>{}, "", "{", "}", "{{", "{brace}", "{brace}slash}", "{sl/ash}", "{{slash}}",
        "/{/", "{slash", "slash}", "{}", "{ slash}", "{{brace}{slash}", "a/b\\c<d>e:f\"g h\ni\tj",
        "\xC3\xA9{tab}\xE2\x88\x92", "{{{{slash}}}}", "{{gt}lt}");
    CAPTURE(name);
    CHECK(from_kicad_name(to_kicad_name(name)) == name);
}

TEST_CASE("no two names are written alike") {
    CHECK(to_kicad_name("a/b") != to_kicad_name("a{slash}b"));
    CHECK(to_kicad_name("{brace}slash}") != to_kicad_name("{slash}"));
}
