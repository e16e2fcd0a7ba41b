// A pair and a single signal of another promise over one ribbon.
#include <catch2/catch.hpp>

#include "check/bench.hpp"
#include "check/line.hpp"
#include "check/ribbon_section.hpp"

namespace pinfold {
namespace {

/// One pair of HDMI and one wire of a serial port between two boards.
struct Wires {
    std::string serial_rate = ", rate: 0.1 Gbit/s";
    std::string single = "SDO";
    std::string left_out = "SDI";

    std::string yaml() const {
        const Row row{"GND", "D0+", "D0-", "serial." + single, "GND"};
        return "pinfold: 1\ntitle: t\ndevices:\n"
               "  player: {ports: {v: hdmi-a receptacle}}\n"
               "  screen: {ports: {v: hdmi-a receptacle}}\n"
               "  brain: {ports: {s: serial-3 receptacle}}\n"
               "  lamp: {ports: {s: serial-3 receptacle}}\n"
               "boards:\n" +
               board("left", row) + board("right", reversed(row)) +
               "ribbons:\n  strap: {type: ffc-0.50, conductors: 5, length: 100 mm, "
               "copper: same-side, lay: [straight], faces: {a: up, b: up}}\n"
               "joins: [player.v + left.video, right.video + screen.v, brain.s + left.serial, "
               "right.serial + lamp.s, left.tail + strap.a, strap.b + right.tail]\n"
               "carry:\n"
               "- {interface: hdmi, from: player.v, to: screen.v, rate: 1.485 Gbit/s, leave-out: "
               "[SDA, SCL, 5V, HPD, UTIL, CEC, CK+, CK-, D1+, D1-, D2+, D2-]}\n" +
               fmt::format(
                   "- {{interface: serial, from: brain.s, to: lamp.s{}, leave-out: [{}]}}\n",
                   serial_rate, left_out);
    }

private:
    static std::string board(const std::string& name, const Row& wired) {
        return fmt::format(
            "  {}:\n    ports:\n      video: hdmi-a plug\n      serial: serial-3 plug\n"
            "      tail: {{receptacle: ffc-0.50-bottom, positions: 5, first-contact: left, "
            "wired: {}}}\n",
            name, listed(wired));
    }
};

LineGroup line_of(const Wires& wires, LineMemory& memory) {
    const Design design = bench_design(wires.yaml());
    const std::vector<LineGroup> groups = measure_lines(design, trace(design), memory);
    REQUIRE(groups.size() == 1);
    return groups[0];
}

/// The greatest difference of the pair's halves over the band for a volt on the single's conductor,
/// by the line alone; the pair listens at the right.
double greatest_by_hand(bool sent_at_right) {
    const Design design = bench_design(Wires{}.yaml());
    const PerMetre line = per_metre(solve_field(*section_of(design, design.ribbons[0])), {0});
    LineEnd end{std::vector<Ending>(4, Ending::port), {Ohms(0.05), Henries(1e-9)}, true};
    end.endings[3] = Ending::tied;
    const EndedLine ended{line, Millimetres(100.0), end, end};
    double greatest = 0.0;
    const Signalling signalling{GigabitsPerSecond(1.485)};
    for (int k = 1; k <= 48; ++k) {  // three quarters of the rate in steps of a 64th
        const auto s = scattering(ended, static_cast<double>(k) * signalling.step());
        const int from = sent_at_right ? 5 : 2;
        greatest = std::max(greatest, std::abs(s(3, from) - s(4, from)));
    }
    return greatest;
}

}  // namespace

// The exact solution of the line, apart from all that plans channels.
TEST_CASE("a single of another promise is heard as the line itself brings it", "[line]") {
    LineMemory memory;
    Wires wires;
    const bool back = GENERATE(false, true);
    if (back) wires.single = "SDI", wires.left_out = "SDO";
    const LineGroup line = line_of(wires, memory);
    const std::string name = wires.single + " of brain.s";
    CHECK(line.heard == std::vector<std::string>{name});
    REQUIRE(line.pairs.size() == 1);
    CHECK(line.pairs[0].aggressor == name);
    CHECK(line.pairs[0].crosstalk.value() ==
          Approx(20.0 * std::log10(greatest_by_hand(back))).margin(1e-6));
    CHECK(line.uncounted.empty());
}

TEST_CASE("a single whose rate nobody states is not heard", "[line]") {
    LineMemory memory;
    Wires wires;
    wires.serial_rate = "";
    const LineGroup line = line_of(wires, memory);
    CHECK(line.heard.empty());
    CHECK(line.pairs.at(0).aggressor.empty());
    CHECK(line.pairs[0].result->eye.neighbours == 0.0);
}

// HDMI sends 0.8 V at least, the invented port 3.2 V: the line is linear.
TEST_CASE("a single takes of the eye in proportion to what it sends", "[line]") {
    Design design = bench_design(Wires{}.yaml());
    LineMemory memory;
    const auto taken = [&] {
        return measure_lines(design, trace(design), memory)
            .at(0)
            .pairs.at(0)
            .result->eye.neighbours;
    };
    const double whole = taken();
    CHECK(whole > 0.0);
    design.interfaces.at("serial").limits.at(0).least_swing = Volts(0.8);
    CHECK(taken() == Approx(whole / 4.0).epsilon(1e-9));
}

// Edges in proportion to the bits: slower ones couple less.
TEST_CASE("a slower single takes less of the eye", "[line]") {
    LineMemory memory;
    Wires wires;
    const double fast = line_of(wires, memory).pairs.at(0).result->eye.neighbours;
    wires.serial_rate = ", rate: 0.2 Gbit/s";
    CHECK(line_of(wires, memory).pairs.at(0).result->eye.neighbours > fast);
}

}  // namespace pinfold
