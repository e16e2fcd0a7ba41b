#include "base/fields.hpp"

#include <catch2/catch.hpp>

#include "support.hpp"

namespace pinfold {
namespace {

/// What reading one map with `read` has to say.
template <class Read>
std::string said(const std::string& text, const Read& read) {
    Findings findings;
    const Yaml yaml = parse_yaml(text_source(text));
    Fields fields(yaml, findings);
    read(fields);
    fields.done();
    std::string all;
    for (const Finding& finding : findings) all += to_text(finding);
    return all;
}

const Words<int> sides{{"same-side", 1}, {"opposite-side", 2}};

}  // namespace

// Expected texts: words we chose.
TEST_CASE("a missing field is named at the map that lacks it") {
    CHECK(said("nme: x\n", [](Fields& f) { f.text("name"); }) ==
          "input:1:1: error: 'name' is missing [yaml-field-missing]\n"
          "    nme: x\n"
          "    ^\n"
          "input:1:1: error: unknown field 'nme' (did you mean 'name'?); this map takes: name "
          "[yaml-field-unknown]\n"
          "    nme: x\n"
          "    ^\n");
}

TEST_CASE("an unknown field is told the fields that were looked for and not there") {
    CHECK(
        said("lik: x\n",
             [](Fields& f) {
                 if (f.has("like")) f.text("like");
                 f.text_or("part", {});
             }) ==
        "input:1:1: error: unknown field 'lik' (did you mean 'like'?); this map takes: like, part "
        "[yaml-field-unknown]\n    lik: x\n    ^\n");
}

TEST_CASE("a field that was looked for and not read is still unknown") {
    CHECK(said("like: x\n", [](Fields& f) { f.has("like"); }).find("unknown field 'like'") !=
          std::string::npos);
}

TEST_CASE("a field without a value is misshapen and a quoted nothing is empty") {
    CHECK(said("name:\n", [](Fields& f) { f.text("name"); }) ==
          "input:1:1: error: 'name' must be a text [yaml-shape]\n    name:\n    ^\n");
    CHECK(said("name: ~\n", [](Fields& f) { f.text("name"); }) ==
          "input:1:1: error: 'name' must be a text [yaml-shape]\n    name: ~\n    ^\n");
    CHECK(said("name: \"\"\n", [](Fields& f) { f.text("name"); }) ==
          "input:1:7: error: 'name' is empty [yaml-field-empty]\n    name: \"\"\n          ^\n");
    CHECK(said("name: \"null\"\n", [](Fields& f) { CHECK(f.text("name") == "null"); }).empty());
}

TEST_CASE("a whole number is decimal and within its range") {
    const auto read = [](Fields& f) { f.whole("n", 1); };
    CHECK(said("n: 010\n", [](Fields& f) { CHECK(f.whole("n", 1) == 10); }).empty());
    CHECK(said("n: 0\n", read) ==
          "input:1:4: error: 'n' must be a whole number from 1 to 1000000, not '0' "
          "[yaml-number]\n    n: 0\n       ^\n");
    CHECK(said("n: 1000001\n", read).find("not '1000001'") != std::string::npos);
    CHECK(said("n: 1e3\n", read).find("not '1e3'") != std::string::npos);
    CHECK(said("n: [1]\n", read) ==
          "input:1:1: error: 'n' must be a whole number [yaml-shape]\n    n: [1]\n    ^\n");
}

TEST_CASE("an unknown word is told the known ones and the nearest") {
    CHECK(said("copper: same-sid\n", [](Fields& f) { f.word<int>("copper", sides); }) ==
          "input:1:9: error: 'copper' must be one of: same-side, opposite-side; not 'same-sid' "
          "(did you mean 'same-side'?) [yaml-word]\n"
          "    copper: same-sid\n"
          "            ^\n");
}

TEST_CASE("only yes and no are flags") {
    CHECK(said("f: yes\n", [](Fields& f) { CHECK(f.flag("f")); }).empty());
    CHECK(said("f: no\n", [](Fields& f) { CHECK_FALSE(f.flag("f")); }).empty());
    CHECK(said("f: true\n", [](Fields& f) { f.flag("f"); }) ==
          "input:1:4: error: 'f' must be one of: yes, no; not 'true' [yaml-word]\n"
          "    f: true\n       ^\n");
}

TEST_CASE("a quantity in the wrong unit is marked where the value stands") {
    CHECK(said("pitch:   0.5 in\n", [](Fields& f) { f.quantity<Millimetres>("pitch"); }) ==
          "input:1:10: error: 'pitch' must be a length such as '0.5 mm', not '0.5 in': that is "
          "12.7 mm [yaml-unit]\n"
          "    pitch:   0.5 in\n"
          "             ^\n");
}

TEST_CASE("another version is refused") {
    CHECK(said("pinfold: 2\n", [](Fields& f) { f.version("pinfold"); }) ==
          "input:1:10: error: 'pinfold: 2': this program reads version 1 [file-version]\n"
          "    pinfold: 2\n             ^\n");
}

TEST_CASE("a list where a map is due and a text that YAML took for something else are refused") {
    CHECK(said("[a]\n", [](Fields& f) { f.text("name"); }) ==
          "input:1:1: error: expected a map of named fields [yaml-shape]\n    [a]\n    ^\n");
    CHECK(said("t: [[D0], {D+: 1}, ~, ok]\n", [](Fields& f) { f.texts("t"); }) ==
          "input:1:5: error: expected a text here; quote a text that starts with a sign such as # "
          "& * ! [ or { [yaml-shape]\n    t: [[D0], {D+: 1}, ~, ok]\n        ^\n"
          "input:1:11: error: expected a text here; quote a text that starts with a sign such as # "
          "& * ! [ or { [yaml-shape]\n    t: [[D0], {D+: 1}, ~, ok]\n              ^\n"
          "input:1:20: error: expected a text here; quote a text that starts with a sign such as # "
          "& * ! [ or { [yaml-shape]\n    t: [[D0], {D+: 1}, ~, ok]\n                       ^\n");
}

TEST_CASE("a plain number lies above nothing") {
    const auto read = [](Fields& f) { f.plain_number("er"); };
    CHECK(said("er: 3.2\n", read).empty());
    CHECK(said("er: 0\n", read) ==
          "input:1:5: error: 'er' must be a number above nothing, not '0' [yaml-number]\n"
          "    er: 0\n        ^\n");
    CHECK(said("er: nan\n", read).find("not 'nan'") != std::string::npos);
}

TEST_CASE("reading stops after a hundred faults") {
    Findings findings;
    std::size_t carried = 0;
    try {
        for (int i = 0; i < 1000; ++i) complain(findings, "r", "again", {});
    } catch (const InputError& error) {
        carried = error.findings().size();
        CHECK(error.findings().back().text == "reading stops here, after 100 faults");
    }
    CHECK(carried == most_faults + 1);
}

TEST_CASE("faults taken over from another file count as well") {
    Findings findings;
    const InputError error(Findings(60, {Severity::error, "r", "again", {}}));
    take(findings, error);
    CHECK(findings.size() == 60);
    CHECK_THROWS_AS(take(findings, error), InputError);
}

}  // namespace pinfold
