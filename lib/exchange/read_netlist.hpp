// Reading a netlist of any form we know; the form is seen from the content, not from the name.
#pragma once

#include <memory>
#include <string>

#include "design/netlist.hpp"

namespace pinfold {

/// A netlist, and what it was read as.
struct ReadNetlist {
    std::string form;  ///< `KiCad netlist`, `KiCad netlist in XML`, `IPC-D-356 test file`
    Netlist netlist;
};

/// Throws InputError for text that is none of these, with the place.
ReadNetlist read_netlist(const std::shared_ptr<const Source>& source);

}  // namespace pinfold
