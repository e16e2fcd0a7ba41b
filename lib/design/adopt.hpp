// Adopting: what board a netlist that somebody else drew describes, and what is in doubt about it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "design/netlist.hpp"
#include "pinmap/library.hpp"

namespace pinfold {

/// What the user says a part of the netlist is: `J1` and `hdmi-a plug`.
struct PartWords {
    std::string reference;
    std::string words;
};

/// Takes `J1=hdmi-a plug` apart. Throws InputError for a text that is not of this form.
PartWords part_words(std::string_view text);

/// One contact of a part that becomes a port.
struct AdoptedContact {
    std::string label;
    std::optional<std::size_t> signal;  ///< in the port's interface
    bool absent = false;                ///< the part has no metal here
    std::size_t net = no_net;           ///< in the netlist's nets
    std::string wired;                  ///< what the board file says it is wired to
    Mark at;
};

/// A part of the netlist as a port of the board.
struct AdoptedPort {
    std::string name, reference, footprint, part;
    std::string connector;  ///< a connector's id; empty for a bare receptacle or pads
    Gender gender = Gender::plug;
    std::string receptacle;                ///< a receptacle type's id; empty for plugs and pads
    const Interface* interface = nullptr;  ///< of the connector; the library keeps it
    std::vector<AdoptedContact> contacts;
    std::vector<std::string> connector_shell;  ///< the shield pads the pin map knows
    std::vector<std::string> shell;            ///< the shield pads on ground in the netlist
    bool by_table = false;                     ///< wired as the connector's pin table says
    Mark at;
};

/// How the nets of an adopted board are called: as their signals, or each by a number, which no
/// reader can take for anything else.
enum class NetNaming { by_signal, by_number };

struct Adoption {
    std::string title;
    std::vector<AdoptedPort> ports;
    std::size_t ground = no_net;    ///< in the netlist's nets
    bool separate_grounds = false;  ///< shields lie on nets of their own
    Findings doubts;                ///< what to settle against the part in hand
};

/// The parts' words: a connector (`hdmi-a`, a plug unless `hdmi-a receptacle` says otherwise), a
/// receptacle type for a ribbon (`ffc-0.50-bottom`, its positions counted from the pads in use, its
/// first contact taken to be left), a connector that takes a ribbon (`csi-15 in ffc-1.00-bottom`),
/// or `pads`.
///
/// Throws InputError for references and names nobody has, with the nearest.
Adoption adopt(const Netlist& drawn, const std::vector<PartWords>& parts, Library& library,
               NetNaming naming = NetNaming::by_signal);

/// Whether a board, as a netlist, joins the same contacts and shield pads as was adopted.
bool joins_as_adopted(const Adoption& adoption, const Netlist& board);

}  // namespace pinfold
