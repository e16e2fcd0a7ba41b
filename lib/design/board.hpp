// Boards: their ports, and (on boards we make) the copper between them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/mark.hpp"
#include "base/units.hpp"
#include "design/lay.hpp"
#include "design/placing.hpp"
#include "design/stack_up.hpp"
#include "design/track_limits.hpp"
#include "pinmap/connector.hpp"
#include "pinmap/interface.hpp"

namespace pinfold {

/// One contact of a port, in order of place.
struct PortContact {
    std::string label;                  ///< as printed: `19`, `A6`
    std::string name;                   ///< what this board calls it; empty if it is left open
    std::optional<std::size_t> signal;  ///< in the port's interface
    std::optional<std::size_t> net;     ///< in the board's nets; never on a device
    bool absent = false;                ///< the part has no metal here
    Mark at;
};

/// The receptacle of a port that takes a ribbon.
struct RibbonMouth {
    std::string receptacle;  ///< a receptacle type's id
    Mouth mouth;
};

/// One connector, receptacle or row of pads on a board.
struct Port {
    std::string name;
    std::string connector;  ///< a connector's id; empty for a bare receptacle or pads
    Gender gender = Gender::receptacle;
    std::string interface;  ///< an interface's id; empty if the contacts bear plain names
    std::optional<RibbonMouth> ribbon;
    std::vector<PortContact> contacts;
    bool by_table = false;           ///< on a board: wired as the connector's pin table says
    std::vector<std::string> shell;  ///< shield and mounting pads, on the board's ground
    std::string reference;           ///< for the netlist: `J1`
    std::string footprint;           ///< for the netlist: `library:name`; may be empty
    std::string part;                ///< for the netlist and the buyer; may be empty
    std::optional<Placing> placing;  ///< for the electrical test; on a board we make
    std::optional<Mark> best;        ///< `wired: best`: where the order is left open
    Mark at;
};

/// Copper that joins contacts of one board.
struct Net {
    std::string name;
    bool ground = false;
    std::string interface;              ///< the interface whose signal it carries, if any
    std::optional<std::size_t> signal;  ///< in that interface
    std::optional<Millimetres> length;  ///< of the trace from port to port
    Mark at;
    std::optional<Millimetres> width = {};     ///< of the trace, where the board has a stack-up
    std::optional<PairTrace> pair_trace = {};  ///< of a fast pair's half, likewise
};

/// A finished board (a device: its contacts are joined to nothing we know) or one we make.
struct Board {
    std::string name;
    std::string title;
    bool is_device = false;
    std::vector<Port> ports;
    std::vector<Net> nets;
    /// Effective permittivity along traces that no stack-up describes: their delay follows from it.
    double permittivity = 3.2;
    std::optional<StackUp> stack_up;
    TrackLimits track_limits;
    Mark at;

    std::optional<std::size_t> find_port(std::string_view name) const;
};

/// The contact of a port that a text names: its label first, else the first one with that signal.
std::optional<std::size_t> find_contact(const Port& port, const Interface* interface,
                                        std::string_view text);

}  // namespace pinfold
