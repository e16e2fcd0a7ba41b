// Two links over one ribbon: each hears the other's pair.
#include <catch2/catch.hpp>

#include "check/bench.hpp"
#include "check/line.hpp"
#include "check/ribbon_section.hpp"

namespace pinfold {
namespace {

/// Links of one or two pairs each between boards with one ribbon.
struct Links {
    Row row;  ///< `D0+` with one link, `one.D0+` and `two.D0+` with two
    std::vector<std::string> names{"one", "two"};
    std::string left_out = ", D1+, D1-";
    std::string rate_of_second = "1.485";
    bool second_comes_back = false;
    int length_mm = 100;

    std::string yaml() const {
        std::string devices, joins, carry;
        for (const std::string& name : names) {
            const bool back = second_comes_back && name == "two";
            devices += fmt::format(
                "  {0}-source: {{ports: {{v: hdmi-a receptacle}}}}\n"
                "  {0}-sink: {{ports: {{v: hdmi-a receptacle}}}}\n",
                name);
            joins += fmt::format(", {0}-source.v + {1}.{0}, {2}.{0} + {0}-sink.v", name,
                                 back ? "right" : "left", back ? "left" : "right");
            carry += fmt::format(
                "- {{interface: hdmi, from: {0}-source.v, to: {0}-sink.v, rate: {1} Gbit/s, "
                "leave-out: [SDA, SCL, 5V, HPD, UTIL, CEC, CK+, CK-, D2+, D2-{2}]}}\n",
                name, name == "two" ? rate_of_second : "1.485", left_out);
        }
        return "pinfold: 1\ntitle: t\ndevices:\n" + devices + "boards:\n" + board("left", row) +
               board("right", reversed(row)) +
               fmt::format(
                   "ribbons:\n  strap: {{type: ffc-0.50, conductors: {}, length: {} mm, "
                   "copper: same-side, lay: [straight], faces: {{a: up, b: up}}}}\n",
                   row.size(), length_mm) +
               "joins: [left.tail + strap.a, strap.b + right.tail" + joins + "]\ncarry:\n" + carry;
    }

private:
    std::string board(const std::string& name, const Row& wired) const {
        std::string text = fmt::format("  {}:\n    ports:\n", name);
        for (const std::string& port : names) text += fmt::format("      {}: hdmi-a plug\n", port);
        return text + fmt::format(
                          "      tail: {{receptacle: ffc-0.50-bottom, positions: {}, "
                          "first-contact: left, wired: {}}}\n",
                          wired.size(), listed(wired));
    }
};

/// The pair D0 of the first link.
PairLine first_pair(const Links& links, LineMemory& memory) {
    const Design design = bench_design(links.yaml());
    const std::vector<LineGroup> groups = measure_lines(design, trace(design), memory);
    REQUIRE(groups.size() == links.names.size());
    return *std::ranges::find(groups.at(0).pairs, "D0", &PairLine::name);
}

const Row side_by_side{"GND", "one.D0+", "one.D0-", "two.D0+", "two.D0-", "GND"};

/// The greatest of a differential wave over the band, from one end and pair to another, by the
/// line alone: its section solved, its ends as the header of `measure_lines` says.
double greatest_by_hand(bool heard_near) {
    const Design design = bench_design(Links{side_by_side}.yaml());
    const PerMetre line = per_metre(solve_field(*section_of(design, design.ribbons[0])), {0});
    LineEnd end{std::vector<Ending>(5, Ending::port), {Ohms(0.05), Henries(1e-9)}, true};
    end.endings[4] = Ending::tied;
    const EndedLine ended{line, Millimetres(100.0), end, end};
    double greatest = 0.0;
    const Signalling signalling{GigabitsPerSecond(1.485)};
    for (int k = 1; k <= 48; ++k) {  // three quarters of the rate in steps of a 64th
        const Hertz frequency = static_cast<double>(k) * signalling.step();
        const auto s = mixed_mode(scattering(ended, frequency), {{0, 1}, {2, 3}, {4, 5}, {6, 7}});
        // Pairs at the left, then at the right; the first one's receiver is at the right.
        greatest = std::max(greatest, std::abs(s(2, heard_near ? 3 : 1)));
    }
    return greatest;
}

}  // namespace

// The same copper with the same bits is the same, whoever promises it.
TEST_CASE("a pair hears that of another promise as it hears one of its own", "[line]") {
    LineMemory memory;
    const PairLine apart = first_pair({side_by_side}, memory);
    const PairLine together =
        first_pair({{"GND", "D0+", "D0-", "D1+", "D1-", "GND"}, {"one"}, ""}, memory);
    CHECK(apart.aggressor == "D0 of two-source.v");
    CHECK(together.aggressor == "D1");
    CHECK(apart.crosstalk.value() == Approx(together.crosstalk.value()).margin(1e-6));
    CHECK(apart.result->eye.opening == Approx(together.result->eye.opening).epsilon(1e-6));
    CHECK(apart.result->eye.opening < apart.result->eye_alone - 0.01);
}

// The exact solution of the line, apart from all that plans channels.
TEST_CASE("what is heard of another promise is what the line itself brings", "[line]") {
    LineMemory memory;
    Links links{side_by_side};
    links.second_comes_back = GENERATE(false, true);
    CAPTURE(links.second_comes_back);
    const double db = 20.0 * std::log10(greatest_by_hand(links.second_comes_back));
    CHECK(first_pair(links, memory).crosstalk.value() == Approx(db).margin(1e-6));
}

// Over 20 mm, where neither grounds nor open conductors resonate within the band; never next to the
// far ground.
TEST_CASE("what another promise brings falls as it is moved away", "[line]") {
    LineMemory memory;
    Links links{{"GND", "one.D0+", "one.D0-", "two.D0+", "two.D0-", "open", "open", "open", "open",
                 "open", "GND"}};
    links.length_mm = 20;
    Row& row = links.row;
    PairLine before = first_pair(links, memory);
    for (std::size_t away = 0; away < 3; ++away) {
        CAPTURE(away);
        std::rotate(row.begin() + 3 + static_cast<std::ptrdiff_t>(away),
                    row.begin() + 5 + static_cast<std::ptrdiff_t>(away),
                    row.begin() + 6 + static_cast<std::ptrdiff_t>(away));
        const PairLine now = first_pair(links, memory);
        CHECK(now.crosstalk < before.crosstalk);
        CHECK(now.result->eye.neighbours < before.result->eye.neighbours);
        before = now;
    }
}

// Fewer edges in the same time, and slower ones.
TEST_CASE("a slower promise beside it takes less of the eye", "[line]") {
    LineMemory memory;
    Links links{side_by_side};
    const double equal = first_pair(links, memory).result->eye.neighbours;
    links.rate_of_second = "0.27";
    CHECK(first_pair(links, memory).result->eye.neighbours < equal);
}

}  // namespace pinfold
