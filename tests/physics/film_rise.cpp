#include "physics/film_rise.hpp"

#include <catch2/catch.hpp>

namespace pinfold {
namespace {

struct Film {
    double width_mm, thickness_mm, pitch_mm;

    FilmRise at(double amperes, Celsius air) const {
        return film_rise(Amperes(amperes), SquareMillimetres(width_mm * thickness_mm),
                         Millimetres(pitch_mm), air);
    }
};

constexpr Film half{0.30, 0.035, 0.5};
constexpr Film one{0.70, 0.05, 1.0};

}  // namespace

// I^2 R' / (2 h p) worked outside with 1.7241e-8 ohm m at 20 degC, then dT / (1 - 0.00393 dT):
// 0.5 mm 14.778, 41.05 and 164.2 K; 1.0 mm 2.217, 6.158 and 24.63 K before the second step.
TEST_CASE("a conductor of a film warms as its own pitch of film cools") {
    CHECK(half.at(0.3, 20.0_degC).rise.value() == Approx(15.689).epsilon(1e-4));
    CHECK(half.at(0.5, 20.0_degC).rise.value() == Approx(48.95).epsilon(2e-4));
    CHECK(one.at(1.0, 20.0_degC).rise.value() == Approx(27.27).epsilon(2e-4));
    const auto settled = [](double first) { return first / (1.0 - 0.00393 * first); };
    CHECK(one.at(0.3, 20.0_degC).rise.value() == Approx(settled(2.217)).epsilon(3e-4));
    CHECK(one.at(0.5, 20.0_degC).rise.value() == Approx(settled(6.158)).epsilon(2e-4));
    CHECK(half.at(0.0, 20.0_degC).rise.value() == 0.0);
    CHECK(half.at(-0.3, 20.0_degC).rise == half.at(0.3, 20.0_degC).rise);
}

// 0.00393 * 164.2 = 0.65: it would settle, at 463 K, long melted; 0.00393 * 258 = 1.01 never.
TEST_CASE("a conductor that warms faster than it cools has no temperature") {
    CHECK(half.at(1.0, 20.0_degC).settles);
    CHECK_FALSE(half.at(1.26, 20.0_degC).settles);
}

// The same balance by steps: the heat of the copper as warm as it is, over the film's cooling.
TEST_CASE("in warm air the rise is where heat and cooling meet") {
    double rise = 0.0;
    for (int i = 0; i < 200; ++i) {
        const double ohm_per_m = (1.0 + 0.00393 * (30.0 + rise - 20.0)) / 58.0 / (0.30 * 0.035);
        rise = 0.4 * 0.4 * ohm_per_m / (2.0 * 10.0 * 0.5e-3);
    }
    CHECK(half.at(0.4, 30.0_degC).rise.value() == Approx(rise).epsilon(1e-9));
}

}  // namespace pinfold
