// The traces of pairs on boards that have a stack-up, solved like the section of a ribbon.
#pragma once

#include <array>
#include <map>
#include <optional>

#include "design/design.hpp"
#include "physics/pair_impedance.hpp"
#include "physics/section.hpp"

namespace pinfold {

/// The two traces of a pair across: on the dielectric, in the mask if there is one, over the plane
/// if there is one, between wide ground copper if they have it beside them. The mask is taken as a
/// flat layer that fills the gaps.
Section trace_section(const StackUp& stack_up, const PairTrace& trace);

/// What the traces of a pair are as a line, and one of them once the other has left it.
struct SolvedTraces {
    PerMetre pair;  ///< plus, minus
    PairImpedance impedance;
    PerMetre single;
    double single_delay = 0.0;  ///< s/m
    double error_estimate = 0.0;
};

/// Solves each kind of traces of a design once.
class BoardTraces {
public:
    /// The design must outlive it.
    explicit BoardTraces(const Design& design) : design_(design) {}

    /// The traces of a net of a board; nothing without a stack-up or without its pair's width and
    /// gap. Throws InputError as `require_solvable` does.
    const SolvedTraces* of(std::size_t board, std::size_t net);

    /// How long a half takes along its trace beside a trace of the other half (nothing if that is
    /// not known): what it is longer than the other runs alone.
    Picoseconds delay(const SolvedTraces& traces, Millimetres length,
                      std::optional<Millimetres> other) const;

private:
    const Design& design_;
    std::map<std::array<double, 4>, SolvedTraces> solved_;  ///< by board and sizes
};

}  // namespace pinfold
