#include "physics/solved_sections.hpp"

namespace pinfold {
namespace {

/// Every number the field depends on; the counts keep different lists apart.
std::vector<double> numbers_of(const Section& section) {
    std::vector<double> numbers{static_cast<double>(section.conductors.size()),
                                static_cast<double>(section.dielectrics.size())};
    const auto add = [&](Millimetres length) { numbers.push_back(length.value()); };
    for (const SectionConductor& c : section.conductors) {
        for (Millimetres length : {c.x, c.y, c.width, c.thickness, c.diameter}) add(length);
    }
    for (const SectionDielectric& d : section.dielectrics) {
        for (Millimetres length : {d.x_min, d.x_max, d.y_min, d.y_max, d.x, d.y, d.diameter}) {
            add(length);
        }
        numbers.push_back(d.er);
        numbers.push_back(d.loss);
    }
    for (const SectionPlane& plane : section.planes) add(plane.y);
    return numbers;
}

}  // namespace

const FieldSolution& SolvedSections::of(const Section& section) {
    // Not-a-number has no order: such a section is refused before it is looked up.
    require_solvable(section);
    std::vector<double> numbers = numbers_of(section);
    const auto found = solutions_.find(numbers);
    if (found != solutions_.end()) return found->second;
    FieldSolution solution = solve_field(section, wanted_error_);
    return solutions_.emplace(std::move(numbers), std::move(solution)).first->second;
}

}  // namespace pinfold
