// The examples: each mistake is told by its own rule and no other, and the good ones are clean.
#include <algorithm>
#include <catch2/catch.hpp>

#include "check/check.hpp"
#include "design/read.hpp"
#include "support.hpp"

using namespace pinfold;

namespace {

Verdict verdict_on(const std::string& file) {
    Library library = shipped_library();
    return check_design(read_design(repository() / "examples" / file, library));
}

std::vector<std::string> errors_of(const Verdict& verdict) {
    std::vector<std::string> rules;
    for (const Finding& finding : verdict.findings) {
        if (finding.severity == Severity::error) rules.push_back(finding.rule);
    }
    return rules;
}

}  // namespace

TEST_CASE("the good examples are clean, without a warning", "[examples]") {
    const std::string file =
        GENERATE("lid-link/design.yaml", "kiln-display/design.yaml", "mast-camera/design.yaml",
                 "lid-supply/design.yaml", "shore-lamp/design.yaml", "strap-orders/between.yaml",
                 "strap-orders/foil.yaml");
    CAPTURE(file);
    const Verdict verdict = verdict_on(file);
    CHECK(verdict.clean());
    CHECK(std::ranges::count(verdict.findings, Severity::warning, &Finding::severity) == 0);
    CHECK(std::ranges::all_of(verdict.wiring.passes(),
                              [](const Pass& pass) { return pass.state == State::good; }));
}

TEST_CASE("each classic mistake is told once, by its own rule, with a repair", "[examples]") {
    struct Row {
        const char* file;
        const char* rule;
        bool has_repair;
    };
    const Row row = GENERATE(values<Row>({
        {"lid-link-mistakes/mirrored.yaml", "order-mirrored", true},
        {"lid-link-mistakes/shifted.yaml", "order-shifted", true},
        {"lid-link-mistakes/pair-swapped.yaml", "pair-swapped", true},
        {"lid-link-mistakes/mini-order.yaml", "connector-order", true},
        {"lid-link-mistakes/copper-away.yaml", "copper-away", true},
        {"lid-link-mistakes/ground-missing.yaml", "ground-open", false},
        {"kiln-display/one-to-one.yaml", "connector-order", true},
    }));
    CAPTURE(row.file);
    const Verdict verdict = verdict_on(row.file);
    CHECK(errors_of(verdict) == std::vector<std::string>{row.rule});
    CHECK(verdict.findings.front().repairs.empty() != row.has_repair);
}

TEST_CASE("a ribbon wired as the plug counts has a ground inside each of the four pairs",
          "[examples]") {
    const std::vector<std::string> split(4, "pair-split");
    CHECK(errors_of(verdict_on("strap-orders/inside.yaml")) == split);
}

// 0.9 A through one 0.30 x 0.035 mm conductor of 120 mm at 60 degC: 0.0172414 * 1.1572 * 0.12 /
// 0.0105 = 0.2280 ohm (IEC 60028). Its receptacles have 50 mohm each, its plugs 50 mohm where the
// pin map gives none (common practice): 0.428 ohm, 385 mV.
TEST_CASE("0.9 A over one thin conductor is too much for contact, conductor and screen",
          "[examples]") {
    const Verdict verdict = verdict_on("lid-link-mistakes/thin-supply.yaml");
    CHECK(errors_of(verdict) == std::vector<std::string>{"contact-current", "contact-current",
                                                         "conductor-current", "supply-low"});
    const auto low = std::ranges::find(verdict.findings, "supply-low", &Finding::rule);
    REQUIRE(low != verdict.findings.end());
    CHECK(low->text.find("385 mV are lost on the way out") != std::string::npos);
}
