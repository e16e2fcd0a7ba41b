// The netlist of one board: its components, their pads, and which pads copper joins.
#pragma once

#include <compare>
#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include "design/design.hpp"

namespace pinfold {

/// The place in `Netlist::nets` of what lies on none of them.
constexpr std::size_t no_net = std::numeric_limits<std::size_t>::max();

/// What a layout program needs to know of a board; one of ours, or one read back from a file.
struct Netlist {
    struct Pad {
        std::string label;     ///< what the footprint calls it: `14`, `A6`, `SH1`
        std::string function;  ///< the signal the part bears there; may be empty
    };
    struct Component {
        std::string reference;
        std::string value;
        std::string footprint;  ///< `library:name`; empty if nobody said
        std::string uuid;       ///< the same on every run
        std::string port;       ///< the port's name on the board; empty if nobody said
        std::vector<Pad> pads;
        Mark at;
        bool fitted = true;  ///< not so if a file says that the place stays empty
    };
    struct Node {
        std::string reference;
        std::string pad;
        Mark at = {};  ///< in the board file or netlist; two nodes are one wherever they stand
        friend bool operator==(const Node& one, const Node& other) {
            return one.reference == other.reference && one.pad == other.pad;
        }
        friend std::strong_ordering operator<=>(const Node& one, const Node& other) {
            const auto order = one.reference <=> other.reference;
            return order != 0 ? order : one.pad <=> other.pad;
        }
    };
    struct Net {
        std::string name;
        bool unconnected = false;  ///< one pad that is meant to hang loose
        std::vector<Node> nodes;
        Mark at;
    };

    std::string board;
    std::string title;
    std::string source;  ///< the file it was made from, without its folder
    std::vector<Component> components;
    std::vector<Net> nets;
    Findings remarks;  ///< what the maker has to say of a netlist that can be used
};

/// The netlist of a board we make; components, pads and nets in natural order.
///
/// A port without a reference is called J1, J2 and so on in the order of the board file, past the
/// names that are taken. Shield and mounting pads lie on the board's ground. A contact wired to
/// nothing is a net of its own, `unconnected-(J1-UTIL-Pad14)`; one that the part has no metal for
/// is no pad. A net whose name is taken gets `_2`, `_3` and so on. An unknown footprint is left
/// empty, with a remark. Identifiers follow from the names of board and reference alone.
/// Throws InputError for a reference on two ports and for names no netlist can hold.
Netlist netlist_of(const Design& design, std::size_t board);

/// Whether both join the same pads with each other; names of nets are not compared.
bool same_partition(const Netlist& one, const Netlist& other);

/// Order in which J2 comes before J10; texts that differ only in leading zeros are told apart.
bool natural_less(std::string_view one, std::string_view other);

/// The name-based identifier (version 5, SHA-1) of a name in the name space of another identifier.
///
/// Source: RFC 9562, section 5.5; its test vector is in tests/design/netlist.cpp.
std::string name_based_uuid(const std::string& space, std::string_view name);

}  // namespace pinfold
