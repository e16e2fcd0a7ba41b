// Checks on length: skew within pairs and between them, from the lengths the files give.
#pragma once

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/finding.hpp"
#include "design/wiring.hpp"

namespace pinfold {

class LineMemory;

/// How long a pair's two halves take from port to port, as far as lengths are known; see
/// `delay_of`. All conductors of a ribbon have one length whatever its folds, but not one delay.
struct PairDelay {
    std::string name;
    std::size_t carry = 0;
    std::optional<Picoseconds> plus, minus;  ///< nothing where no length on the way is known
    bool incomplete = false;                 ///< one half lacks a length that the other has
    std::set<std::string> boards;            ///< those whose trace lengths are in it
    std::vector<ContactRef> contacts;        ///< on boards, where the lengths were found
    Mark at;
};

/// The delays of all data and clock pairs that arrive.
std::vector<PairDelay> pair_delays(const Design& design, const Wiring& wiring, LineMemory& memory);

/// Finds skew beyond the interface's limit at the promised rate, and says where it could not judge.
Findings check_lengths(const Design& design, const Wiring& wiring, LineMemory& memory);

}  // namespace pinfold
