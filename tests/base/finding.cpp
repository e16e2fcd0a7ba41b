#include "base/finding.hpp"

#include <catch2/catch.hpp>

#include "support.hpp"

namespace pinfold {

// Expected texts: words we chose, style guide B.6 for the form.
TEST_CASE("a finding shows its place, its line and a caret, then notes and repairs") {
    const auto source = text_source("first\nsecond line\n");
    const Finding finding{Severity::warning,
                          "a-rule",
                          "what is wrong",
                          {source, 2, 8},
                          {{{source, 1, 1}, "first here"}},
                          {},
                          {"turn it round"}};
    CHECK(to_text(finding) ==
          "input:2:8: warning: what is wrong [a-rule]\n"
          "    second line\n"
          "           ^\n"
          "input:1:1: note: first here\n"
          "    first\n"
          "    ^\n"
          "    repair, tried: turn it round\n");
}

TEST_CASE("a finding without a place is one line") {
    CHECK(to_text({Severity::note, "a-rule", "said", {}}) == "note: said [a-rule]\n");
}

TEST_CASE("control characters of either set reach no terminal") {
    const auto source = std::make_shared<const Source>(Source{"a\x1B[2Jb", "x\x07y\tz\xC2\x9Bq\n"});
    const Finding finding{Severity::error, "r", "name '\x1B]0;\xC2\x9B'", {source, 1, 6}, {}, {},
                          {"say \x7F"}};
    CHECK(to_text(finding) ==
          "a?[2Jb:1:6: error: name '?]0;?' [r]\n"
          "    x?y z?q\n"
          "         ^\n"
          "    repair, tried: say ?\n");
}

// Unicode Standard Annex #9 names the characters that turn the direction of writing.
TEST_CASE("nothing in a name turns the direction of writing on a terminal") {
    CHECK(to_text({Severity::note, "r", "a\u202Eb\u2066c\u200Fd\u061Ce\u2028f\u00B5", {}}) ==
          "note: a?b?c?d?e?f\u00B5 [r]\n");
    CHECK(to_text({Severity::note, "r", "a\xFF\x9B\xC0\xAF", {}}) == "note: a???? [r]\n");
}

TEST_CASE("a line that is too long or not there is not quoted") {
    const std::string longest(160, 'b');
    const auto source = text_source("a" + longest + "\n\n" + longest);
    const auto shown = [&](Mark mark) { return to_text({Severity::error, "r", "t", mark}); };
    CHECK(shown({source, 1, 1}) == "input:1:1: error: t [r]\n");
    CHECK(shown({source, 2, 1}) == "input:2:1: error: t [r]\n");
    CHECK(shown({source, 3, 1}) == "input:3:1: error: t [r]\n    " + longest + "\n    ^\n");
    CHECK(shown({source, 9, 1}) == "input:9:1: error: t [r]\n");
}

TEST_CASE("a mark that knows where its line begins quotes that line") {
    const auto source = text_source("one\ntwo\n");
    CHECK(to_text({Severity::error, "r", "t", {source, 2, 1, 4}}) ==
          "input:2:1: error: t [r]\n    two\n    ^\n");
    CHECK(to_text({Severity::error, "r", "t", {source, 2, 1, 400}}) == "input:2:1: error: t [r]\n");
}

TEST_CASE("errors come first and keep their order") {
    Findings findings{{Severity::note, "n", "", {}},
                      {Severity::error, "e1", "", {}},
                      {Severity::warning, "w", "", {}},
                      {Severity::error, "e2", "", {}}};
    sort_by_severity(findings);
    CHECK(rules_of(findings) == std::vector<std::string>{"e1", "e2", "w", "n"});
    CHECK(has_errors(findings));
    findings.erase(findings.begin(), findings.begin() + 2);
    CHECK_FALSE(has_errors(findings));
}

TEST_CASE("an input error carries all its findings and speaks with the first") {
    const InputError error({{Severity::error, "a", "first", {}}, {Severity::error, "b", "", {}}});
    CHECK(std::string(error.what()) == "first");
    CHECK(error.findings().size() == 2);
    CHECK(std::string(InputError(Findings{}).what()) == "unusable input");
}

}  // namespace pinfold
