// One end of a new design: how the ribbon comes to a device, and the lines that say so.
#pragma once

#include <string>

#include "pinmap/library.hpp"

namespace pinfold {

/// How the ribbon comes to a connector.
///
/// `plugged`: over an adapter with its plug. `straight`: into the connector itself. `bridged`: the
/// connector takes a ribbon, but another one: an adapter and a second ribbon stand between. `own`:
/// the connector is for the other end of the interface, so a board of the user's own has a
/// receptacle wired to meet it.
enum class NewEndKind { plugged, straight, bridged, own };

struct NewEnd {
    NewEndKind kind = NewEndKind::plugged;
    bool is_near = true;
    const Connector* connector = nullptr;
    const ReceptacleType* receptacle = nullptr;  ///< for the ribbon
    const RibbonType* link = nullptr;            ///< bridged: the second ribbon
    const ReceptacleType* mouth = nullptr;       ///< bridged: for that

    std::string device() const { return is_near ? "one" : "other"; }
    std::string board() const { return is_near ? "near" : "far"; }
    std::string link_name() const { return board() + "-link"; }
    bool has_board() const { return kind == NewEndKind::plugged || kind == NewEndKind::bridged; }
};

/// A receptacle for a ribbon: of the right pitch and size, with contacts on one known side; throws
/// InputError if there is none.
const ReceptacleType& fitting_receptacle(const RibbonType& ribbon, int conductors,
                                         Library& library);

/// The end that a ribbon makes with a connector; throws InputError for a connector that takes a
/// ribbon nobody makes.
NewEnd new_end(const Connector& connector, const Interface& interface, bool is_near,
               const RibbonType& ribbon, int conductors, Library& library);

/// Lines of a design file for the end: of its device, its board and its second ribbon (empty if it
/// has none), and its joins.
std::string device_lines(const NewEnd& end, const Interface& interface);
std::string board_lines(const NewEnd& end, int conductors);
std::string link_lines(const NewEnd& end);
std::string join_lines(const NewEnd& end);

/// Lines of a ribbon; `turned` if the receptacles at its ends have contact 1 on different hands.
std::string ribbon_lines(const std::string& name, const RibbonType& ribbon, int conductors,
                         double least_mm, bool turned);

}  // namespace pinfold
