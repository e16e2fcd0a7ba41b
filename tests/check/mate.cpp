#include "check/mate.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "design/pairing.hpp"
#include "support.hpp"

using namespace pinfold;

namespace {

/// An adapter of our own: an HDMI plug and a 20-way receptacle with this side and list; invented.
std::string adapter(const std::string& receptacle, const std::string& list) {
    return "pinfold-board: 1\nports:\n  plug: hdmi-a plug\n  tail: {receptacle: " + receptacle +
           ", positions: 20, first-contact: left, wired: [" + list + "]}\n";
}

const std::string forwards =
    "GND, D2+, D2-, GND, D1+, D1-, GND, SDA, SCL, 5V, HPD, UTIL, CEC, GND, D0+, D0-, GND, CK+, "
    "CK-, GND";
const std::string backwards =
    "GND, CK-, CK+, GND, D0-, D0+, GND, CEC, UTIL, HPD, 5V, SCL, SDA, GND, D1-, D1+, GND, D2-, "
    "D2+, GND";

Mating mated(const std::string& a, const std::string& b, const std::string& copper,
             PairingWords words = {}) {
    Library library = shipped_library();
    words.ribbon = "ffc-0.50";
    if (words.conductors.empty()) words.conductors = "20";
    words.copper = copper;
    const auto source = [](const char* name, const std::string& text) {
        return std::make_shared<const Source>(Source{name, text});
    };
    return mate(pair_boards(source("a.yaml", a), source("b.yaml", b), words, library));
}

std::vector<std::string> errors_of(const Mating& mating) {
    std::vector<std::string> rules;
    for (const Finding& finding : mating.findings) {
        if (finding.severity == Severity::error) rules.push_back(finding.rule);
    }
    return rules;
}

const std::string bottom = "ffc-0.50-bottom";
const std::string top = "ffc-0.50-top";
const std::string both = "ffc-0.50-both";

}  // namespace

// Order by the parity rule (geometry): equal parts and same-side copper mirror, all else as below.
TEST_CASE("parts and copper decide whether two lists mate", "[mate]") {
    struct Row {
        std::string side_a, side_b, copper;
        Order order;
    };
    const Row row = GENERATE(values<Row>({{bottom, bottom, "same-side", Order::mirrored},
                                          {top, top, "same-side", Order::mirrored},
                                          {bottom, top, "same-side", Order::straight},
                                          {bottom, bottom, "opposite-side", Order::straight},
                                          {top, top, "opposite-side", Order::straight},
                                          {top, bottom, "opposite-side", Order::mirrored}}));
    CAPTURE(row.side_a, row.side_b, row.copper);
    const bool mirrored = row.order == Order::mirrored;

    const Mating good = mated(adapter(row.side_a, forwards),
                              adapter(row.side_b, mirrored ? backwards : forwards), row.copper);
    CHECK(good.order == row.order);
    CHECK(good.mates);
    CHECK(good.contacts.size() == 20);

    const Mating bad = mated(adapter(row.side_a, forwards),
                             adapter(row.side_b, mirrored ? forwards : backwards), row.copper);
    CHECK_FALSE(bad.mates);
    CHECK(errors_of(bad) == std::vector<std::string>{"order-mirrored"});
    CHECK_FALSE(bad.findings.front().repairs.empty());
}

TEST_CASE("a pair swapped on one board is told with its repairs", "[mate]") {
    std::string swapped = backwards;
    swapped.replace(swapped.find("D1-, D1+"), 8, "D1+, D1-");
    const Mating mating = mated(adapter(bottom, forwards), adapter(bottom, swapped), "same-side");
    CHECK_FALSE(mating.mates);
    REQUIRE(errors_of(mating) == std::vector<std::string>{"pair-swapped"});
    CHECK(mating.findings.front().repairs ==
          std::vector<std::string>{"exchange D1+ and D1- in the list of a.tail",
                                   "exchange D1+ and D1- in the list of b.tail"});
    CHECK(std::ranges::count(mating.contacts, false, &MateContact::same) == 2);
}

TEST_CASE("a signal that meets an open contact is told, whichever side is open", "[mate]") {
    std::string without = backwards;
    without.replace(without.find("CEC"), 3, "open");
    const std::string full = adapter(bottom, forwards);
    const std::string less = adapter(bottom, without);
    CHECK(errors_of(mated(full, less, "same-side")) == std::vector<std::string>{"signal-open"});
    std::string less_forwards = forwards;
    less_forwards.replace(less_forwards.find("CEC"), 3, "open");
    CHECK(errors_of(mated(adapter(bottom, less_forwards), adapter(bottom, backwards),
                          "same-side")) == std::vector<std::string>{"signal-open"});
}

TEST_CASE("a signal exchanged with an open contact does not mate", "[mate]") {
    std::string moved = backwards;
    moved.replace(moved.find("CEC, UTIL"), 9, "open, CEC");
    std::string first = forwards;
    first.replace(first.find("UTIL, CEC"), 9, "open, CEC");
    const Mating mating = mated(adapter(bottom, first), adapter(bottom, moved), "same-side");
    CHECK_FALSE(mating.mates);
    CHECK_FALSE(errors_of(mating).empty());
}

TEST_CASE("contacts on both sides leave the order open until it is chosen", "[mate]") {
    const std::string a = adapter(bottom, forwards);
    const std::string b = adapter(both, backwards);
    const Mating open = mated(a, b, "same-side");
    CHECK(open.order == Order::either);
    CHECK_FALSE(open.mates);

    PairingWords words;
    words.touches_b = "bottom";
    const Mating chosen = mated(a, b, "same-side", words);
    CHECK(chosen.order == Order::mirrored);
    CHECK(chosen.mates);
}

// Laid flat and straight with both boards face up, same-side copper reaches two bottom receptacles;
// with one board face down it does not (geometry).
TEST_CASE("a lay proves whether the copper touches", "[mate]") {
    const std::string a = adapter(bottom, forwards);
    const std::string b = adapter(bottom, backwards);
    PairingWords words;
    words.lay = "straight";
    const Mating level = mated(a, b, "same-side", words);
    CHECK(level.touch_a);
    CHECK(level.touch_b);
    CHECK(level.mates);

    words.face_b = "down";
    const Mating turned = mated(a, b, "same-side", words);
    CHECK_FALSE(turned.touch_b);
    CHECK_FALSE(turned.mates);
    CHECK(errors_of(turned) == std::vector<std::string>{"copper-away"});
}

TEST_CASE("boards that share grounds and open contacts alone do not mate", "[mate]") {
    std::string grounds = "GND";
    for (int i = 1; i < 20; ++i) grounds += i % 2 == 0 ? ", GND" : ", open";
    const Mating mating =
        mated(adapter(bottom, grounds), adapter(bottom, grounds), "opposite-side");
    CHECK_FALSE(mating.mates);
    CHECK(errors_of(mating) == std::vector<std::string>{"promise-empty"});
}

TEST_CASE("a ribbon with more conductors than contacts is refused, with fewer it is told",
          "[mate]") {
    const std::string a = adapter(bottom, forwards);
    const std::string b = adapter(bottom, backwards);
    PairingWords words;
    words.conductors = "22";
    CHECK(complaint([&] { mated(a, b, "same-side", words); }) ==
          "error: the ribbon has 22 conductors, but a.tail has 20 contacts [ribbon-too-wide]\n"
          "error: the ribbon has 22 conductors, but b.tail has 20 contacts [ribbon-too-wide]\n");
    words.conductors = "18";
    const Mating narrow = mated(a, b, "same-side", words);
    CHECK_FALSE(narrow.mates);
    CHECK(errors_of(narrow) == std::vector<std::string>{"positions-misfit", "positions-misfit"});
}

TEST_CASE("unusual spellings of one signal are the same signal", "[mate]") {
    std::string spelt = backwards;
    spelt.replace(spelt.find("D2-, D2+"), 8, "TMDS_D2_N, tmds data2+");
    CHECK(mated(adapter(bottom, forwards), adapter(bottom, spelt), "same-side").mates);
}
