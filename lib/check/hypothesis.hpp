// Hypotheses: what may have gone wrong, as the change that would undo it.
#pragma once

#include <set>
#include <vector>

#include "check/edits.hpp"

namespace pinfold {

/// A signal of a promise, so that the same one can be found in another wiring.
struct PassKey {
    std::size_t carry = 0;
    ContactRef from;
    friend auto operator<=>(const PassKey&, const PassKey&) = default;
};

/// The promised signals that do not arrive.
std::set<PassKey> failing(const Wiring& wiring);

/// One thing that may be wrong: how it would be told, the change that undoes it, and the other
/// changes that would mend it too.
struct Hypothesis {
    Finding finding;  ///< its repairs are still empty
    Edit undo;
    std::vector<Edit> repairs;
};

/// All that may be wrong with the ribbons and connectors that carry the promises: simplest first.
std::vector<Hypothesis> hypotheses(const Design& design, const Wiring& wiring);

}  // namespace pinfold
