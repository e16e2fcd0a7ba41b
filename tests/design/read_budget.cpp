#include <catch2/catch.hpp>

#include "check/bench.hpp"
#include "check/small_designs.hpp"

namespace pinfold {
namespace {

/// The rule a budget is refused by; empty if it is not.
std::string refusal(const std::string& yaml) {
    try {
        bench_design(yaml);
        return {};
    } catch (const InputError& error) {
        return error.findings().front().rule;
    }
}

std::string changed(const char* part, const char* instead) {
    return refusal(with(budgeted("input-current: 2 A"), part, instead));
}

}  // namespace

// Rules: words we chose.
TEST_CASE("each misuse of a budget is refused by name") {
    CHECK(refusal(budgeted("input-current: 2 A")).empty());
    CHECK(changed("from: pack", "from: pak") == "budget-from");
    CHECK(changed("from: up", "from: glow") == "budget-from");
    CHECK(changed("from: pack", "from: up") == "budget-ring");
    CHECK(changed("90 %", "101 %") == "budget-share");
    CHECK(changed("90 %", "0 %") == "yaml-unit");
    CHECK(changed("empty: 3 V", "empty: 5 V") == "budget-window");
    CHECK(changed("typical: 2 W", "typical: 4 W") == "budget-order");
    CHECK(changed("at: lamp.in", "at: cell.out") == "budget-at");
    CHECK(changed("at: lamp.in", "at: lamp.on") == "port-unknown");
    CHECK(changed("glow:", "up:") == "name-twice");
    CHECK(changed("least: 4 V", "least: 4 V, power: 1 W") == "budget-twice");
    CHECK(changed("energy: 10 Wh", "energy: 10 W") == "yaml-unit");
    CHECK(changed("energy: 10 Wh", "energy: 1e300 Wh") == "budget-energy");
    CHECK(changed("energy: 10 Wh", "energy: 100000.1 Wh") == "budget-energy");
    CHECK(changed("energy: 10 Wh", "energy: 100000 Wh").empty());
    CHECK(changed("energy: 10 Wh", "enrgy: 10 Wh") == "yaml-field-missing");
}

TEST_CASE("what is wrong with a power, a rating or a measured contact is refused") {
    const std::string good = fed(", voltage: 5 V, least: 4 V, power: 1 W");
    CHECK(refusal(good).empty());
    CHECK(refusal(with(good, "power: 1 W", "power: 1 A")) == "yaml-unit");
    CHECK(refusal(with(good, "power: 1 W", "power: -1 W")) == "yaml-unit");
    CHECK_FALSE(refusal(with(good, "power: 1 W", "power: [1 W]")).empty());
    CHECK(refusal(with(good, "power: 1 W", "power: 1 W, current: 1 A")) == "carry-load");
    CHECK(refusal(with(good, "gauge: AWG 28", "gauge: AWG 28, rating: 1 V")) == "yaml-unit");
    CHECK(refusal(with(good, "gauge: AWG 28", "gauge: AWG 28, rating: 0 A")) == "yaml-unit");
    CHECK(refusal(with(good, "gauge: AWG 28", "gauge: AWG 28, rating: 1 A")).empty());

    const std::string strap = paralleled(2, ", voltage: 5 V, current: 0.1 A, least: 4 V");
    const auto measured = [&](const char* value) {
        return refusal(
            with(strap, "cell.p0 + s0.a",
                 "{join: cell.p0 + s0.a, contact-resistance: " + std::string(value) + "}"));
    };
    CHECK(measured("20 mohm").empty());
    CHECK(measured("{1: 20 mohm, 4: 90 mohm}").empty());
    CHECK(measured("20 mm") == "yaml-unit");
    CHECK(measured("-20 mohm") == "yaml-unit");
    CHECK(measured("{1: 20 V}") == "yaml-unit");
    CHECK(measured("{5: 20 mohm}") == "contact-unknown");
    CHECK(measured("{0: 20 mohm}") == "contact-unknown");
    CHECK_FALSE(measured("[20 mohm]").empty());
}

}  // namespace pinfold
