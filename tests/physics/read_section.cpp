// Words we chose; the section of the first case is invented.
#include "physics/read_section.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "physics/field.hpp"
#include "support.hpp"

namespace pinfold {
namespace {

constexpr const char* whole = R"(pinfold-section: 1
conductors:
- {name: g, x: 0, y: 0, width: 0.3, thickness: 0.035}
- {name: a, x: 0.5, y: 0, width: 0.3, thickness: 0.035}
- {name: b, x: 1.2, y: 0, diameter: 0.12}
dielectrics:
- {x-min: -0.3, x-max: 1.5, y-min: -0.1, y-max: 0.1, er: 3.0, loss: 0.01}
ground: [g]
pairs: [[a, b]]
frequency: 1 GHz
)";

/// What is said once `from` in the whole file is `to`.
std::string told(const std::string& from, const std::string& to) {
    std::string text = whole;
    text.replace(text.find(from), from.size(), to);
    return complaint([&] { read_section(text_source(text)); });
}

bool says(const std::string& text, const std::string& part) {
    CAPTURE(text);
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("a section is read whole", "[section]") {
    const Section section = read_section(text_source(whole));
    REQUIRE(section.conductors.size() == 3);
    CHECK(section.conductors[1].width.value() == 0.3);
    CHECK(section.conductors[2].round());
    CHECK(section.dielectrics[0].loss == 0.01);
    CHECK(section.ground == std::vector<std::size_t>{0});
    CHECK(section.pairs[0].minus == 2);
    CHECK(section.frequency->value() == 1e9);
}

TEST_CASE("a section no field can be solved in is refused where it is wrong", "[section]") {
    CHECK(says(told("x: 0.5", "x: 0.2"), "input:4:3: error: conductors 'g' and 'a' overlap"));
    CHECK(says(told("x: 0.5", "x: 0.3"), "input:4:3: error: conductors 'g' and 'a' touch"));
    CHECK(says(told("- {name: b,",
                    "- {name: w, x: 0, y: 1, diameter: 0.4}\n"
                    "- {name: v, x: 0.40001, y: 1, diameter: 0.4}\n- {name: b,"),
               "between 'w' and 'v' there is so little"));
    CHECK(says(told("diameter: 0.12", "diameter: 0.3"), "input:5:3: error: conductor 'b' crosses"));
    CHECK(says(told("x-max: 1.5", "x-max: 0.5"), "conductor 'a' crosses the edge"));
    CHECK(says(told("ground:", "planes: [{y: 0.01}]\nground:"), "conductor 'g' touches a plane"));
    CHECK(says(told("ground:", "planes: [{y: -0.09}]\nground:"), "reaches through a plane"));
    CHECK(says(told("ground:", "planes: [{y: -1}, {y: 1}, {y: 2}]\nground:"), "at most two"));
    CHECK(says(told("ground:", "planes: [{y: -1}, {y: -1}]\nground:"), "two planes are one"));
    CHECK(says(told("ground:", "- {x: 0, y: 0, diameter: 1, er: 2}\nground:"),
               "input:8:3: error: two dielectrics overlap"));
    CHECK(says(told("ground: [g]", ""), "nothing is ground"));
    CHECK(says(told("ground: [g]", "ground: [g, a, b]"), "every conductor is ground"));
    CHECK(says(told("[a, b]", "[a, c]"), "input:9:13: error: no conductor is called 'c'"));
    CHECK(says(told("[a, b]", "[a, g]"), "'g' is ground"));
    CHECK(says(told("[a, b]", "[a, a]"), "two different conductors"));
    CHECK(says(told("[a, b]", "a, b"), "a pair is a list of two"));
    CHECK(says(told("name: a", "name: g"), "two conductors are called 'g'"));
    CHECK(says(told("width: 0.3", "width: 0"), "input:3:32: error: 'width' must be a number"));
    CHECK(says(told("width: 0.3", "width: nan"), "'width' must be a number"));
    CHECK(says(told("er: 3.0", "er: 0.5"), "'er' must be a number from 1 to 1000"));
    CHECK(says(told("x-max: 1.5", "x-max: -0.4"), "x-max above x-min"));
    CHECK(says(told("1 GHz", "1"), "must be a frequency such as '1 GHz'"));
}

TEST_CASE("a section made in code is refused as one that is read", "[section]") {
    Section section = read_section(text_source(whole));
    section.conductors[1].x = Millimetres(0.2);
    CHECK(says(complaint([&] { solve_field(section); }), "overlap"));
}

TEST_CASE("numbers no section is drawn with are refused, each where it stands", "[section]") {
    const double bad =
        GENERATE(std::numeric_limits<double>::quiet_NaN(), HUGE_VAL, -HUGE_VAL, 1e300, -1e300, 1e6);
    CAPTURE(bad);
    const auto refused = [&](auto change) {
        Section section = read_section(text_source(whole));
        change(section, Millimetres(bad));
        return says(complaint([&] { solve_field(section); }), "error: ");
    };
    CHECK(refused([](Section& s, Millimetres mm) { s.conductors[1].x = mm; }));
    CHECK(refused([](Section& s, Millimetres mm) { s.conductors[1].y = mm; }));
    CHECK(refused([](Section& s, Millimetres mm) { s.conductors[1].width = mm; }));
    CHECK(refused([](Section& s, Millimetres mm) { s.conductors[1].thickness = mm; }));
    CHECK(refused([](Section& s, Millimetres mm) { s.conductors[2].diameter = mm; }));
    CHECK(refused([](Section& s, Millimetres mm) { s.dielectrics[0].x_min = mm; }));
    CHECK(refused([](Section& s, Millimetres mm) { s.dielectrics[0].y_max = mm; }));
    CHECK(refused([](Section& s, Millimetres mm) { s.dielectrics[0].loss = mm.value(); }));
    CHECK(refused([](Section& s, Millimetres mm) { s.planes = {{mm, s.at}}; }));
}

}  // namespace pinfold
