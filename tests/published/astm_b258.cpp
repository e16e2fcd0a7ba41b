// ASTM B258, standard nominal diameters and cross-sectional areas of AWG sizes of solid round
// wires, as handbooks' wire tables print it.
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

#include "pinmap/gauge.hpp"

namespace pinfold {
namespace {

struct Row {
    const char* gauge;
    double diameter_mm, half_digit_mm;
    double area_mm2, half_digit_mm2;
};

}  // namespace

TEST_CASE("a gauge has the diameter and area of the wire table", "[published]") {
    const Row row = GENERATE(values<Row>({
        {"AWG 10", 2.588, 0.0005, 5.26, 0.005},
        {"AWG 18", 1.024, 0.0005, 0.823, 0.0005},
        {"AWG 20", 0.812, 0.0005, 0.518, 0.0005},
        {"AWG 22", 0.644, 0.0005, 0.326, 0.0005},
        {"AWG 24", 0.511, 0.0005, 0.205, 0.0005},
        {"AWG 26", 0.405, 0.0005, 0.129, 0.0005},
        {"AWG 28", 0.321, 0.0005, 0.0810, 0.00005},
        {"AWG 30", 0.255, 0.0005, 0.0509, 0.00005},
        {"AWG 32", 0.202, 0.0005, 0.0320, 0.00005},
        {"AWG 36", 0.127, 0.0005, 0.0127, 0.00005},
    }));
    CAPTURE(row.gauge);
    const auto area = read_gauge(row.gauge);
    REQUIRE(area);
    CHECK(area->value() == Approx(row.area_mm2).margin(row.half_digit_mm2).epsilon(0));
    const double diameter_mm = std::sqrt(4.0 * area->value() / std::numbers::pi);
    CHECK(diameter_mm == Approx(row.diameter_mm).margin(row.half_digit_mm).epsilon(0));
}

// NBS Circular 31, Copper Wire Tables: ohm per 1000 ft at 20 degC, with the resistivity of standard
// copper, 1.7241e-8 ohm m (IACS).
TEST_CASE("a gauge has the resistance of the copper wire tables", "[published]") {
    const auto [gauge, ohm_per_1000_ft] = GENERATE(table<const char*, double>({{"AWG 20", 10.15},
                                                                               {"AWG 22", 16.14},
                                                                               {"AWG 24", 25.67},
                                                                               {"AWG 26", 40.81},
                                                                               {"AWG 28", 64.90},
                                                                               {"AWG 30", 103.2},
                                                                               {"AWG 32", 164.1}}));
    CAPTURE(gauge);
    const double area_m2 = read_gauge(gauge)->value() * 1e-6;
    CHECK(1.7241e-8 / area_m2 * 304.8 == Approx(ohm_per_1000_ft).epsilon(0.0005));
}

TEST_CASE("a gauge is AWG 0 to 40 or an area", "[published]") {
    CHECK(read_gauge("0.25 mm2") == SquareMillimetres(0.25));
    CHECK(read_gauge("AWG24") == read_gauge("AWG 24"));
    CHECK(read_gauge("AWG 0"));
    CHECK(read_gauge("AWG 40"));
    for (const char* text : {"AWG", "AWG -1", "AWG 41", "AWG 24.5", "AWG 2/0", "awg 24", "24", "",
                             "0.25", "0 mm2", "-1 mm2", "AWG 24 ", "0.25 mm"}) {
        CAPTURE(text);
        CHECK_FALSE(read_gauge(text));
    }
}

}  // namespace pinfold
