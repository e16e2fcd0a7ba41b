#include <algorithm>
#include <catch2/catch.hpp>

#include "check/check.hpp"
#include "design/read.hpp"
#include "support.hpp"

using namespace pinfold;

namespace {

/// Two boxes joined by one lead of a pair: nothing else arrives. Invented.
Verdict verdict_with(const std::string& accept) {
    Library library = shipped_library();
    const std::string yaml = R"(pinfold: 1
title: one lead short
devices:
  cell: {ports: {out: {pads: [5V, GND]}}}
  lamp: {ports: {in: {pads: [5V, GND]}}}
leads:
  plus: {from: cell.out.5V, to: lamp.in.5V, gauge: AWG 24, length: 90 mm}
  minus: {from: cell.out.GND, to: lamp.in.GND, gauge: AWG 24, length: 90 mm}
carry:
- {supply: 5V, from: cell.out, to: lamp.in, current: 0.2 A, voltage: 5 V, least: 4.9999 V}
)" + accept;
    return check_design(read_design(text_source(yaml), ".", library));
}

}  // namespace

TEST_CASE("an accepted finding stays as a note with its reason", "[accept]") {
    REQUIRE(rules_of(verdict_with("").findings) == std::vector<std::string>{"supply-low"});
    const Verdict verdict =
        verdict_with("accept:\n- {rule: supply-low, where: 5V, why: the lamp only glows}\n");
    REQUIRE(verdict.findings.size() == 1);
    CHECK(verdict.clean());
    CHECK(verdict.findings[0].severity == Severity::note);
    CHECK(verdict.findings[0].text.ends_with("(accepted: the lamp only glows)"));
}

TEST_CASE("an error is not accepted without a place", "[accept]") {
    const Verdict verdict = verdict_with("accept:\n- {rule: supply-low, why: hurry}\n");
    CHECK_FALSE(verdict.clean());
    CHECK(rules_of(verdict.findings) ==
          std::vector<std::string>{"supply-low", "acceptance-unused"});
}

TEST_CASE("an acceptance that accepts nothing is told, a misspelt rule with the nearest",
          "[accept]") {
    const Verdict verdict = verdict_with(
        "accept:\n- {rule: suply-low, where: 5V, why: typing}\n"
        "- {rule: pair-split, where: strap, why: stale}\n");
    const auto told = [&](const std::string& text) {
        return std::ranges::any_of(verdict.findings, [&](const Finding& finding) {
            return finding.rule == "acceptance-unused" &&
                   finding.text.find(text) != std::string::npos;
        });
    };
    CHECK(told("there is no rule 'suply-low' (did you mean 'supply-low'?)"));
    CHECK(told("nothing was found by rule 'pair-split' at 'strap'"));
}
