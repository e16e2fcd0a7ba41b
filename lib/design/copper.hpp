// Copper: turning what a board's file says each contact is wired to into nets.
#pragma once

#include <utility>
#include <vector>

#include "design/read_port.hpp"

namespace pinfold {

/// A size of a trace as written: a signal of the board, and what its trace measures.
struct WrittenSize {
    std::string signal;
    Millimetres size;
    Mark at;
};

/// What is written of traces.
struct WrittenTraces {
    std::vector<WrittenSize> lengths;  ///< from port to port
    std::vector<WrittenSize> widths;
};

/// Gives every contact of `board` its net.
///
/// A connector without a list is wired as its pin table says. An entry of a list is `open`, a
/// signal one such connector bears (in any usual spelling), `port.contact`, `port.signal`, or a
/// name of the board's own that stands on other contacts too. Grounds are one net unless
/// `separate_grounds`. Notes an entry that means nothing, two things, or itself alone.
void lay_copper(Board& board, const std::vector<WrittenPort>& written, const WrittenTraces& traces,
                bool separate_grounds, ReaderDesk& desk);

}  // namespace pinfold
