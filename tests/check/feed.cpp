#include "check/feed.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "check/bench.hpp"
#include "check/small_designs.hpp"

// Resistances by hand: 1/58 ohm mm2/m at 20 degC and 0.393 % a kelvin (IEC 60028), all at 60 degC.
// Contacts: 30 mohm in tests/check/shelf/receptacles/good-0.50.yaml (invented), 50 mohm in shipped
// receptacles and wherever no pin map gives one (common practice).
namespace pinfold {
namespace {

constexpr double ohm_mm2_per_m = (1.0 + 0.00393 * 40.0) / 58.0;

/// A conductor of the 0.5 mm ribbon, 0.30 x 0.035 mm.
double conductor(double length_mm) { return ohm_mm2_per_m * length_mm / 1000.0 / (0.30 * 0.035); }

/// A wire by its gauge: d = 0.127 mm * 92^((36 - n) / 39), ASTM B258.
double lead(int gauge, double length_mm) {
    const double diameter = 0.127 * std::pow(92.0, (36.0 - gauge) / 39.0);
    const double area = std::numbers::pi / 4.0 * diameter * diameter;
    return ohm_mm2_per_m * length_mm / 1000.0 / area;
}

/// 5 V over `ways` conductors and back over as many, 200 mm, between two finished boards.
std::string ways(int count, const std::string& least, const std::string& ribbon = {}) {
    Row row(static_cast<std::size_t>(count), "5V");
    row.insert(row.end(), static_cast<std::size_t>(std::max(count, 4 - count)), "GND");
    const std::string port = fmt::format(
        "{{p: {{receptacle: good-0.50, positions: {}, first-contact: left, signals: {}}}}}",
        row.size(), listed(row));
    return "pinfold: 1\ntitle: ways\ndevices:\n  cell: {ports: " + port +
           "}\n  lamp: {ports: " + port +
           "}\nribbons:\n  strap: {type: ffc-0.50, conductors: " + std::to_string(row.size()) +
           ", length: 200 mm, copper: opposite-side" + ribbon +
           "}\njoins: [cell.p + strap.a, strap.b + lamp.p]\ncarry:\n"
           "- {supply: 5V, from: cell.p, to: lamp.p, voltage: 5 V, current: 1.5 A, least: " +
           least + "}\n";
}

Feeds feeds_of(const std::string& yaml) {
    const Design design = bench_design(yaml);
    return solve_feeds(design, trace(design));
}

double lost(const Feed& feed) { return (feed.drop_out + feed.drop_back).value(); }

/// The sum of what the conductors of the first ribbon carry.
double in_ribbon(const std::string& yaml) {
    const Design design = bench_design(yaml);
    const Wiring wiring = trace(design);
    double sum = 0.0;
    for (const LinkLoad& load : solve_feeds(design, wiring).loads) {
        if (wiring.links()[load.link].kind == LinkKind::conductor) sum += load.current.value();
    }
    return sum;
}

/// The HDMI link, its screen fed by a third board over two leads; `more` may ground the logger too.
std::string screen_fed(const std::string& more_leads) {
    HdmiLink link;
    link.carry += ", leave-out: [5V]";
    link.more =
        "- {supply: 5V, from: power.out, to: screen.power, voltage: 5.1 V, least: 4.75 V, current: "
        "0.8 A}\n"
        "leads:\n"
        "  plus: {from: power.out.5V, to: screen.power.5V, gauge: AWG 24, length: 180 mm}\n"
        "  minus: {from: power.out.GND, to: screen.power.GND, gauge: AWG 24, length: 180 mm}\n" +
        more_leads;
    const std::string pads = ", power: {pads: [5V, GND]}}}\n";
    std::string yaml = with(link.yaml(), "logger: {ports: {video: hdmi-a receptacle}}\n",
                            "logger: {ports: {video: hdmi-a receptacle" + pads);
    yaml = with(yaml, "screen: {ports: {video: hdmi-a receptacle}}\n",
                "screen: {ports: {video: hdmi-a receptacle" + pads);
    return with(yaml, "devices:\n", "devices:\n  power: {ports: {out: {pads: [5V, GND]}}}\n");
}

}  // namespace

// 1.5 A, 200 mm, contacts of 30 mohm: 0.58 V of 5 V at 20 degC, 0.660037 V at 60 degC (worked
// outside with 1.7241e-8 ohm m).
TEST_CASE("1.5 A over two conductors and two back lose 0.66 V warm") {
    const Feeds feeds = feeds_of(ways(2, "4 V"));
    REQUIRE(feeds.feeds.size() == 1);
    CHECK(lost(feeds.feeds[0]) == Approx(0.660037).epsilon(3e-5));
    CHECK(lost(feeds.feeds[0]) == Approx(1.5 * (conductor(200.0) + 0.06)).epsilon(1e-9));
    CHECK(feeds.feeds[0].drop_out.value() == Approx(feeds.feeds[0].drop_back.value()));
    CHECK(feeds.feeds[0].arriving->value() == Approx(5.0 - lost(feeds.feeds[0])));
}

TEST_CASE("conductors side by side share a supply, out and back") {
    const int count = GENERATE(2, 3, 4);
    const Feeds feeds = feeds_of(ways(count, "4 V"));
    CHECK(lost(feeds.feeds.at(0)) ==
          Approx(1.5 * 2.0 * (conductor(200.0) + 0.06) / count).epsilon(1e-9));
    std::size_t loaded = 0;
    for (const LinkLoad& load : feeds.loads) {
        CHECK(std::abs(load.current.value()) == Approx(1.5 / count));
        ++loaded;
    }
    CHECK(loaded == static_cast<std::size_t>(2 * count * 3));  // two contacts and a conductor each
}

TEST_CASE("a thicker ribbon loses less") {
    const Feeds feeds = feeds_of(ways(2, "4 V", ", thickness: 0.05 mm"));
    CHECK(lost(feeds.feeds.at(0)) ==
          Approx(1.5 * (conductor(200.0) * 0.035 / 0.05 + 0.06)).epsilon(1e-9));
}

TEST_CASE("a supply that arrives too low is told with what is lost where") {
    CHECK(told(ways(2, "4.35 V"), "supply-low") ==
          "5V of '5V cell.p to lamp.p' arrives at 4.340 V, 4.350 V are needed: of 5.000 V, 330 mV "
          "are lost on the way out and 330 mV on the way back at 1.500 A");
    CHECK(found(verdict_of(ways(2, "4.33 V")).findings, "supply-low").empty());
}

TEST_CASE("leads have the resistance of their gauge and length") {
    const Feeds feeds = feeds_of(fed(", voltage: 5 V, least: 4 V, current: 0.6 A"));
    CHECK(feeds.feeds.at(0).drop_out.value() == Approx(0.6 * lead(28, 500.0)).epsilon(1e-9));
    CHECK(feeds.feeds.at(0).drop_back.value() == Approx(0.6 * lead(28, 500.0)).epsilon(1e-9));
}

TEST_CASE("the return divides over all ways back, through the ground of a third device") {
    const std::string third = "  stand: {ports: {g: {pads: [GND, GND]}}}\n";
    const std::string leads =
        "  one: {from: cell.out.GND, to: stand.g.1, gauge: AWG 28, length: 400 mm}\n"
        "  two: {from: lamp.in.GND, to: stand.g.2, gauge: AWG 28, length: 600 mm}\n";
    const Feeds feeds = feeds_of(fed(", voltage: 5 V, least: 4 V, current: 0.6 A", leads, third));
    // 500 mm beside 400 + 600 mm: a third of the current goes the long way.
    CHECK(feeds.feeds.at(0).drop_back.value() ==
          Approx(0.6 * 2.0 / 3.0 * lead(28, 500.0)).epsilon(1e-9));
}

TEST_CASE("a supply from a third board that shares no ground elsewhere returns by its own lead") {
    const std::string yaml = screen_fed("");
    CHECK(in_ribbon(yaml) == Approx(0.0).margin(1e-9));
    CHECK(feeds_of(yaml).feeds.at(0).drop_back.value() ==
          Approx(0.8 * lead(24, 180.0)).epsilon(1e-9));
    CHECK(errors_of(verdict_of(yaml)) == Texts{});
}

TEST_CASE("once the logger is grounded there too, part of the return flows in the ribbon") {
    const std::string yaml = screen_fed(
        "  link: {from: power.out.GND, to: logger.power.GND, gauge: AWG 24, length: 100 mm}\n");
    // Five ground contacts in each plug, six ground conductors with a contact at each end.
    const double ribbon = 0.05 / 5 + (conductor(120.0) + 0.1) / 6 + 0.05 / 5;
    const double long_way = ribbon + lead(24, 100.0);
    const double short_way = lead(24, 180.0);
    const double share = short_way / (short_way + long_way);
    CHECK(std::abs(in_ribbon(yaml)) == Approx(0.8 * share).epsilon(1e-9));
    CHECK(feeds_of(yaml).feeds.at(0).drop_back.value() ==
          Approx(0.8 * (1.0 - share) * short_way).epsilon(1e-9));
    CHECK(share == Approx(0.17).margin(0.005));
}

// Half an ampere less 30 % of it when all of 20 carry current, 7 of them: 0.5 (1 - 0.3 * 6 / 19).
TEST_CASE("the rating of contact and conductor falls with the share that carries current") {
    const auto yaml = [](const std::string& current) {
        HdmiLink link;
        link.carry += ", voltage: 5.3 V, current: " + current;
        return link.yaml();
    };
    CHECK(0.5 * (1.0 - 0.3 * 6.0 / 19.0) == Approx(0.45263).epsilon(1e-4));
    CHECK(found(verdict_of(yaml("0.452 A")).findings, "contact-current").empty());
    const Verdict verdict = verdict_of(yaml("0.453 A"));
    CHECK(found(verdict.findings, "contact-current").size() == 2);
    CHECK(found(verdict.findings, "conductor-current").size() == 1);
    CHECK(told(yaml("0.9 A"), "conductor-current") ==
          "strap.a.10 carries 0.90 A; with 7 of 20 carrying current its rating is 0.45 A");
    CHECK(found(verdict_of(yaml("0.9 A")).findings, "contact-current")[0].text ==
          "base.tail.10 carries 0.90 A; with 7 of 20 carrying current its rating is 0.45 A");
}

// A rating of 1 A, 30 % less with all of 15 loaded; 2 supplies and 5 grounds carry current.
TEST_CASE("two supply contacts of a finished board share its current") {
    const auto yaml = [](const std::string& current) {
        return direct("dsi-15", "ffc-1.00-bottom",
                      "type: ffc-1.00, conductors: 15, length: 100 mm, copper: opposite-side",
                      "interface: dsi, rate: 1 Gbit/s, current: " + current);
    };
    CHECK(1.0 - 0.3 * 6.0 / 14.0 == Approx(0.8714).epsilon(1e-3));
    CHECK(errors_of(verdict_of(yaml("1.74 A"))) == Texts{});
    CHECK(errors_of(verdict_of(yaml("1.75 A"))) ==
          Texts{"contact-current", "contact-current", "conductor-current"});
}

TEST_CASE("a supply that the far end gives loses voltage the other way") {
    const std::string yaml =
        direct("csi-15", "ffc-1.00-bottom",
               "type: ffc-1.00, conductors: 15, length: 100 mm, copper: opposite-side",
               "interface: csi, rate: 1 Gbit/s, current: 0.25 A, voltage: 3.3 V, least: 3.2 V");
    const Feed feed = feeds_of(yaml).feeds.at(0);
    const double strip = ohm_mm2_per_m * 0.1 / (0.70 * 0.05);
    CHECK(feed.drop_out.value() == Approx(0.25 * (strip + 0.1)).epsilon(1e-9));
    CHECK(feed.drop_back.value() == Approx(0.25 * (strip + 0.1) / 4).epsilon(1e-9));
    CHECK(feed.arriving->value() == Approx(3.3 - lost(feed)));
}

TEST_CASE("two boards that give one supply are told with both contacts") {
    CHECK(told(boxes("DP_PWR"), "supplies-joined") ==
          "one.dp.20 and two.dp.20 both give a supply and are joined");
    CHECK(found(verdict_of(boxes("open")).findings, "supplies-joined").empty());
}

TEST_CASE("5 V from the link and from a third board are joined, whatever the promise calls it") {
    const std::string name = GENERATE("5V", "+5V", "VCC5");
    CAPTURE(name);
    HdmiLink link;
    link.more = "- {supply: " + name +
                ", from: power.out, to: screen.video, voltage: 5 V, least: 4.7 V, current: 0.1 A}\n"
                "leads:\n"
                "  w: {from: power.out.1, to: lid.plug.5V, gauge: AWG 28, length: 10 mm}\n"
                "  g: {from: power.out.2, to: lid.plug.GND, gauge: AWG 28, length: 10 mm}\n";
    const std::string yaml =
        with(link.yaml(), "devices:\n", "devices:\n  power: {ports: {out: {pads: [5V, GND]}}}\n");
    CHECK(told(yaml, "supplies-joined") ==
          "power.out.1 and logger.video.18 both give a supply and are joined");
}

TEST_CASE("nobody's current, voltage or return is told") {
    CHECK(told(fed(", voltage: 5 V, least: 4 V"), "current-missing") ==
          "5V of '5V cell.out to lamp.in' has no stated current, so load and drop were not "
          "checked; give 'current'");
    CHECK(told(fed(", current: 1 A"), "voltage-missing") ==
          "5V of '5V cell.out to lamp.in' has no stated window, so its drop was not judged; give "
          "'voltage' and 'least'");
}

TEST_CASE("a return that is promised and open is told once, as an open ground") {
    const std::string yaml =
        with(fed(", voltage: 5 V, least: 4 V, current: 1 A"), "  minus:", "  # minus:");
    CHECK(errors_of(verdict_of(yaml)) == Texts{"ground-open"});
}

}  // namespace pinfold
