// IPC-2221, Generic Standard on Printed Board Design: conductor sizing charts, outer layers.
// The fit I = 0.048 dT^0.44 A^0.725 (A in mil2) is that of public calculators; the currents below
// were worked out of it apart from this program.
#include <catch2/catch.hpp>

#include "physics/trace_heat.hpp"

namespace pinfold {

TEST_CASE("traces warm as the fit of IPC-2221's charts says", "[published]") {
    struct Row {
        double width_mm, thickness_mm, amperes, rise_k;
    };
    const Row row = GENERATE(values<Row>({
        {0.30, 0.035, 0.999067, 10.0},
        {0.50, 0.035, 1.44689, 10.0},
        {1.00, 0.035, 2.39156, 10.0},
        {1.00, 0.035, 3.24440, 20.0},
        {2.00, 0.070, 10.5952, 30.0},
        {0.300387, 0.035, 1.0, 10.0},
        {0.513098, 0.035, 2.0, 20.0},
        {10 * 0.0254, 1.378 * 0.0254, 0.885517, 10.0},
    }));
    CAPTURE(row.width_mm, row.amperes);
    const TraceRise warmed =
        trace_rise(Amperes(row.amperes), Millimetres(row.width_mm), Millimetres(row.thickness_mm));
    // Six digits of the current are good for 2.3 times their error in the rise.
    CHECK(warmed.rise.value() == Approx(row.rise_k).epsilon(2e-5));
    CHECK(warmed.in_range);
}

// 35 A, 100 K, 400 mil: from memory.
TEST_CASE("beyond the charts a trace's rise says so", "[published]") {
    const Millimetres copper(0.07);
    CHECK_FALSE(trace_rise(Amperes(36.0), Millimetres(10.0), copper).in_range);
    CHECK_FALSE(trace_rise(Amperes(10.0), Millimetres(0.5), copper).in_range);
    CHECK_FALSE(trace_rise(Amperes(1.0), Millimetres(10.2), copper).in_range);
    CHECK(trace_rise(Amperes(-20.0), Millimetres(10.0), copper).in_range);
}

}  // namespace pinfold
