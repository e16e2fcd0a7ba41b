#include "check/line_change.hpp"

#include <catch2/catch.hpp>

#include "check/ground_inside.hpp"
#include "check/line_edits.hpp"

namespace pinfold {
namespace {

LineMemory& memory() {
    static LineMemory memory;
    return memory;
}

std::vector<LineGroup> measured(const Design& design) {
    return measure_lines(design, trace(design), memory());
}

std::vector<LineChange> changes_of(const std::string& yaml) {
    const Design design = bench_design(yaml);
    const std::vector<LineGroup> groups = measured(design);
    return helpful_changes(design, trace(design), groups.at(0), memory());
}

const LineChange* starting(const std::vector<LineChange>& changes, const std::string& text) {
    const auto found = std::ranges::find_if(
        changes, [&](const LineChange& change) { return change.text.starts_with(text); });
    return found == changes.end() ? nullptr : &*found;
}

}  // namespace

// The order follows from the sentence in the header; the names are HDMI's.
TEST_CASE("the guarded order puts each pair side by side between grounds") {
    const Design design = bench_design(ground_inside().yaml());
    const Wiring wiring = trace(design);
    Row row;
    for (const std::size_t place : guarded_order(design, wiring, 0)) {
        row.push_back(ground_inside().base[place]);
    }
    CHECK(row == Row{"GND", "D2+", "D2-", "GND", "D1+", "D1-", "GND", "D0+",  "D0-", "GND",
                     "CK+", "CK-", "GND", "SDA", "SCL", "5V",  "HPD", "UTIL", "CEC", "GND"});
}

// An independent way to the same figures: a design written in that order from the start.
TEST_CASE("what another order would do is what a link in that order does") {
    const std::vector<LineChange> changes = changes_of(ground_inside().yaml());
    const LineChange* order = starting(changes, "on strap each pair side by side");
    REQUIRE(order);
    HdmiLink link;
    link.base = {"GND", "D2+", "D2-", "GND", "D1+", "D1-", "GND", "D0+",  "D0-", "GND",
                 "CK+", "CK-", "GND", "SDA", "SCL", "5V",  "HPD", "UTIL", "CEC", "GND"};
    link.lid = reversed(link.base);
    const LineFigures figures = figures_of(measured(bench_design(link.yaml())).at(0));
    CHECK(order->figures.z_diff == Approx(figures.z_diff).epsilon(1e-9));
    CHECK(order->figures.crosstalk.value() == Approx(figures.crosstalk.value()).epsilon(1e-9));
    CHECK(order->figures.eye.value() == Approx(figures.eye.value()).epsilon(1e-9));
    CHECK(order->figures.faults == figures.faults);
}

// The same, by a design that states the thickness; 0.05 mm is sold, from memory.
TEST_CASE("thicker copper is told where it brings the impedance into the window") {
    const std::vector<LineChange> changes = changes_of(HdmiLink{}.yaml());
    const LineChange* thicker =
        starting(changes, "conductors of strap 0.05 mm thick instead of 0.035 mm");
    REQUIRE(thicker);
    HdmiLink link;
    link.ribbon += ", thickness: 0.05 mm";
    const LineFigures figures = figures_of(measured(bench_design(link.yaml())).at(0));
    CHECK(thicker->figures.z_diff == Approx(figures.z_diff).epsilon(1e-9));
    CHECK(thicker->figures.faults == figures.faults);
    // Narrower conductors raise the impedance further.
    CHECK_FALSE(starting(changes, "conductors of strap 0.25 mm wide"));
}

// The same, by a design that states the shield; film of 0.06 mm, er 3.0 and loss 0.018 as the
// shipped type has it.
TEST_CASE("a shield is told with what a link under one does") {
    HdmiLink link = ground_inside();
    const std::vector<LineChange> changes = changes_of(link.yaml());
    const auto [text, spacer] =
        GENERATE(std::pair("a foil 0.1 mm off the film of strap", "spacer: 0.1 mm, "),
                 std::pair("a foil 0.25 mm off the film of strap", "spacer: 0.25 mm, "));
    CAPTURE(text);
    const LineChange* shield = starting(changes, text);
    REQUIRE(shield);
    link.ribbon +=
        fmt::format(", shield: {{sides: one, {}er: 3.0, loss: 0.018, joined: both-ends}}", spacer);
    const LineFigures figures = figures_of(measured(bench_design(link.yaml())).at(0));
    CHECK(shield->figures.z_diff == Approx(figures.z_diff).epsilon(1e-9));
    CHECK(shield->figures.crosstalk.value() == Approx(figures.crosstalk.value()).epsilon(1e-9));
    CHECK(shield->figures.eye.value() == Approx(figures.eye.value()).epsilon(1e-9));
    CHECK(shield->figures.faults == figures.faults);
    // A ribbon that has one is offered no other.
    CHECK_FALSE(starting(changes_of(link.yaml()), "a foil"));
}

TEST_CASE("a line without a rate has nothing to gain") {
    HdmiLink link;
    link.carry = "current: 0.05 A";
    CHECK(changes_of(link.yaml()).empty());
}

}  // namespace pinfold
