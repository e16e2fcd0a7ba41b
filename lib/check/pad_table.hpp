// The pads of a board beside the nets they lie on: in the design, and in a netlist that was drawn.
#pragma once

#include <map>
#include <string_view>
#include <vector>

#include "check/compare.hpp"
#include "check/label_index.hpp"
#include "check/tally.hpp"

namespace pinfold {

/// One pad of the board; it lives no longer than the netlists it points into.
struct ComparedPad {
    std::size_t port = 0;
    bool is_shield = false;
    std::size_t meant = no_net;  ///< the design's net
    std::size_t drawn = no_net;  ///< the netlist's; none if the pad is on no net there
    const Netlist::Node* in_board = nullptr;
    const Netlist::Node* in_netlist = nullptr;  ///< null if the pad is on no net there
};

/// One more than the highest net of one side that any pad lies on.
std::size_t nets_of(const std::vector<ComparedPad>& pads, std::size_t ComparedPad::*side);

/// A pad of the netlist that the board does not know.
struct ExtraPad {
    const Netlist::Node* node = nullptr;
    std::size_t port = 0;
    std::size_t net = no_net;  ///< of the netlist
};

/// All pads, given which part is which port.
struct LaidPads {
    std::vector<ComparedPad> pads;  ///< by port, then as the contacts are counted, then shields
    std::vector<ExtraPad> extra;
    std::map<std::size_t, std::vector<std::size_t>> missing;  ///< by port
};

/// Lays the pads of a board beside those of a netlist, for one matching after the other.
class PadTable {
public:
    /// Nets of the netlist count as `net_of_drawn` says, which joins some of them.
    PadTable(const Board& board, const Netlist& meant, const Netlist& drawn,
             const std::vector<std::size_t>& net_of_drawn);

    LaidPads lay(const std::vector<PortMatch>& ports) const;

    /// In `LaidPads::pads`; `no_net` if the port has no such pad.
    std::size_t find(std::size_t port, std::string_view label) const;

private:
    void number_contacts();
    void take_pads();

    const Board& board_;
    const Netlist& meant_;
    const Netlist& drawn_;
    const std::vector<std::size_t>& net_of_drawn_;
    std::vector<ComparedPad> pads_;    ///< nothing drawn yet, in order
    LabelIndex numbers_;               ///< of contacts in the order of the ports, then shields
    std::vector<std::size_t> pad_of_;  ///< by number, in pads_; `no_net` for no pad
};

}  // namespace pinfold
