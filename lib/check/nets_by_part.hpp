// Nets by part: on which net of a netlist each pad of each part lies.
#pragma once

#include <string_view>
#include <unordered_map>

#include "design/netlist.hpp"

namespace pinfold {

/// By label; a pad that is on two nets counts for the first.
using NetsByPad = std::unordered_map<std::string_view, std::size_t>;

/// By reference; the views live as long as the netlist.
using NetsByPart = std::unordered_map<std::string_view, NetsByPad>;

/// Of all parts of the netlist, with pads or without.
NetsByPart nets_by_part(const Netlist& netlist);

}  // namespace pinfold
