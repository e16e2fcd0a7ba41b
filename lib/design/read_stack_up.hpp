// Reading the stack-up of a board and the traces of its pairs.
#pragma once

#include <map>
#include <string>

#include "design/read_port.hpp"

namespace pinfold {

/// Traces of pairs as written: of every pair, and of some by their names.
struct WrittenPairTraces {
    std::optional<PairTrace> any;
    std::vector<std::pair<Written, PairTrace>> own;
};

/// A size that is there and that a board can have; the fault is noted if it is neither.
Millimetres size_of(Fields& fields, const std::string& key, Findings& findings);

/// Reads `stack-up`. Refused are sizes that no board has and an `er` below that of air.
std::optional<StackUp> read_stack_up(Fields& board, Findings& findings);

/// Reads `pair-trace` and `pair-traces`, which want a stack-up; without a plane a pair needs
/// ground beside it.
WrittenPairTraces read_pair_traces(Fields& board, const std::optional<StackUp>& stack_up,
                                   Findings& findings);

/// Gives the nets of both halves of every fast pair of `board` its traces.
void lay_pair_traces(Board& board, const WrittenPairTraces& written, ReaderDesk& desk);

}  // namespace pinfold
