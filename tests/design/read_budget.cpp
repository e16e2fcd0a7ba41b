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
    CHECK(changed("energy: 10 Wh", "enrgy: 10 Wh") == "yaml-field-missing");
}

}  // namespace pinfold
