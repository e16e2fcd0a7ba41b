#include "check/rules.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>

#include "check/bench.hpp"
#include "check/small_designs.hpp"

namespace pinfold {
namespace {

/// A design in which a rule must be found, and the nearest one in which it must not.
struct Showing {
    std::string rule, bad, good;
};

const HdmiLink good_link;

std::string but(std::string HdmiLink::*field, const char* value) {
    HdmiLink link;
    link.*field = value;
    return link.yaml();
}

std::string with_lid(const Row& row) {
    HdmiLink link;
    link.lid = row;
    return link.yaml();
}

/// The link with both lists changed alike, so that every signal still arrives.
std::string ordered(const Row& base) {
    HdmiLink link;
    link.base = base;
    link.lid = reversed(base);
    return link.yaml();
}

Row opened(Row row, std::initializer_list<std::size_t> contacts) {
    for (const std::size_t contact : contacts) row.at(contact - 1) = "open";
    return row;
}

std::vector<Showing> sitting() {
    const std::string good = good_link.yaml();
    return {
        {"order-open", with(good, listed(good_link.base), "best"), good},
        {"gender-misfit", but(&HdmiLink::screen, "hdmi-a plug"), good},
        {"body-misfit", but(&HdmiLink::screen, "hdmi-c receptacle"), good},
        {"pitch-misfit", with(good, "type: ffc-0.50", "type: ffc-1.00"), good},
        {"positions-misfit", with(good, "conductors: 20", "conductors: 18"), good},
        {"end-thickness-misfit",
         but(&HdmiLink::lid_mouth, "receptacle: thin-0.50, first-contact: left"), good},
        {"ribbon-loose", with(good, "- strap.b + lid.tail\n", ""), good},
        {"copper-away", with(good, "b: up", "b: down"), good},
        {"lay-unknown", but(&HdmiLink::lay, ""), good},
        {"either-way-up", either("[SDA, SCL, SCL, SDA]"),
         either("[SDA, SCL, SCL, SDA]", "{join: strap.b + two.p, touches: top}")},
    };
}

std::vector<Showing> promised() {
    const std::string good = good_link.yaml();
    const Row& lid = good_link.lid;
    const Row shields{"CKS", "CK-", "CK+", "CKS", "D0-", "D0+", "D0S", "CEC", "UTIL", "HPD",
                      "5V",  "SCL", "SDA", "D1S", "D1-", "D1+", "D1S", "D2-", "D2+",  "D2S"};
    const auto apart = [](const std::string& yaml) {
        return with(yaml, "  lid:\n", "  lid:\n    ground: separate\n");
    };
    Row whole = shields;
    whole[0] = "GND";
    return {
        {"end-misfit", with(boxes("open"), "from: one.dp, to: two.dp", "from: two.dp, to: one.dp"),
         boxes("open")},
        {"promise-empty", pads("[SDA]", "[SDA]", ", leave-out: [SDA]"), pads("[SDA]", "[SDA]")},
        {"not-promised", pads("[SDA, SCL]", "[SDA]"),
         pads("[SDA, SCL]", "[SDA]", ", leave-out: [SCL]")},
        {"order-mirrored", with_lid(good_link.base), good},
        {"order-shifted", with_lid(moved(lid, 1)), good},
        {"connector-order", boxes("open", "displayport-source"), boxes("open")},
        {"rows-exchanged", header("[B, A, D, C, F, E, GND, GND]"),
         header("[A, B, C, D, E, F, GND, GND]")},
        {"counterpart-uncrossed", usb(usb_named), usb(usb_crossed)},
        {"lanes-exchanged", with_lid(exchanged(exchanged(lid, 2, 5), 3, 6)), good},
        {"pair-swapped", with_lid(exchanged(lid, 15, 16)), good},
        {"link-open", with(good, "- lid.plug + screen.video\n", ""), good},
        {"signal-open", with_lid(opened(lid, {8})), with_lid(opened(lid, {9}))},
        {"ground-open", apart(with_lid(shields)), apart(with_lid(whole))},
        {"optional-open", with_lid(opened(lid, {9})), good},
        {"signal-wrong", with_lid(exchanged(lid, 8, 12)), good},
        {"signal-shorted", with_lid(exchanged(lid, 1, 2)), good},
        {"supplies-joined", boxes("DP_PWR"), boxes("open")},
    };
}

std::vector<Showing> in_order() {
    const std::string good = good_link.yaml();
    const Row& row = good_link.base;
    return {
        {"pair-split", ordered(exchanged(row, 3, 4)), good},
        {"pair-unguarded", ordered(exchanged(row, 1, 13)), good},
        {"supply-beside-pair", ordered(exchanged(row, 7, 10)), good},
        {"clock-beside-pair", ordered(exchanged(row, 7, 9)), good},
        {"grounds-few", ordered(opened(row, {1, 14, 20})), ordered(opened(row, {1, 20}))},
        {"guard-one-end", with_lid(opened(good_link.lid, {4})), good},
        {"mirror-hazard", ordered(exchanged(row, 10, 12)), good},
    };
}

/// One port that feeds two lamps, promised at 5 V and at another voltage.
std::string twice_given(const std::string& voltage) {
    const std::string more =
        "  a: {from: cell.out.5V, to: shelf.in.5V, gauge: AWG 28, length: 9 mm}\n"
        "  b: {from: cell.out.GND, to: shelf.in.GND, gauge: AWG 28, length: 9 mm}\n";
    return fed(", voltage: 5 V, least: 4 V, current: 0.1 A", more,
               "  shelf: {ports: {in: {pads: [5V, GND]}}}\n") +
           "- {supply: 5V, from: cell.out, to: shelf.in, voltage: " + voltage +
           ", least: 4 V, current: 0.1 A}\n";
}

/// Two camera receptacles on opposite edges, contact 1 of both on the left: the rows run against
/// each other, and the halves of the clock, 2 ps apart at most, get traces of unlike length.
std::string camera_link(const std::string& lengths) {
    return R"(pinfold: 1
title: Camera
devices:
  camera: {ports: {link: {connector: csi-15 receptacle, receptacle: ffc-1.00-bottom, first-contact: left}}}
  host: {ports: {link: {connector: csi-22 receptacle, receptacle: ffc-0.50-bottom, first-contact: left}}}
boards:
  adapter:
    ports:
      wide: {connector: csi-15 receptacle, receptacle: ffc-1.00-bottom, first-contact: left}
      narrow: {connector: csi-22 receptacle, receptacle: ffc-0.50-bottom, first-contact: left, like: wide}
    )" + lengths +
           R"(
ribbons:
  mast: {type: ffc-1.00, conductors: 15, length: 200 mm, copper: opposite-side, lay: [straight], faces: {a: up, b: down}}
  desk: {type: ffc-0.50, conductors: 22, length: 60 mm, copper: opposite-side, lay: [straight], faces: {a: up, b: down}}
joins:
- camera.link + mast.a
- mast.b + adapter.wide
- adapter.narrow + desk.a
- desk.b + host.link
carry:
- {interface: csi, from: camera.link, to: host.link, rate: 1 Gbit/s, current: 0.25 A}
)";
}

std::vector<Showing> measured() {
    const std::string good = good_link.yaml();
    const std::string full = ", voltage: 5 V, least: 4.9 V, current: ";
    const std::string switch_device = "  solar: {ports: {out: {pads: [5V]}}}\n";
    const std::string lead =
        "  extra: {from: solar.out.5V, to: lamp.in.5V, gauge: AWG 28, length: 9 mm}\n";
    const std::string kept = ordered(exchanged(good_link.base, 3, 4)) +
                             "accept:\n- {rule: pair-split, where: strap, why: measured}\n";
    return {
        {"skew-in-pair", but(&HdmiLink::lengths_of_base, "lengths: {D2+: 60 mm, D2-: 10 mm}"),
         but(&HdmiLink::lengths_of_base, "lengths: {D2+: 30 mm, D2-: 10 mm}")},
        {"skew-between-pairs",
         but(&HdmiLink::lengths_of_base,
             "lengths: {D2+: 500 mm, D2-: 500 mm, D1+: 10 mm, D1-: 10 mm}"),
         but(&HdmiLink::lengths_of_base,
             "lengths: {D2+: 300 mm, D2-: 300 mm, D1+: 10 mm, D1-: 10 mm}")},
        {"skew-estimated", camera_link(""),
         camera_link(
             "lengths: {CK+: 9 mm, CK-: 9 mm, D0+: 9 mm, D0-: 9 mm, D1+: 9 mm, D1-: 9 mm}")},
        {"length-missing", but(&HdmiLink::lengths_of_base, "lengths: {D2+: 10 mm}"), good},
        {"rate-missing", but(&HdmiLink::carry, "current: 50 mA"), good},
        {"rate-unlisted", but(&HdmiLink::carry, "rate: 6.1 Gbit/s"),
         but(&HdmiLink::carry, "rate: 6 Gbit/s")},
        {"conductor-current", but(&HdmiLink::carry, "rate: 1 Gbit/s, current: 0.6 A"), good},
        {"conductor-hot", but(&HdmiLink::carry, "rate: 1 Gbit/s, voltage: 5.2 V, current: 0.42 A"),
         but(&HdmiLink::carry, "rate: 1 Gbit/s, voltage: 5.2 V, current: 0.38 A")},
        {"contact-current", but(&HdmiLink::carry, "rate: 1 Gbit/s, current: 0.6 A"), good},
        {"supply-low", fed(full + "0.6 A"), fed(full + "0.2 A")},
        {"supply-high", but(&HdmiLink::carry, "rate: 1 Gbit/s, voltage: 5.6 V"),
         but(&HdmiLink::carry, "rate: 1 Gbit/s, voltage: 5.2 V")},
        {"lead-current", fed(full + "0.91 A"), fed(full + "0.8 A")},
        {"supply-collapse", fed(", voltage: 5 V, least: 1 V, power: 40 W"),
         fed(", voltage: 5 V, least: 1 V, power: 2 W")},
        {"stage-overloaded", budgeted("input-current: 1.3 A"), budgeted("input-current: 1.5 A")},
        {"stage-window", budgeted("kind: buck"), budgeted("kind: boost")},
        {"battery-overloaded", budgeted("input-current: 9 A", "current: 1.3 A"),
         budgeted("input-current: 9 A", "current: 1.5 A")},
        {"supply-unpromised", fed(full + "0.2 A", lead, switch_device),
         fed(full + "0.2 A", {}, switch_device)},
        {"one-contact-open", paralleled(2, ", voltage: 5 V, current: 1 A, least: 4.5 V"),
         paralleled(2, ", voltage: 5 V, current: 0.3 A, least: 4.5 V")},
        {"open-untried", paralleled(30, ", voltage: 5 V, current: 1 A, least: 4.5 V", 4),
         paralleled(4, ", voltage: 5 V, current: 1 A, least: 4.5 V", 6)},
        {"voltages-differ", twice_given("5.1 V"), twice_given("5.0 V")},
        {"current-missing", fed(", voltage: 5 V, least: 4.9 V"), fed(full + "0.2 A")},
        {"voltage-missing", fed(", current: 0.2 A"), fed(full + "0.2 A")},
        {"return-missing",
         with(with(fed(full + "0.2 A"), "[5V, GND]", "[5V, open]"), "cell.out.GND", "cell.out.2"),
         fed(full + "0.2 A")},
        {"pinmap-doubtful", usb(usb_crossed), good},
        {"acceptance-unused", good + "accept:\n- {rule: pair-split, where: strap, why: measured}\n",
         kept},
    };
}

std::vector<Showing> every_showing() {
    std::vector<Showing> all;
    for (const std::vector<Showing>& some : {sitting(), promised(), in_order(), measured()}) {
        all.insert(all.end(), some.begin(), some.end());
    }
    return all;
}

std::string text_of(const std::filesystem::path& file) {
    std::ifstream in(file);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// Names that a source gives to findings: after a severity, or first in what complains.
std::set<std::string> names_given(const std::string& text) {
    static const std::regex given(
        "(?:Severity::[a-z]+,\\s*|\\b(?:complain|refuse|doubt|remark|fault|told|about)[a-z_]*\\("
        "\\s*"
        "(?:[^\"();]*,\\s*)?)\"([a-z0-9]+(?:-[a-z0-9]+)+)\"");
    std::set<std::string> names;
    for (std::sregex_iterator at(text.begin(), text.end(), given), end; at != end; ++at) {
        names.insert((*at)[1]);
    }
    return names;
}

/// Names in quotes that look like a rule's, in all sources of a folder but the table of rules.
std::set<std::string> quoted_names(const std::filesystem::path& folder) {
    static const std::regex name("\"([a-z]+(-[a-z]+)+)\"");
    std::set<std::string> names;
    for (const auto& file : std::filesystem::directory_iterator(folder)) {
        if (file.path().extension() != ".cpp" || file.path().stem() == "rules" ||
            file.path().stem() == "refusals") {
            continue;
        }
        const std::string text = text_of(file.path());
        for (std::sregex_iterator at(text.begin(), text.end(), name), end; at != end; ++at) {
            names.insert((*at)[1]);
        }
    }
    return names;
}

}  // namespace

// Designs and rules: words we chose.
TEST_CASE("every rule is found where it must be, and not in the nearest good design") {
    for (const Showing& showing : every_showing()) {
        CAPTURE(showing.rule);
        const Rule* rule = find_rule(showing.rule);
        REQUIRE(rule);
        const Findings some = found(verdict_of(showing.bad).findings, showing.rule);
        CHECK_FALSE(some.empty());
        CHECK(std::ranges::all_of(some,
                                  [&](const Finding& f) { return f.severity == rule->severity; }));
        CHECK(std::ranges::all_of(some, [](const Finding& f) { return !f.places.empty(); }));
        CHECK(found(verdict_of(showing.good).findings, showing.rule).empty());
    }
}

TEST_CASE("no rule is dead: each is shown by a design here") {
    // Shown in tests/check/check.cpp, and by lines in tests/check/line.cpp and judge_line.cpp.
    std::set<std::string> shown{"pinmap-own", "eye-closed", "eye-low", "impedance-off",
                                "crosstalk-high", "loss-high", "ground-resonance", "model-limit",
                                "line-untried",
                                // shown in tests/check/trace_line.cpp and supply_trace.cpp
                                "trace-impedance", "trace-hot",
                                // shown in tests/breakout/breakout.cpp
                                "placing-undrawn",
                                // shown in tests/cli/line.yaml and section.yaml
                                "line-broken", "line-absent", "field-coarse"};
    for (const char* rule :  // shown in tests/check/compare.cpp
         {"part-missing", "part-matched", "part-doubtful", "part-in-series", "part-unfitted",
          "part-joins-nets", "pad-missing", "pad-extra", "drawn-connectors-exchanged",
          "drawn-mirrored", "drawn-rows-exchanged", "drawn-rows-numbered", "drawn-shifted",
          "drawn-pairs-exchanged", "drawn-pair-swapped", "drawn-pads-exchanged", "drawn-misplaced",
          "drawn-open", "drawn-short"}) {
        shown.insert(rule);
    }
    for (const char* rule :  // doubts and remarks of readers, shown in tests/exchange and tests/cli
         {"adopt-gender", "adopt-first-contact", "adopt-pad", "adopt-part", "adopt-name",
          "adopt-open", "adopt-ground", "adopt-series", "net-twice", "netlist-stranger",
          "netlist-columns", "footprint-missing", "footprint-library", "pad-unplaced",
          "pin-list-heading", "reading-between"}) {
        shown.insert(rule);
    }
    for (const Showing& showing : every_showing()) shown.insert(showing.rule);
    for (const Rule& rule : all_rules()) {
        CAPTURE(rule.name);
        CHECK(shown.contains(std::string(rule.name)));
    }
    CHECK(shown.size() == all_rules().size());
}

TEST_CASE("every name that a check finds something by is a rule with an explanation") {
    const std::set<std::string> names = quoted_names(repository() / "lib/check");
    CHECK(names.size() > 80);  // doubts and remarks of readers are named elsewhere
    for (const std::string& name : names) {
        CAPTURE(name);
        CHECK(find_rule(name));
    }
    for (const Rule& rule : all_rules()) {
        CAPTURE(rule.name);
        CHECK_FALSE(rule.summary.empty());
        CHECK(rule.why.ends_with('.'));
        CHECK_FALSE(rule.source.empty());
        CHECK(find_rule(rule.name) == &rule);
    }
    CHECK_FALSE(find_rule("pair"));
}

TEST_CASE("every name in brackets, of a finding or of a refusal, can be explained") {
    std::set<std::string> names;
    for (const char* folder : {"lib", "cli"}) {
        for (const auto& file :
             std::filesystem::recursive_directory_iterator(repository() / folder)) {
            if (file.path().extension() == ".cpp") names.merge(names_given(text_of(file.path())));
        }
    }
    CHECK(names.size() > 180);
    for (const std::string& name : names) {
        CAPTURE(name);
        CHECK((find_rule(name) || find_refusal(name)));
    }
    CHECK_FALSE(find_refusal("no-such-thing"));
}

}  // namespace pinfold
