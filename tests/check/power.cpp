#include "check/power.hpp"

#include <catch2/catch.hpp>
#include <cmath>

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

/// A strip of the 0.5 mm ribbon, 200 mm at 60 degC.
constexpr double strip = (1.0 + 0.00393 * 40.0) / 58.0 * 0.2 / (0.30 * 0.035);

}  // namespace

// Two of strip and two contacts of 30 mohm side by side, out and back, 1.5 A.
TEST_CASE("the drop is split over conductors and contacts") {
    const Power power = power_in(paralleled(2, ", voltage: 5 V, current: 1.5 A, least: 4 V"));
    REQUIRE(power.splits.size() == 1);
    CHECK(power.splits[0].conductors.value() == Approx(1.5 * strip).epsilon(1e-9));
    CHECK(power.splits[0].contacts.value() == Approx(1.5 * 0.06).epsilon(1e-9));
    CHECK(power.splits[0].leads.value() == 0.0);
}

TEST_CASE("the parts of each drop add up to it, converters and shared grounds included") {
    const std::string yaml = GENERATE(budgeted("input-current: 2 A"), link_at("0.3 A"),
                                      paralleled(3, ", voltage: 5 V, power: 3 W, least: 4 V", 2));
    const Power power = power_in(yaml);
    for (std::size_t i = 0; i < power.splits.size(); ++i) {
        const DropSplit& split = power.splits[i];
        const Feed& feed = power.feeds.feeds[i];
        CHECK((split.conductors + split.contacts + split.leads).value() ==
              Approx((feed.drop_out + feed.drop_back).value()).epsilon(1e-9));
    }
}

// With a contact of two open, all of 1.5 A runs in the other: R' + 2 Rc instead of half of it.
TEST_CASE("with one contact of two open the other carries all") {
    const Power power = power_in(paralleled(2, ", voltage: 5 V, current: 1.5 A, least: 4 V"));
    REQUIRE(power.opened.lowest.size() == 1);
    const Feed& then = power.opened.lowest[0].then;
    CHECK((then.drop_out + then.drop_back).value() ==
          Approx(1.5 * (strip + 0.06) * 1.5).epsilon(1e-9));
    const Power single = power_in(fed(", voltage: 5 V, least: 4 V, current: 0.6 A"));
    CHECK(single.opened.lowest.empty());
}

// Worked outside: 2 A over four ways, one open, 0.666667 A each.
TEST_CASE("with one contact of four open the rest carry a third each") {
    const Power power = power_in(paralleled(4, ", voltage: 5 V, current: 0.8 A, least: 4 V"));
    REQUIRE(power.opened.hardest.size() == 1);
    CHECK(std::abs(power.opened.hardest[0].load.current.value()) ==
          Approx(0.8 * 0.666667 / 2.0).epsilon(1e-6));
}

// Whole, 0.3 A lose half of two strips with their contacts; one open makes it three halves of one.
TEST_CASE("a supply that one open contact makes too low is told with the contact") {
    CHECK(
        told(paralleled(2, ", voltage: 5 V, current: 0.3 A, least: 4.85 V"), "one-contact-open") ==
        "with cell.p0.1 open, 5V of '5V cell.p0 to lamp.p0' arrives at 4.802 V, 4.850 V are "
        "needed");
    CHECK(5.0 - 0.3 * 1.5 * (strip + 0.06) == Approx(4.802).margin(0.0005));
    CHECK(told(paralleled(2, ", voltage: 5 V, current: 0.6 A, least: 4 V"), "one-contact-open")
              .starts_with("with cell.p0.1 open, s0.a.2 carries 0.60 A"));
}

TEST_CASE("two voltages stated for one port are told") {
    const std::string two =
        with(paralleled(2, ", voltage: 5 V, current: 0.1 A, least: 4 V"), "carry:\n",
             "carry:\n- {supply: 5V, from: cell.p0, to: lamp.p0, voltage: 5.1 V, current: 0.1 A, "
             "least: 4 V}\n");
    CHECK(told(two, "voltages-differ") ==
          "5V of '5V cell.p0 to lamp.p0' is said to be 5.000 V where it is given, '5V cell.p0 to "
          "lamp.p0' says 5.100 V; the lower was taken for both");
}

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
