// New designs: what is written is complete, proved, and checks without an error.
#include <catch2/catch.hpp>

#include "order/new_design.hpp"
#include "order/ordering.hpp"
#include "support.hpp"

using namespace pinfold;

namespace {

Ordering ordering_of(const NewDesign& wanted) {
    Library library = shipped_library();
    return order_design(text_source(new_design_text(wanted, library)), {}, library,
                        {[] { return 0.0; }, 1.0});
}

}  // namespace

// Expected: what the issue asks of a new design.
TEST_CASE("a new link of any interface is proved best and checks without an error", "[order]") {
    const NewDesign wanted = GENERATE(values<NewDesign>({
        {"hdmi", "hdmi-a", "hdmi-a", "ffc-0.50", 19, {}},
        {"hdmi", "hdmi-a", "hdmi-d", "ffc-0.50", 20, {}},
        {"hdmi", "hdmi-c", "hdmi-a", "ffc-0.50", 24, {}},
        {"hdmi", "hdmi-a", "hdmi-a", "ffc-0.50", 30, {}},
        {"hdmi", "hdmi-a", "hdmi-a", "flat-1.27", 20, {}},
        {"displayport", "displayport-source", "displayport-sink", "ffc-0.50", 20, {}},
        {"displayport", "displayport-source", "mini-displayport-sink", "ffc-0.50", 24, {}},
        {"usb-c", "usb-c", "usb-c", "ffc-0.50", 24, 0.9},
        {"usb3", "usb3-a", "usb3-micro-b", "ffc-1.00", 12, 0.5},
        {"usb2", "usb2-a", "usb2-micro-b", "ffc-1.00", 6, 0.5},
        {"dvi", "dvi-d", "dvi-d", "ffc-0.50", 30, {}},
        {"sata-signal", "sata-signal", "sata-signal", "ffc-0.50", 8, {}},
    }));
    CAPTURE(wanted.interface, wanted.connector_a, wanted.connector_b, wanted.conductors);
    const Ordering ordering = ordering_of(wanted);
    REQUIRE(ordering.ribbons.size() == 1);
    CHECK(ordering.ribbons.front().rules.empty());
    CHECK(ordering.all_proved());
    CHECK(ordering.verdict.clean());
    for (const Pass& pass : ordering.verdict.wiring.passes()) CHECK(pass.state == State::good);
}

TEST_CASE("what was written reads back as the design that was checked", "[order]") {
    const Ordering ordering = ordering_of({"hdmi", "hdmi-a", "hdmi-c", "ffc-0.50", 20, {}});
    Library library = shipped_library();
    const Ordering again =
        order_design(text_source(ordering.text), {}, library, {[] { return 0.0; }, 1.0});
    REQUIRE(again.ribbons.size() == 1);
    CHECK(again.text.empty());
    CHECK(again.ribbons.front().drawn == ordering.ribbons.front().best.cost);
    CHECK(again.ribbons.front().best.cost == ordering.ribbons.front().best.cost);
    CHECK(again.ribbons.front().conductors == ordering.ribbons.front().conductors);
}

// Expected: contact by contact what the connector's pin map has; that of csi-15 is a public page's
// and a public device binding's, as the pin map says. A design that joins boards that exist can do
// no more than check.
TEST_CASE("boards that take the ribbon themselves fix the order of a new link", "[order]") {
    const NewDesign wanted = GENERATE(values<NewDesign>({
        {"csi", "csi-15", "csi-15", "ffc-1.00", 15, {}},
        {"csi", "csi-15", "csi-22", "ffc-1.00", 15, {}},
        {"csi", "csi-22", "csi-15", "ffc-1.00", 15, {}},
        {"csi", "csi-22", "csi-22", "ffc-0.50", 22, {}},
        {"dsi", "dsi-15", "dsi-22", "ffc-0.50", 22, {}},
        {"edp", "edp-30", "edp-30", "ffc-0.50", 30, {}},
        {"lvds-panel", "lvds-30", "lvds-30", "ffc-0.50", 30, {}},
    }));
    CAPTURE(wanted.interface, wanted.connector_a, wanted.connector_b);
    const Ordering ordering = ordering_of(wanted);
    CHECK(ordering.verdict.clean());
    for (const Pass& pass : ordering.verdict.wiring.passes()) CHECK(pass.state == State::good);
    const auto strap = std::ranges::find(ordering.ribbons, "strap", &RibbonOrder::ribbon);
    REQUIRE(strap != ordering.ribbons.end());
    CHECK_FALSE(strap->chosen);
    if (wanted.conductors == 15) {
        CHECK(strap->conductors == std::vector<std::string>{"GND", "D0-", "D0+", "GND", "D1-",
                                                            "D1+", "GND", "CK-", "CK+", "GND",
                                                            "IO0", "IO1", "SCL", "SDA", "3V3"});
    }
}

// Expected: a second ribbon at each end; the strap's order is then free, and the best.
TEST_CASE("boards that take another ribbon get an adapter and their own ribbon", "[order]") {
    const NewDesign wanted = GENERATE(values<NewDesign>({
        {"csi", "csi-22", "csi-22", "ffc-1.00", 26, {}},
        {"dsi", "dsi-15", "dsi-15", "ffc-0.50", 20, {}},
    }));
    const Ordering ordering = ordering_of(wanted);
    CHECK(ordering.verdict.clean());
    for (const Pass& pass : ordering.verdict.wiring.passes()) CHECK(pass.state == State::good);
    const auto strap = std::ranges::find(ordering.ribbons, "strap", &RibbonOrder::ribbon);
    REQUIRE(strap != ordering.ribbons.end());
    CHECK(strap->chosen);
    CHECK(strap->best.proved);
    CHECK(strap->lists.size() == 2);
    CHECK(ordering.ribbons.size() == 3);
}
