// What is written is held against yaml-cpp, which is not ours. Which texts YAML takes for something
// else: YAML 1.2.2, sections 7.3 and 10.3.2.
#include "base/yaml_text.hpp"

#include <yaml-cpp/yaml.h>

#include <catch2/catch.hpp>

namespace pinfold {

TEST_CASE("a text written for YAML reads back as it was") {
    const std::string text =
        GENERATE(as<std::string>{}, "", "D2+", "5V", "-12V", "a b", "a, b", "[x]", "{x}", "#x",
                 "a#b", "a: b", "- a", "? a", "'", "\"", "\\", "\\n", "~", "null", "true", "no",
                 "&a", "*a", "!a", "%a", "@a", "`a", "|", ">", ".5", "a\tb", "\u202Egnp.exe",
                 "\u200B", "\uFEFF", "\u65E5\u672C \U0001F600");
    CAPTURE(text);
    CHECK(YAML::Load("[" + yaml_text(text) + ", x]")[0].as<std::string>() == text);
    CHECK(YAML::Load("k: " + quoted_yaml(text))["k"].as<std::string>() == text);
    CHECK(YAML::Load(yaml_text(text)).IsScalar());
}

TEST_CASE("a text written for YAML holds nothing unseen") {
    CHECK(yaml_text("a\u202Eb\u200Bc\uFEFF") == "\"a\\U0000202Eb\\U0000200Bc\\U0000FEFF\"");
    CHECK(yaml_text("a\tb") == "\"a\\tb\"");
    CHECK(yaml_text("a\x1B[2J\nb") == "\"a?[2J?b\"");
    CHECK(yaml_text("D2+") == "D2+");
}

}  // namespace pinfold
