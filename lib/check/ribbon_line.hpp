// Ribbons as lines: their fields, how each conductor ends, what contacts add.
// And how long a half takes along one.
#pragma once

#include <map>
#include <vector>

#include "check/line_memory.hpp"
#include "check/pair_way.hpp"

namespace pinfold {

struct Occupant;

/// What a ribbon is to the pairs on it.
struct RibbonUse {
    /// Of each conductor, to a pair that is not on it: tied only if both ends meet the boards.
    std::vector<Ending> endings;
    std::vector<std::size_t> grounds;      ///< those that are tied
    std::size_t fast = 0;                  ///< conductors with half of a pair that needs guards
    const FieldSolution* field = nullptr;  ///< nothing without a known section and a ground
    Millimetres span;                      ///< of a field across it
};

/// The ribbons of a design as lines.
class RibbonLines {
public:
    RibbonLines(const Design& design, const Wiring& wiring, LineMemory& memory)
        : design_(design), wiring_(wiring), memory_(memory) {}

    const RibbonUse& use_of(std::size_t ribbon);
    bool can_solve(const RibbonLeg& leg);

    /// What the pair on two conductors of one ribbon meets; it must be solved.
    const PairOnRibbon& pair_on(const RibbonLeg& plus, const RibbonLeg& minus);

    /// What a single signal on a conductor meets; it must be solved.
    SingleImpedance single_on(const RibbonLeg& leg);

    /// How long a half takes along a ribbon whose other half runs at `other`, there or elsewhere:
    /// with the field of its section, else from 2.4, the effective permittivity along a bare
    /// ribbon's conductor (5.06 to 5.31 ns/m for polyester film, by solving its section; derived).
    Picoseconds delay_of(const RibbonLeg& leg, const RibbonLeg& other);

    /// As the receptacle's pin map says; else 50 mohm and 1 nH, common practice.
    ContactImpedance contact_of(std::size_t ribbon, End end) const;
    /// To ground, as the receptacle's pin map says; else none.
    Farads contact_capacitance(std::size_t ribbon, End end) const;
    LineMemory& memory() { return memory_; }

private:
    Ending ending_of(const Occupant& occupant, std::size_t ribbon) const;
    RibbonUse found_use(std::size_t ribbon);

    const Design& design_;
    const Wiring& wiring_;
    LineMemory& memory_;
    std::map<std::size_t, RibbonUse> uses_;
};

}  // namespace pinfold
