// Comparing: whether a netlist that was drawn implements a board of the design, and if not, why.
#pragma once

#include <string>
#include <vector>

#include "base/finding.hpp"
#include "design/netlist.hpp"

namespace pinfold {

/// A port of the board and the part of the netlist that it was taken for.
struct PortMatch {
    std::size_t port = 0;   ///< in the board's ports
    std::string reference;  ///< in the netlist; empty if no part was found
    std::string by;         ///< `reference`, `port name`, `footprint` or `best fit`
};

struct Comparison {
    bool same = false;  ///< nothing was found at error level
    std::vector<PortMatch> ports;
    std::size_t pads = 0, nets = 0;  ///< that were compared
    Findings findings;               ///< errors first; one for each cause
};

/// Compares the nets of a board, as sets of pads, with those of a netlist; names are not looked at.
///
/// Findings point into the netlist, their notes into the board file. Throws InputError if two parts
/// fit a port equally well, naming them.
Comparison compare(const Design& design, std::size_t board, const Netlist& drawn);

}  // namespace pinfold
