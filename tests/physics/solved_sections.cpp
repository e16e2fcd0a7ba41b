// What counts as equal is ours; that roles do not change the field is physics.
#include "physics/solved_sections.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "sections.hpp"
#include "support.hpp"

namespace pinfold {

TEST_CASE("equal sections are solved once, whatever their conductors are called", "[field]") {
    SolvedSections solved;
    Section section = filmed_ribbon(3, 3.0);
    const FieldSolution* first = &solved.of(section);
    CHECK(first->capacitance == solve_field(section).capacitance);
    section.conductors[0].name = "guard";
    section.ground = {0};
    section.pairs = {{1, 2, {}}};
    section.frequency = Hertz(1e9);
    CHECK(&solved.of(section) == first);
    CHECK(solved.size() == 1);
}

TEST_CASE("sections that differ in any number are solved apart", "[field]") {
    SolvedSections solved;
    const Section plain = filmed_ribbon(2, 3.0, 0.01);
    const auto differs = [&](auto change) {
        const std::size_t before = solved.size();
        Section section = plain;
        change(section);
        solved.of(section);
        return solved.size() == before + 1;
    };
    CHECK(differs([](Section&) {}));
    CHECK(differs([](Section& s) { s.conductors[1].x = Millimetres(0.51); }));
    CHECK(differs([](Section& s) { s.conductors[1].y = Millimetres(0.01); }));
    CHECK(differs([](Section& s) { s.conductors[1].width = Millimetres(0.31); }));
    CHECK(differs([](Section& s) { s.conductors[1].thickness = Millimetres(0.05); }));
    CHECK(differs([](Section& s) { s.conductors[1] = wire(0.5, 0, 0.1); }));
    CHECK(differs([](Section& s) { s.dielectrics[0].y_max = Millimetres(0.2); }));
    CHECK(differs([](Section& s) { s.dielectrics[0].er = 3.1; }));
    CHECK(differs([](Section& s) { s.dielectrics[0].loss = 0.02; }));
    CHECK(differs([](Section& s) { s.dielectrics.clear(); }));
    CHECK(differs([](Section& s) { s.planes = {plane(-0.3)}; }));
    CHECK(differs([](Section& s) { s.planes = {plane(-0.3), plane(0.3)}; }));
    CHECK_FALSE(differs([](Section&) {}));
}

TEST_CASE("a section that is refused is refused again, and not kept", "[field]") {
    SolvedSections solved;
    Section section = ribbon(2);
    section.conductors[1].x = Millimetres(std::nan(""));
    for (int i = 0; i < 2; ++i) {
        CHECK(complaint([&] { solved.of(section); }).find("must have a place") !=
              std::string::npos);
    }
    CHECK(solved.size() == 0);
}

}  // namespace pinfold
