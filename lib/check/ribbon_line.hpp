// A ribbon as a line: its field solved, how each conductor ends, what its contacts add.
#pragma once

#include <map>
#include <string>
#include <tuple>
#include <vector>

#include "check/occupant.hpp"
#include "physics/field.hpp"
#include "physics/line.hpp"

namespace pinfold {

/// A ribbon with its field solved.
struct SolvedRibbon {
    FieldSolution field;
    Millimetres width;  ///< from the middle of the first conductor to that of the last
};

/// The ribbons of a design as lines. Equal ones are solved once.
class RibbonLines {
public:
    RibbonLines(const Design& design, const Wiring& wiring) : design_(design), wiring_(wiring) {}

    const std::vector<Occupant>& row_of(std::size_t ribbon);

    /// What each conductor is to a pair that is not on it: tied only if both ends meet the boards.
    std::vector<Ending> endings_of(std::size_t ribbon);

    /// A section that is known, with a ground conductor, and not beyond what is worth solving.
    bool can_solve(std::size_t ribbon);
    const SolvedRibbon& solved(std::size_t ribbon);

    ContactImpedance contact_of(std::size_t ribbon, End end) const;

private:
    Ending ending_of(const Occupant& occupant, std::size_t ribbon) const;

    const Design& design_;
    const Wiring& wiring_;
    std::map<std::size_t, std::vector<Occupant>> rows_;
    std::map<std::tuple<std::string, int, double>, SolvedRibbon> solved_;
};

}  // namespace pinfold
