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
