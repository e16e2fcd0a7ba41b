#include <catch2/catch.hpp>

#include "pinmap/read.hpp"
#include "support.hpp"

namespace pinfold {
namespace {

const std::string head =
    "pinfold-interface: 1\n"
    "name: two wires\n"
    "source: invented\n"
    "ends: [near, far]\n";
const std::string pair_of_signals =
    "signals:\n"
    "- {signal: D+, role: pair-half, direction: forward}\n"
    "- {signal: D-, role: pair-half, direction: forward}\n"
    "- {signal: DS, role: pair-shield, direction: none}\n"
    "- {signal: 5V, role: supply, direction: forward, also: [VCC]}\n";
const std::string one_pair = "pairs:\n- {pair: D, plus: D+, minus: D-, shield: DS}\n";

std::string refused(const std::string& text) {
    return complaint([&] { read_interface("two", text_source(text)); });
}

Interface read(const std::string& text) { return read_interface("two", text_source(text)); }

}  // namespace

// Inputs: invented. Expected texts: words we chose.
TEST_CASE("an interface is read with its pairs and shields and names") {
    const Interface two = read(head + pair_of_signals + one_pair);
    CHECK(two.id == "two");
    CHECK(two.first_end == "near");
    CHECK(two.second_end == "far");
    REQUIRE(two.pairs.size() == 1);
    CHECK(two.signals[two.pairs[0].plus].name == "D+");
    CHECK(two.signals[two.pairs[0].minus].name == "D-");
    CHECK(two.pairs[0].shield == 2u);
    CHECK(two.signals[2].pair == 0u);
    CHECK(two.find("d_p") == 0u);
    CHECK(two.find("DNEG") == 1u);
    CHECK(two.find("vcc") == 3u);
    CHECK_FALSE(two.crosses());
}

TEST_CASE("a pair half that no pair names is refused") {
    CHECK(refused(head + pair_of_signals) ==
          "input:6:12: error: D+ is a pair half, but no pair names it [pair-half]\n"
          "    - {signal: D+, role: pair-half, direction: forward}\n"
          "               ^\n"
          "input:7:12: error: D- is a pair half, but no pair names it [pair-half]\n"
          "    - {signal: D-, role: pair-half, direction: forward}\n"
          "               ^\n");
}

TEST_CASE("a pair with one half is refused") {
    CHECK(refused(head + pair_of_signals + one_pair + "- {pair: E, plus: D+}\n") ==
          "input:12:3: error: 'minus' is missing [yaml-field-missing]\n"
          "    - {pair: E, plus: D+}\n"
          "      ^\n");
    CHECK(refused(head + pair_of_signals + "pairs:\n- {pair: D, plus: D+, minus: D+}\n")
              .find("input:11:10: error: pair D has D+ as both of its halves [pair-half]\n") == 0);
}

TEST_CASE("a signal in two pairs is refused with both places") {
    CHECK(refused(head + pair_of_signals + one_pair + "- {pair: E, plus: D+, minus: D-}\n")
              .find("input:12:10: error: D+ is a half of two pairs [pair-half]\n"
                    "    - {pair: E, plus: D+, minus: D-}\n"
                    "             ^\n"
                    "input:11:10: note: the first is here\n") == 0);
}

TEST_CASE("a pair of signals with other roles is refused") {
    CHECK(refused(head + pair_of_signals + one_pair + "- {pair: E, plus: 5V, minus: DS}\n")
              .find("input:9:12: error: 5V is a half of pair E but its role is 'supply' "
                    "[pair-half]\n") == 0);
    CHECK(refused(head + pair_of_signals +
                  "pairs:\n- {pair: D, plus: D+, minus: D-, shield: 5V}\n") ==
          "input:9:12: error: 5V is the shield of pair D but its role is 'supply' [pair-shield]\n"
          "    - {signal: 5V, role: supply, direction: forward, also: [VCC]}\n"
          "               ^\n"
          "input:11:10: note: the pair is here\n"
          "    - {pair: D, plus: D+, minus: D-, shield: 5V}\n"
          "             ^\n");
}

TEST_CASE("a shield that serves two pairs belongs to the first") {
    const Interface dvi = shipped_library().interface("dvi", {});
    const auto shield = dvi.find("TMDS Data2/4 Shield");
    REQUIRE(shield);
    CHECK(dvi.pairs[*dvi.signals[*shield].pair].name == "D2");
}

TEST_CASE("a pair of unknown signals is told the nearest") {
    CHECK(refused(head + pair_of_signals + "pairs:\n- {pair: D, plus: DD+, minus: D-}\n")
              .find("input:11:19: error: no signal 'DD+' in this interface (did you mean 'D+'?) "
                    "[signal-unknown]\n"
                    "    - {pair: D, plus: DD+, minus: D-}\n"
                    "                      ^\n") == 0);
}

TEST_CASE("a name that two signals would answer to is refused") {
    CHECK(refused(head + pair_of_signals + "- {signal: d_p, role: low-speed, direction: both}\n" +
                  one_pair) ==
          "input:12:10: error: 'DP' already means d_p [signal-name-twice]\n"
          "    - {pair: D, plus: D+, minus: D-, shield: DS}\n"
          "             ^\n"
          "input:10:12: note: that signal is here\n"
          "    - {signal: d_p, role: low-speed, direction: both}\n"
          "               ^\n");
    CHECK(refused(head + pair_of_signals + one_pair).find("twice") == std::string::npos);
    CHECK(refused(head + "signals:\n- {signal: A, role: low-speed, direction: both, also: [B]}\n"
                         "- {signal: b, role: low-speed, direction: both}\n")
              .find("input:7:12: error: 'b' already means A [signal-name-twice]\n") == 0);
}

TEST_CASE("a name of separators alone is refused") {
    CHECK(
        refused(head + "signals:\n- {signal: A, role: low-speed, direction: both, also: [_]}\n") ==
        "input:6:12: error: '_' is no name for a signal [signal-name]\n"
        "    - {signal: A, role: low-speed, direction: both, also: [_]}\n"
        "               ^\n");
}

TEST_CASE("unknown words are refused with the nearest") {
    CHECK(refused(head + "signals:\n- {signal: A, role: suply, direction: forwards}\n") ==
          "input:6:21: error: 'role' must be one of: pair-half, pair-shield, ground, supply, "
          "low-speed, presence, unused; not 'suply' (did you mean 'supply'?) [yaml-word]\n"
          "    - {signal: A, role: suply, direction: forwards}\n"
          "                        ^\n"
          "input:6:39: error: 'direction' must be one of: forward, back, both, none, outward; not "
          "'forwards' (did you mean 'forward'?) [yaml-word]\n"
          "    - {signal: A, role: suply, direction: forwards}\n"
          "                                          ^\n");
    CHECK(refused(head + "signals:\n- {signal: A, roll: supply}\n").find("unknown field 'roll'") !=
          std::string::npos);
}

TEST_CASE("an interface has two ends with two names") {
    const std::string without = "pinfold-interface: 1\nname: n\nsource: invented\nsignals: []\n";
    const std::string why = "error: 'ends' must name two ends, such as [source, sink]";
    CHECK(refused(without).find("error: 'ends' is missing") != std::string::npos);
    CHECK(refused(without + "ends: [a]\n").find("input:5:7: " + why) == 0);
    CHECK(refused(without + "ends: [a, a]\n").find("input:5:7: " + why) == 0);
    CHECK(refused(without + "ends: [a, b, c]\n").find("input:5:7: " + why) == 0);
}

TEST_CASE("an interface without a source or with an empty one is refused") {
    CHECK(refused("pinfold-interface: 1\nname: n\nends: [a, b]\nsignals: []\n")
              .find("error: 'source' is missing") != std::string::npos);
    CHECK(refused("pinfold-interface: 1\nname: n\nsource: ''\nends: [a, b]\nsignals: []\n")
              .find("input:3:9: error: 'source' is empty") == 0);
}

TEST_CASE("a crossing joins two signals both ways") {
    const Interface two = read(head + pair_of_signals + one_pair + "crosses:\n- [D+, D-]\n");
    CHECK(two.counterpart == std::vector<std::size_t>{1, 0, 2, 3});
    CHECK(two.crosses());
}

TEST_CASE("a crossing of one signal or of three and a second one of a signal are refused") {
    const std::string good = head + pair_of_signals + one_pair;
    const std::string why =
        "input:13:3: error: a crossing names two signals, such as [TX1+, RX1+] "
        "[interface-crosses]\n";
    CHECK(refused(good + "crosses:\n- [D+]\n").find(why) == 0);
    CHECK(refused(good + "crosses:\n- [D+, D-, 5V]\n").find(why) == 0);
    CHECK(refused(good + "crosses:\n- D+\n").find(why) == 0);
    CHECK(refused(good + "crosses:\n- [D+, D-]\n- [D+, 5V]\n")
              .find("input:14:3: error: a signal crosses with one other only "
                    "[interface-crosses]\n") == 0);
}

TEST_CASE("limits rise and each has a source") {
    const std::string good = head + pair_of_signals + one_pair;
    CHECK(refused(good +
                  "limits:\n- {up-to: 2 Gbit/s, source: x}\n- {up-to: 2 Gbit/s, source: x}\n") ==
          "input:14:3: error: limits must stand in rising order of 'up-to' [limit-order]\n"
          "    - {up-to: 2 Gbit/s, source: x}\n"
          "      ^\n");
    CHECK(refused(good + "limits:\n- {up-to: 2 Gbit/s}\n").find("'source' is missing") !=
          std::string::npos);
}

TEST_CASE("a skew is a time or a share of a bit") {
    const Interface two = read(head + pair_of_signals + one_pair +
                               "limits:\n- {up-to: 2 Gbit/s, skew-in-pair: 0.15 UI, "
                               "skew-between-pairs: 2.42 ns, source: invented}\n");
    CHECK(two.limits[0].skew_in_pair_bits == UnitIntervals(0.15));
    CHECK_FALSE(two.limits[0].skew_in_pair);
    CHECK(two.limits[0].skew_between_pairs == 2420.0_ps);
    CHECK(refused(head + pair_of_signals + one_pair +
                  "limits:\n- {up-to: 2 Gbit/s, skew-in-pair: 15 mm, source: x}\n")
              .find("'skew-in-pair' must be a time such as '150 ps', not '15 mm'") !=
          std::string::npos);
}

TEST_CASE("a limit says what the line may do to the signal") {
    const std::string good = head + pair_of_signals + one_pair + "limits:\n- {up-to: 2 Gbit/s, ";
    const Limit limit =
        read(good +
             "loss: 5 dB, crosstalk-below: 20 dB, least-swing: 0.8 V, least-eye: 150 mV, "
             "least-eye-width: 0.5 UI, source: invented}\n")
            .limits.at(0);
    CHECK(limit.loss == Decibels(5.0));
    CHECK(limit.crosstalk_below == Decibels(20.0));
    CHECK(limit.least_swing == 0.8_V);
    CHECK(limit.least_eye == 0.15_V);
    CHECK(limit.least_eye_width == UnitIntervals(0.5));
    CHECK(refused(good + "loss: 5, source: x}\n")
              .find("'loss' must be a ratio such as '12 dB', "
                    "not '5': the unit is missing") != std::string::npos);
    CHECK(refused(good + "crosstalk-below: -20 dB, source: x}\n")
              .find("'crosstalk-below' must be more than nothing, not '-20 dB'") !=
          std::string::npos);
}

TEST_CASE("an eye needs a larger swing to be left of") {
    const std::string good = head + pair_of_signals + one_pair + "limits:\n- {up-to: 2 Gbit/s, ";
    for (const char* swing : {"", "least-swing: 150 mV, "}) {
        CHECK(refused(good + swing + "least-eye: 150 mV, source: x}\n")
                  .find("input:13:3: error: 'least-eye' needs a larger 'least-swing', the voltage "
                        "that is sent [limit-eye]\n") == 0);
    }
}

TEST_CASE("a supply names one supply signal and its window is not upside down") {
    const std::string good = head + pair_of_signals + one_pair + "supplies:\n";
    CHECK(
        refused(good + "- {signal: 5V, least-at-source: 5.3 V, most-at-source: 4.8 V, source: x}\n")
            .find("input:13:3: error: the least voltage is above the most [yaml-number]\n") == 0);
    CHECK(refused(good + "- {signal: DS, source: x}\n")
              .find("input:13:3: error: DS is no supply: its role is 'pair-shield' "
                    "[supply-role]\n") == 0);
    CHECK(refused(good + "- {signal: 5V, source: x}\n- {signal: 5V, source: x}\n")
              .find("input:14:3: error: the supply 5V stands twice [supply-twice]\n") == 0);
    CHECK(refused(good + "- {signal: 6V, source: x}\n")
              .find("no signal '6V' in this interface (did you mean '5V'?)") != std::string::npos);
}

}  // namespace pinfold
