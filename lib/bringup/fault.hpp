// Faults of a built assembly: what may have gone wrong at the bench, and what it does.
#pragma once

#include <string>
#include <vector>

#include "bringup/assembly.hpp"

namespace pinfold {

/// What a fault is like, the likeliest on a bench first (common practice). Faults of one kind that
/// join the same points are told as one.
enum class FaultKind {
    order,     ///< a ribbon the other way round
    shift,     ///< a ribbon end one place off
    away,      ///< a ribbon end that does not touch
    rows,      ///< a connector whose rows are exchanged, or that is mirrored
    swap,      ///< the halves of a pair
    lanes,     ///< two pairs
    open,      ///< a joint, a contact, a conductor, a lead
    bridge,    ///< two neighbours, or anything and ground
    exchange,  ///< two conductors or leads
    part,      ///< a pull-up or a diode inside a device
};

/// One physical fault, the design being right.
struct Fault {
    FaultKind kind = FaultKind::open;
    std::string cause;   ///< a stable name: `ribbon-reversed`
    std::string place;   ///< `strap.b`, `base.plug.4`
    std::string text;    ///< what is wrong
    std::string remedy;  ///< what to do
    Change change;
    bool at_device = false;  ///< where a plug meets a device: gone once the device is unplugged
};

/// Every plausible single fault of the assembly, in the order of its parts.
///
/// Ribbons: reversed or one place off at either end, the other copper side, an end that does not
/// touch. Boards: rows exchanged, a mirrored connector, halves and lanes exchanged at a port, open
/// joints, bridges between neighbouring contacts, anything on ground. Every contact, conductor and
/// lead open; every two conductors exchanged, of a wide ribbon those near each other.
std::vector<Fault> plausible_faults(const Design& design, const Wiring& wiring);

/// A bridge between any two points; what readings suggest where no neighbours explain them.
Fault stray_bridge(const Design& design, const Wiring& wiring, Point one, Point other);

}  // namespace pinfold
