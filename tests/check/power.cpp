#include "check/power.hpp"

#include <catch2/catch.hpp>

#include "check/bench.hpp"
#include "check/small_designs.hpp"

namespace pinfold {
namespace {

Power power_in(const std::string& yaml) {
    const Design design = bench_design(yaml);
    return power_of(design, trace(design));
}

/// 5 V over one conductor, back over six.
std::string link_at(const std::string& current) {
    HdmiLink link;
    link.carry += ", voltage: 5.3 V, current: " + current;
    return link.yaml();
}

/// What the sources of a design give and do not get out at its loads.
double lost_by_balance(const Power& power) {
    double watts = 0.0;
    for (const FeedSource& source : power.feeds.sources) {
        watts += source.voltage.value() * source.current.value();
    }
    for (const Feed& feed : power.feeds.feeds) {
        watts -= feed.arriving->value() * feed.current.value();
    }
    return watts;
}

}  // namespace

TEST_CASE("the heat of all links is what is given and does not arrive") {
    const std::string yaml =
        GENERATE(budgeted("input-current: 2 A"), fed(", voltage: 5 V, least: 4 V, current: 0.6 A"));
    const Power power = power_in(yaml);
    CHECK(power.heat.value() > 0.01);
    CHECK(power.heat.value() == Approx(lost_by_balance(power)).epsilon(1e-9));
}

// The 0.5 mm ribbon's 5 V conductor: R' of 0.30 x 0.035 mm at 30 degC, h 10 W/m2K, by hand.
TEST_CASE("the rise of a ribbon's conductors is told, that of its contacts is not") {
    const Power power = power_in(link_at("0.4 A"));
    const double ohm_per_m = (1.0 + 0.00393 * 10.0) / 58.0 / (0.30 * 0.035);
    const double first = 0.4 * 0.4 * ohm_per_m / (2.0 * 10.0 * 0.5e-3);
    const double growth = 0.00393 / (1.0 + 0.00393 * 10.0);
    double most = 0.0;
    std::size_t with_rise = 0;
    for (const LoadedLink& link : power.links) {
        if (!link.rise) continue;
        ++with_rise;
        most = std::max(most, link.rise->rise.value());
    }
    CHECK(with_rise == 7);  // one supply, six grounds
    CHECK(most == Approx(first / (1.0 - growth * first)).epsilon(1e-6));
}

TEST_CASE("a conductor that warms by more than 30 K is told as an estimate") {
    CHECK(told(link_at("0.5 A"), "conductor-hot") ==
          "strap.a.10 warms by about 51 K at 0.50 A; 30 K is the most usual films are held to (an "
          "estimate: still air on both faces, its neighbours as warm)");
    CHECK(told(link_at("1.3 A"), "conductor-hot") ==
          "strap.a.10 warms faster than its film can cool it at 1.30 A; 30 K is the most usual "
          "films are held to (an estimate: still air on both faces, its neighbours as warm)");
}

}  // namespace pinfold
