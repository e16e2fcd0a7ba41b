// Label hash: where a table keeps the pad of a part or the contact of a port.
#pragma once

#include <functional>
#include <string_view>

namespace pinfold {

/// Spreads labels that many numbered owners share, such as pad 1 of every part.
inline std::size_t label_hash(std::size_t owner, std::string_view label) {
    const std::size_t spread = std::hash<std::string_view>()(label) + owner * 0x9E3779B97F4A7C15U;
    return spread ^ (spread >> 29);
}

}  // namespace pinfold
