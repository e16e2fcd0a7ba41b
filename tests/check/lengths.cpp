#include "check/lengths.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "check/bench.hpp"
#include "check/line_memory.hpp"
#include "check/small_designs.hpp"

// Delays: length times the root of the permittivity over the speed of light (SI definition), worked
// here. Limits: pinmaps/interfaces/hdmi.yaml and csi.yaml. Designs: words we chose.
namespace pinfold {
namespace {

constexpr double light_mm_per_ps = 0.299792458;

double ps_on_board(double length_mm) { return length_mm * std::sqrt(3.2) / light_mm_per_ps; }

HdmiLink with_base(const std::string& lengths, const std::string& carry = "rate: 1.485 Gbit/s") {
    HdmiLink link;
    link.lengths_of_base = "lengths: {" + lengths + "}";
    link.carry = carry;
    return link;
}

std::vector<PairDelay> delays_in(const Design& design) {
    LineMemory memory;
    return pair_delays(design, trace(design), memory);
}

/// The text of the skew in a pair whose halves differ by so many millimetres on the base board.
std::string skew(double longer_mm, const std::string& rate) {
    return told(
        with_base(fmt::format("D1+: {} mm, D1-: 10 mm", 10.0 + longer_mm), "rate: " + rate).yaml(),
        "skew-in-pair");
}

}  // namespace

TEST_CASE("the delay of a half is that of its traces on both boards and of the ribbon") {
    HdmiLink link = with_base("D1+: 14 mm, D1-: 12 mm");
    link.lengths_of_lid = "lengths: {D1+: 5 mm, D1-: 8 mm}";
    const Design design = bench_design(link.yaml());
    const std::vector<PairDelay> delays = delays_in(design);
    REQUIRE(delays.size() == 4);  // D0, D1, D2, CK in the order of the interface's pairs
    const auto d1 = std::ranges::find(delays, "D1", &PairDelay::name);
    REQUIRE(d1 != delays.end());
    // Slower than light, faster than between films of 0.10 mm, 5.06 ns/m (independent prototype);
    // these are of 0.06 mm. The halves lie alike but for the ribbon's edges.
    const double in_ribbon = d1->plus->value() - ps_on_board(14.0 + 5.0);
    CHECK(in_ribbon > 120.0 / light_mm_per_ps);
    CHECK(in_ribbon < 120.0 * 5.06);
    CHECK(d1->minus->value() == Approx(ps_on_board(12.0 + 8.0) + in_ribbon).margin(0.5));
    CHECK_FALSE(d1->incomplete);
    CHECK(d1->boards == std::set<std::string>{"base", "lid"});
    CHECK(d1->contacts.size() == 2);
}

TEST_CASE("a board's own permittivity sets its delay") {
    HdmiLink link = with_base("D1+: 14 mm, D1-: 12 mm");
    link.lengths_of_base += "\n    permittivity: 4.0";
    const Design design = bench_design(link.yaml());
    const std::vector<PairDelay> delays = delays_in(design);
    const auto d1 = std::ranges::find(delays, "D1", &PairDelay::name);
    CHECK((*d1->plus - *d1->minus).value() == Approx(2.0 * 2.0 / light_mm_per_ps).margin(0.5));
}

// 151 ps at 1.485 Gbit/s, 112 ps at 3.4, 0.15 of a bit at 6: 25 ps.
TEST_CASE("the limit in a pair is that of the first row that reaches the rate") {
    const auto [rate, limit_ps] = GENERATE(table<std::string, double>({
        {"1.485 Gbit/s", 151.0},
        {"1.65 Gbit/s", 151.0},
        {"1.66 Gbit/s", 112.0},
        {"3.4 Gbit/s", 112.0},
        {"3.41 Gbit/s", 0.15 * 1000.0 / 3.41},
        {"6 Gbit/s", 25.0},
    }));
    CAPTURE(rate);
    const double limit_mm = limit_ps * light_mm_per_ps / std::sqrt(3.2);
    // The halves' conductors differ by less than 1 % of the least limit here, 0.25 ps.
    CHECK(skew(limit_mm * 0.99, rate) == "0 of skew-in-pair");
    CHECK_THAT(skew(limit_mm * 1.01, rate),
               Catch::Matchers::StartsWith("the halves of pair D1 arrive ") &&
                   Catch::Matchers::Contains(
                       fmt::format(" ps apart, the limit at {} is {:.1f} ps (", rate, limit_ps)));
}

TEST_CASE("it does not matter which half is longer") {
    HdmiLink link = with_base("D1+: 10 mm, D1-: 40 mm");
    CHECK(errors_of(verdict_of(link.yaml())) == Texts{"skew-in-pair"});
}

TEST_CASE("skew of one board is made good on the other") {
    HdmiLink link = with_base("D1+: 10 mm, D1-: 40 mm");
    link.lengths_of_lid = "lengths: {D1+: 40 mm, D1-: 10 mm}";
    CHECK(found(verdict_of(link.yaml()).findings, "skew-in-pair").empty());
}

// 2.42 ns at 1.485 Gbit/s.
TEST_CASE("pairs are compared by the mean of their halves, the earliest with the latest") {
    const double limit_mm = 2420.0 * light_mm_per_ps / std::sqrt(3.2);
    const auto yaml = [&](double longer_mm) {
        return with_base(
                   fmt::format("D0+: {0} mm, D0-: {0} mm, D1+: 20 mm, D1-: 20 mm, D2+: 10 mm, "
                               "D2-: 10 mm, CK+: 15 mm, CK-: 15 mm",
                               10.0 + longer_mm))
            .yaml();
    };
    CHECK(rules_in(yaml(0.999 * limit_mm)) == Texts{});
    CHECK_THAT(told(yaml(1.01 * limit_mm), "skew-between-pairs"),
               Catch::Matchers::StartsWith("pair D0 arrives 244") &&
                   Catch::Matchers::Contains(
                       " ps after pair D2, the limit at 1.485 Gbit/s is 2420.0 ps ("));
}

TEST_CASE("a length for one half only is told, and not judged") {
    const std::string yaml = with_base("D2+: 900 mm").yaml();
    CHECK(rules_in(yaml) == Texts{"length-missing"});
    CHECK(told(yaml, "length-missing") == "pair D2 has a length for one half only on some board");
}

TEST_CASE("a pair that lacks the lengths another pair has is not compared with it") {
    // 600 mm would be 3580 ps, the limit is 2420 ps.
    HdmiLink link = with_base("D2+: 600 mm, D2-: 600 mm, D1+: 600 mm, D1-: 600 mm");
    const Verdict verdict = verdict_of(link.yaml());
    REQUIRE(rules_of(verdict.findings) == Texts{"length-missing"});
    CHECK(verdict.findings[0].text ==
          "D0, CK of 'hdmi logger.video to screen.video' lack lengths that another pair has, and "
          "were not compared with it");
}

TEST_CASE("no lengths at all are no finding") { CHECK(rules_in(HdmiLink{}.yaml()) == Texts{}); }

TEST_CASE("a rate above the last row, and no rate, are told") {
    CHECK(told(with_base("D2+: 9 mm, D2-: 1 mm", "rate: 6.5 Gbit/s").yaml(), "rate-unlisted") ==
          "hdmi has limits up to 6 Gbit/s, not for 6.5 Gbit/s");
    CHECK(told(with_base("D2+: 9 mm, D2-: 1 mm", "current: 9 mA").yaml(), "rate-missing") ==
          "'hdmi logger.video to screen.video' states no rate, so no limit was applied; give "
          "'rate'");
}

// Two leads of different length: the root of 1.8 (from memory) over the speed of light.
TEST_CASE("halves on leads of different length are skewed by the leads") {
    const auto yaml = [](double minus_mm, const std::string& more = {}) {
        return fmt::format(
            "pinfold: 1\ntitle: leads\ndevices:\n"
            "  one: {{ports: {{p: {{interface: hdmi, pads: [D2+, D2-]}}}}}}\n"
            "  two: {{ports: {{p: {{interface: hdmi, pads: [D2+, D2-]}}}}}}\n"
            "leads:\n"
            "  p: {{from: one.p.1, to: two.p.1, gauge: AWG 30, length: 100 mm}}\n"
            "  m: {{from: one.p.2, to: two.p.2, gauge: AWG 30, length: {} mm}}\n{}"
            "carry:\n- {{interface: hdmi, from: one.p, to: two.p, rate: 1 Gbit/s}}\n",
            minus_mm, more);
    };
    CHECK(rules_in(yaml(133.0)) == Texts{});  // 147.7 ps
    CHECK_THAT(told(yaml(134.0), "skew-in-pair"),
               Catch::Matchers::StartsWith("the halves of pair D2 arrive 152.2 ps apart"));
    // A second lead beside the first does not make the way longer.
    CHECK(rules_in(yaml(100.0,
                        "  q: {from: one.p.1, to: two.p.1, gauge: AWG 30, length: 100 "
                        "mm}\n")) == Texts{});
}

// In this film a wave is slower than light, 3.34 ps/mm, and faster than between films of 0.10 mm,
// 5.06 ps/mm (independent prototype).
TEST_CASE("pairs on two ribbons of different length are skewed by the ribbons") {
    const auto yaml = [](double second_mm) {
        const auto device = [&](const char* name) {
            return fmt::format("  {}:\n    ports:\n", name) +
                   "      p: {interface: csi, pads: [D0-, D0+, CK-, CK+, GND]}\n";
        };
        std::string leads;
        std::string boards;
        for (const auto& [board, dev] : {std::pair{"left", "eye"}, std::pair{"right", "brain"}}) {
            boards += fmt::format(
                "  {}:\n    ports:\n"
                "      pads: {{pads: [A, B, C, D, GND]}}\n",
                board);
            boards +=
                "      t1: {receptacle: ffc-0.50-bottom, positions: 4, first-contact: left, "
                "wired: [GND, A, B, GND]}\n"
                "      t2: {receptacle: ffc-0.50-bottom, positions: 4, first-contact: left, "
                "wired: [GND, C, D, GND]}\n";
            for (int i = 1; i <= 5; ++i) {
                leads += fmt::format(
                    "  {0}{1}: {{from: {2}.p.{1}, to: {0}.pads.{1}, gauge: AWG "
                    "30, length: 10 mm}}\n",
                    board, i, dev);
            }
        }
        const auto ribbon = [](const char* name, double mm) {
            return fmt::format(
                "  {}: {{type: ffc-0.50, conductors: 4, length: {} mm, copper: "
                "opposite-side}}\n",
                name, mm);
        };
        return "pinfold: 1\ntitle: two\ndevices:\n" + device("eye") + device("brain") +
               "boards:\n" + boards + "ribbons:\n" + ribbon("r1", 50.0) + ribbon("r2", second_mm) +
               "leads:\n" + leads +
               "joins: [left.t1 + r1.a, r1.b + right.t1, left.t2 + r2.a, r2.b + right.t2]\n"
               "carry:\n- {interface: csi, from: eye.p, to: brain.p, rate: 1 Gbit/s}\n";
    };
    // 0.1 of a bit at 1 Gbit/s: 100 ps.
    CHECK(errors_of(verdict_of(yaml(69.0))) == Texts{});  // 19 mm more: 96 ps at most
    CHECK(errors_of(verdict_of(yaml(80.0))) == Texts{"skew-between-pairs"});  // 100.1 ps at least
}

}  // namespace pinfold
