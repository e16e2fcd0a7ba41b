#include "check/supply_trace.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "check/bench.hpp"
#include "check/power.hpp"

// Resistances by hand: 1/58 ohm mm2/m at 20 degC and 0.393 % a kelvin (IEC 60028), at 60 degC.
namespace pinfold {
namespace {

/// 5 V over a board whose 5 V trace is `width` wide and 80 mm long; returns over a plane.
std::string over_board(const std::string& width, const std::string& current) {
    return "pinfold: 1\ntitle: board\n"
           "devices:\n"
           "  cell: {ports: {out: {pads: [5V, 5V, GND]}}}\n"
           "  lamp: {ports: {in: {pads: [5V, GND]}}}\n"
           "boards:\n"
           "  bridge:\n"
           "    stack-up: {copper: 0.035 mm, dielectric: 0.2 mm, er: 4.4}\n"
           "    ports:\n"
           "      near: {pads: [5V, 5V, GND]}\n"
           "      far: {pads: [5V, GND]}\n"
           "    lengths: {5V: 80 mm}\n"
           "    widths: {5V: " +
           width +
           "}\n"
           "leads:\n"
           "  a: {from: cell.out.1, to: bridge.near.1, gauge: AWG 20, length: 10 mm}\n"
           "  b: {from: cell.out.2, to: bridge.near.2, gauge: AWG 20, length: 10 mm}\n"
           "  c: {from: cell.out.3, to: bridge.near.3, gauge: AWG 20, length: 10 mm}\n"
           "  d: {from: bridge.far.1, to: lamp.in.1, gauge: AWG 20, length: 10 mm}\n"
           "  e: {from: bridge.far.2, to: lamp.in.2, gauge: AWG 20, length: 10 mm}\n"
           "carry:\n"
           "- {supply: 5V, from: cell.out, to: lamp.in, voltage: 5 V, least: 4.5 V, current: " +
           current + "}\n";
}

Power power_in(const std::string& yaml) {
    const Design design = bench_design(yaml);
    return power_of(design, trace(design));
}

constexpr double ohm_mm2_per_m = (1.0 + 0.00393 * 40.0) / 58.0;

}  // namespace

TEST_CASE("a trace of known width and length has its resistance in the feed, once") {
    const Power power = power_in(over_board("0.5 mm", "1.2 A"));
    REQUIRE(power.splits.size() == 1);
    const double trace_ohm = ohm_mm2_per_m * 0.080 / (0.5 * 0.035);
    CHECK(power.splits[0].traces.value() == Approx(1.2 * trace_ohm).epsilon(1e-9));
    const DropSplit& split = power.splits[0];
    const Feed& feed = power.feeds.feeds.at(0);
    CHECK((split.conductors + split.contacts + split.leads + split.traces).value() ==
          Approx((feed.drop_out + feed.drop_back).value()).epsilon(1e-9));
    // Two leads side by side to pads of one port: the trace begins where both are joined.
    CHECK(split.leads.value() == Approx(1.2 * 3.5 * ohm_mm2_per_m * 0.010 / 0.51758).epsilon(1e-3));
}

TEST_CASE("without a width the copper of a board has no resistance") {
    const std::string plain = with(over_board("0.5 mm", "1.2 A"), "    widths: {5V: 0.5 mm}\n", "");
    CHECK(power_in(plain).splits.at(0).traces.value() == 0.0);
}

// IPC-2221, outer layer, 1.0 x 0.035 mm: 10 K at 2.39156 A, 20 K at 3.24440 A (worked outside).
TEST_CASE("a trace that warms by more than 10 K is told with where that comes from") {
    CHECK(found(power_in(over_board("1 mm", "2.39 A")).findings, "trace-hot").empty());
    CHECK(told(over_board("1 mm", "3.2444 A"), "trace-hot") ==
          "the trace of 5V on bridge, 1 mm of 0.035 mm copper, warms by about 20 K at 3.24 A "
          "(IPC-2221, outer layer, no plane); 10 K is what its charts are most often read at");
    CHECK(
        told(over_board("0.1 mm", "3.2444 A"), "trace-hot").find("beyond what its charts cover") !=
        std::string::npos);
}

}  // namespace pinfold
