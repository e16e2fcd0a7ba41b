// The wiring table as one HTML page, for the bench: on a screen or on A4 or Letter paper.
#pragma once

#include <string>

#include "document/table.hpp"

namespace pinfold {

/// A self-contained page: no script, nothing fetched, nothing told by colour alone.
std::string to_html(const WiringTable& table);

}  // namespace pinfold
