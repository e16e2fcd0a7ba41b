// Fields solved once: sections equal in all that the field sees share one solution.
#pragma once

#include <map>
#include <vector>

#include "physics/field.hpp"

namespace pinfold {

/// The solutions of one run, by section. Made by whoever begins the run and passed down by
/// reference; it is a value, and what it holds depends on nothing but what was asked of it.
class SolvedSections {
public:
    /// All are solved to this relative error; see `solve_field`.
    explicit SolvedSections(double wanted_error = 0.005) : wanted_error_(wanted_error) {}

    /// The solution of the section, solved now if none equal to it was before.
    ///
    /// Names, marks, ground, pairs and frequency do not count: they come after the field. The
    /// reference stays good as long as this object. Throws InputError as `solve_field` does, and
    /// keeps nothing then.
    const FieldSolution& of(const Section& section);

    std::size_t size() const { return solutions_.size(); }

private:
    double wanted_error_;
    std::map<std::vector<double>, FieldSolution> solutions_;  ///< by all numbers of a section
};

}  // namespace pinfold
