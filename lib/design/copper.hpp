// Copper: turning what a board's file says each contact is wired to into nets.
#pragma once

#include <utility>
#include <vector>

#include "design/read_port.hpp"

namespace pinfold {

/// Trace lengths as written: a signal of the board, and the length from port to port.
struct WrittenLength {
    std::string signal;
    Millimetres length;
    Mark at;
};

/// Gives every contact of `board` its net.
///
/// A connector without a list is wired as its pin table says. An entry of a list is `open`, a
/// signal one such connector bears (in any usual spelling), `port.contact`, `port.signal`, or a
/// name of the board's own that stands on other contacts too. Grounds are one net unless
/// `separate_grounds`. Notes an entry that means nothing, two things, or itself alone.
void lay_copper(Board& board, const std::vector<WrittenPort>& written,
                const std::vector<WrittenLength>& lengths, bool separate_grounds, ReaderDesk& desk);

}  // namespace pinfold
