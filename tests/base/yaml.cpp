#include "base/yaml.hpp"

#include <catch2/catch.hpp>

#include "support.hpp"

namespace pinfold {
namespace {

std::string refused(const std::string& text) {
    return complaint([&] { parse_yaml(text_source(text)); });
}

Yaml parsed(const std::string& text) { return parse_yaml(text_source(text)); }

const std::string no_anchor =
    "anchors and aliases (&name, *name) are not taken: write the value out, or quote the text "
    "[yaml-anchor]";
const std::string no_tag =
    "tags (!name) are not taken: quote the text if it starts with '!' [yaml-tag]";
const std::string second_document =
    "the document ends before this: a file holds one document, and every list and map in it is "
    "one piece [yaml-second-document]";

}  // namespace

// The traps are those measured on yaml-cpp 0.7.0, which lets each of them through in silence or
// with a misleading word. Expected texts: words we chose.
TEST_CASE("scalars stay the text that was typed") {
    const Yaml yaml = parsed("a: 010\nb: no\nc: 0.50\nd: 0x1F\ne: +5V\nf: 'null'\ng: 1e3\n");
    REQUIRE(yaml.entries.size() == 7);
    CHECK(yaml.find("a")->scalar == "010");
    CHECK(yaml.find("b")->scalar == "no");
    CHECK(yaml.find("c")->scalar == "0.50");
    CHECK(yaml.find("d")->scalar == "0x1F");
    CHECK(yaml.find("e")->scalar == "+5V");
    CHECK(yaml.find("f")->scalar == "null");
    CHECK(yaml.find("g")->scalar == "1e3");
    CHECK(yaml.find("h") == nullptr);
}

TEST_CASE("signal names that YAML leaves alone arrive as written") {
    const Yaml yaml =
        parsed("- +5V\n- -12V\n- A1\n- D+/D-\n- RESET#\n- ~RESET\n- ?x\n- =x\n- D2\xE2\x88\x92\n");
    std::vector<std::string> texts;
    for (const Yaml& item : yaml.items) texts.push_back(item.scalar);
    CHECK(texts == std::vector<std::string>{"+5V", "-12V", "A1", "D+/D-", "RESET#", "~RESET", "?x",
                                            "=x", "D2\xE2\x88\x92"});
}

TEST_CASE("nothing in its several spellings is an empty value") {
    for (const char* text : {"a:\n", "a: ~\n", "a: null\n", "a: Null\n", "a: NULL\n"}) {
        CAPTURE(text);
        CHECK(parsed(text).find("a")->kind == Yaml::Kind::empty);
    }
    CHECK(parsed("foo: bar\nnot-a-key\n").find("not-a-key")->kind == Yaml::Kind::empty);
}

TEST_CASE("marks count lines from one and columns in code points") {
    const Yaml yaml = parsed("caf\xC3\xA9: {x: \xF0\x9F\x98\x80, y: 1}\r\n\r\nb:   2\r\n");
    const Yaml& inner = *yaml.find("caf\xC3\xA9");
    CHECK(inner.find("x")->at.column == 11);
    CHECK(inner.entries[1].at.column == 14);
    CHECK(yaml.entries[1].at.line == 3);
    CHECK(yaml.find("b")->at.column == 6);
}

TEST_CASE("a caret stands under its character after letters of several bytes") {
    CHECK(refused("\xC3\xA9\xE2\x82\xAC: &x\n") ==
          "input:1:5: error: " + no_anchor + "\n    \xC3\xA9\xE2\x82\xAC: &x\n        ^\n");
}

TEST_CASE("a byte order mark of UTF-8 is skipped and moves no column") {
    CHECK(refused("\xEF\xBB\xBF"
                  "a: &x\n") == "input:1:4: error: " + no_anchor + "\n    a: &x\n       ^\n");
    CHECK(refused("\xEF\xBB\xBF"
                  "a: 1\nb: &x\n") == "input:2:4: error: " + no_anchor + "\n    b: &x\n       ^\n");
}

TEST_CASE("files in other encodings are refused") {
    const std::string wide =
        "input:1:1: error: the file is UTF-16 or UTF-32; save it as UTF-8 [yaml-encoding]\n";
    CHECK(refused(std::string("\xFF\xFE"
                              "a\0:\0",
                              6))
              .find(wide) == 0);
    CHECK(refused(std::string("\xFE\xFF\0a\0:", 6)).find(wide) == 0);
    CHECK(refused("name: caf\xE9\n") ==
          "input:1:10: error: byte 0xE9 is not UTF-8; save the file as UTF-8 [yaml-encoding]\n"
          "    name: caf?\n"
          "             ^\n");
    CHECK(refused(std::string("a\0:\0 \0", 6)).find("control character 0x00") != std::string::npos);
}

TEST_CASE("control characters are refused as bytes and as escapes") {
    CHECK(refused("a: b\x01\n") ==
          "input:1:5: error: control character 0x01 [yaml-control]\n    a: b?\n        ^\n");
    CHECK(refused("a: \x7F\n").find("control character 0x7F") != std::string::npos);
    CHECK(refused("a: \xC2\x9B"
                  "31m\n")
              .find("control character 0x9B") != std::string::npos);
    CHECK(refused("a: 1\rb: 2\r").find("control character 0x0D") != std::string::npos);
    for (const char* text : {"\"\\e[31m\"", "\"\\0\"", "\"\\x9b\"", "\"a\\rb\"", "\"\\u0007\""}) {
        CAPTURE(text);
        CHECK(refused(std::string("a: ") + text + "\n")
                  .find("input:1:4: error: this text holds an escaped control character "
                        "[yaml-control]\n") == 0);
    }
}

TEST_CASE("escapes that the parser turns into broken UTF-8 are refused") {
    for (const char* text : {"a: \"x\\Ny\"\n", "a: \"x\\_y\"\n"}) {
        CAPTURE(text);
        CHECK(refused(text) ==
              "input:1:4: error: the escapes \\N and \\_ are not taken: write the "
              "character itself [yaml-encoding]\n    " +
                  std::string(text) + "       ^\n");
    }
    CHECK(parsed("a: \"caf\\u00e9\"\n").find("a")->scalar == "caf\xC3\xA9");
}

TEST_CASE("line ends and tabs inside a text may stay") {
    CHECK(parsed("a: \"x\\ty\\nz\"\n").find("a")->scalar == "x\ty\nz");
    CHECK(parsed("a: x\ty\n").find("a")->scalar == "x\ty");
    CHECK(parsed("a: |\n  x\n  y\n").find("a")->scalar == "x\ny\n");
}

TEST_CASE("a tab cannot indent") {
    CHECK(refused("a:\n\tb: 1\n") ==
          "input:2:1: error: a tab cannot indent; use blanks [yaml-tab]\n     b: 1\n    ^\n");
    CHECK(refused("a:\n  \tb: 1\n").find("input:2:3: error: a tab cannot indent") == 0);
}

TEST_CASE("an empty file and one of comments alone are refused") {
    for (const char* text : {"", "\n\n", "# nothing\n", "\xEF\xBB\xBF"}) {
        CAPTURE(text);
        CHECK(refused(text).find("input:1:1: error: the file is empty [yaml-empty]\n") == 0);
    }
}

TEST_CASE("a key that stands twice in one map is refused with both places") {
    CHECK(refused("a: 1\nb: 2\n\"a\": 3\n") ==
          "input:3:1: error: 'a' stands twice in this map [yaml-key-twice]\n"
          "    \"a\": 3\n"
          "    ^\n"
          "input:1:1: note: first here\n"
          "    a: 1\n"
          "    ^\n");
    CHECK(parsed("x: {a: 1}\ny: {a: 2}\n").entries.size() == 2);
}

TEST_CASE("anchors and aliases and merge keys are refused") {
    CHECK(refused("a: &x 1\n") == "input:1:4: error: " + no_anchor + "\n    a: &x 1\n       ^\n");
    CHECK(refused("a: &x [*x]\n").find("input:1:4: error: " + no_anchor) == 0);
    CHECK(refused("- &x a\n- *x\n").find("input:1:3: error: " + no_anchor) == 0);
    CHECK(refused("a: *INT\n").find("input:1:4: error: broken YAML") == 0);
    CHECK(refused("a: {<<: {b: 1}}\n") ==
          "input:1:5: error: merge keys (<<) are not taken: write the fields out [yaml-anchor]\n"
          "    a: {<<: {b: 1}}\n"
          "        ^\n");
}

TEST_CASE("tags are refused") {
    for (const char* text :
         {"a: !CS\n", "a: !!str 1\n", "a: ! x\n", "a: ! \"x\"\n", "a: !x [b]\n"}) {
        CAPTURE(text);
        CHECK(refused(text) == "input:1:4: error: " + no_tag + "\n    " + text + "       ^\n");
    }
    CHECK(parsed("a: '!CS'\n").find("a")->scalar == "!CS");
}

TEST_CASE("whatever stands after the document is refused") {
    CHECK(refused("a: 1\n---\nb: 2\n") ==
          "input:2:1: error: " + second_document + "\n    ---\n    ^\n");
    CHECK(refused("- a\nb: 1\n").find("input:2:1: error: " + second_document) == 0);
    CHECK(refused("[1, 2] trailing\n").find("input:1:8: error: " + second_document) == 0);
    CHECK(refused("\"x\" y\n").find("input:1:5: error: " + second_document) == 0);
    CHECK(refused("{a: 1} {b: 2}\n").find("input:1:8: error: " + second_document) == 0);
    CHECK(refused("a: 1\n...\nb\n").find("input:3:1: error: " + second_document) == 0);
    CHECK(refused("---\n---\n").find("input:2:1: error: " + second_document) == 0);
    CHECK(parsed("---\na: 1\n...\n").entries.size() == 1);
}

TEST_CASE("a quote that runs into the end of the file is refused") {
    for (const char* text : {"a: \"x\n", "a: 'x\n", "a: \"x\\\"\n", "a: 'it''s\n", "a: 'it''\n"}) {
        CAPTURE(text);
        CHECK(refused(text) == "input:1:4: error: this quote is never closed [yaml-quote]\n    " +
                                   std::string(text) + "       ^\n");
    }
    CHECK(refused("a: 1\n\"b: 2\n").find("input:2:1: error: this quote is never closed") == 0);
    CHECK(refused("a: ! \"x\n").find(no_tag) != std::string::npos);
    CHECK(parsed("a: \"x\" # it's\n").find("a")->scalar == "x");
    CHECK(parsed("a: \"x\\\\\"\n").find("a")->scalar == "x\\");
    CHECK(parsed("a: 'it''s'\n").find("a")->scalar == "it's");
    CHECK(parsed("a: \"x\n  y\"").find("a")->scalar == "x y");
}

TEST_CASE("a key is a text of at most 128 bytes") {
    CHECK(refused("[a]: 1\n") ==
          "input:1:1: error: a key must be a text; quote it [yaml-key]\n    [a]: 1\n    ^\n");
    CHECK(refused("~: 1\n").find("input:1:1: error: a key must be a text; quote it") == 0);
    CHECK(refused(std::string(129, 'k') + ": 1\n").find("a key has at most 128 bytes [yaml-key]") !=
          std::string::npos);
    CHECK(parsed(std::string(128, 'k') + ": 1\n").entries.size() == 1);
    CHECK(refused(std::string(2000, 'k') + ": 1\n") != "no complaint");
}

TEST_CASE("nesting stops at 32 levels") {
    const auto nested = [](int levels) {
        std::string text;
        for (int i = 0; i < levels; ++i)
            text += std::string(static_cast<std::size_t>(i), ' ') + "k:\n";
        return text;
    };
    CHECK(refused(nested(32)) == "no complaint");
    CHECK(refused(nested(33)) ==
          "input:33:33: error: nested more than 32 levels deep [yaml-too-deep]\n    " +
              std::string(32, ' ') + "k:\n    " + std::string(32, ' ') + "^\n");
    const std::string opening =
        GENERATE(as<std::string>{}, "[", "{", "{a: ", "- ", "? ", "[{", "[a, ");
    std::string deep;
    for (int i = 0; i < 100'000; ++i) deep += opening;
    CAPTURE(opening);
    CHECK(refused(deep).find("nested more than 32 levels deep [yaml-too-deep]") !=
          std::string::npos);
}

TEST_CASE("what the parser cannot read is refused where it stops") {
    CHECK(refused("a: @x\n") ==
          "input:1:4: error: broken YAML: unknown token [yaml-broken]\n    a: @x\n       ^\n");
    CHECK(refused("a: [D[0], D1]\n").find("error: broken YAML: ") != std::string::npos);
    CHECK(refused("a: b: c\n").find("error: broken YAML: ") != std::string::npos);
    CHECK(refused("a: \"\\uD800\"\n").find("error: broken YAML: ") != std::string::npos);
}

}  // namespace pinfold
