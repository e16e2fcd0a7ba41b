#include <catch2/catch.hpp>
#include <cmath>

#include "check/bench.hpp"
#include "check/judge_line.hpp"
#include "check/lengths.hpp"

namespace pinfold {
namespace {

/// The link with a stack-up on its base board: 0.2 mm to the plane, er 4.4, the thinnest copper.
std::string on_layers(const std::string& width, const std::string& lengths) {
    HdmiLink link;
    link.lengths_of_base =
        "stack-up: {copper: 0.001 mm, dielectric: 0.2 mm, er: 4.4}\n"
        "    pair-trace: {width: " +
        width + ", gap: 0.2 mm}\n    lengths: " + lengths;
    return link.yaml();
}

std::vector<LineGroup> groups_of(const std::string& yaml) {
    const Design design = bench_design(yaml);
    LineMemory memory;
    return measure_lines(design, trace(design), memory);
}

Findings judged(const std::string& yaml) {
    const Design design = bench_design(yaml);
    LineMemory memory;
    return judge_lines(design, measure_lines(design, trace(design), memory));
}

double skew_of_d2(const std::string& yaml) {
    const PairLine pair = groups_of(yaml).at(0).pairs.at(0);
    CHECK(pair.name == "D2");
    return pair.skew.value();
}

const std::string even = "{D2+: 20 mm, D2-: 20 mm}";

}  // namespace

// Coupled microstrip, Kirschning and Jansen 1984, as in tests/check/board_traces.cpp; the copper
// there has no thickness, here 1/200 of the dielectric.
TEST_CASE("a line has the traces of a board as its stack-up makes them") {
    const std::vector<LineGroup> groups = groups_of(on_layers("0.2 mm", even));
    REQUIRE(groups.at(0).traces.size() == 4);
    CHECK(groups[0].traces[0].board == "base");
    CHECK(groups[0].traces[0].impedance.z_diff == Approx(121.10).epsilon(0.008));
    CHECK(groups_of(HdmiLink{}.yaml()).at(0).traces.empty());
}

// 121.1 ohm and 99.5 ohm by the same closed forms; HDMI wants 85 to 115.
TEST_CASE("traces off the interface's window are told with their board") {
    const Findings off = found(judged(on_layers("0.2 mm", even)), "trace-impedance");
    REQUIRE(off.size() == 1);
    CHECK(off[0].text.find("ohm on the traces of base; hdmi wants 85 to 115 ohm") !=
          std::string::npos);
    CHECK(found(judged(on_layers("0.3 mm", even)), "trace-impedance").empty());
}

// What the longer half has more runs alone: microstrip of Hammerstad and Jensen 1980, effective
// permittivity 3.16782 for a width of one dielectric and er 4.4 (0.2 %). The ribbon's own
// conductors differ a little too, which even traces show.
TEST_CASE("what one half is longer takes the time of a single trace") {
    const std::string uneven = on_layers("0.2 mm", "{D2+: 20 mm, D2-: 10 mm}");
    const double wanted = 10.0 * std::sqrt(3.16782) / 0.299792458;
    CHECK(skew_of_d2(uneven) - skew_of_d2(on_layers("0.2 mm", even)) ==
          Approx(wanted).epsilon(0.01));
    const Design design = bench_design(uneven);
    LineMemory memory;
    for (const PairDelay& pair : pair_delays(design, trace(design), memory)) {
        if (pair.name != "D2") continue;
        CHECK((*pair.plus - *pair.minus).value() == Approx(skew_of_d2(uneven)).epsilon(1e-9));
    }
}

// A shunt of 0.1 pF across 100 ohm at 3 GHz: S21 = 1 / (1 + j w C 50), S11 = 1 - S21 in magnitude
// .093832 and .995588; each half has twice that to ground.
TEST_CASE("a contact's capacitance shunts its pair") {
    Section section;
    for (int i = 0; i < 3; ++i) {
        SectionConductor strip;
        strip.x = Millimetres(i);
        strip.width = Millimetres(0.5);
        strip.thickness = Millimetres(0.05);
        section.conductors.push_back(strip);
    }
    LineMemory memory;
    RibbonPlan ribbon{&memory.field_of(section),
                      Millimetres(1e-6),
                      {Ending::port, Ending::port, Ending::tied},
                      {0, 1},
                      {},
                      {},
                      Farads(0.2e-12),
                      {}};
    ChannelPlan plan{{{{}}, {{}}}, {ribbon}, {Drive{}}, 1, GigabitsPerSecond(1.0)};
    const Sweep swept = sweep(channel_of(plan), Hertz(3e9), 2);
    const Eigen::MatrixXcd s = mixed_mode(swept.points[1], {{0, 1}, {2, 3}});
    CHECK(std::abs(s(0, 0)) == Approx(.093832).margin(2e-5));
    CHECK(std::abs(s(1, 0)) == Approx(.995588).margin(2e-5));
}

}  // namespace pinfold
