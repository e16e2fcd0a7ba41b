// Findings as JSON, the same in every document that holds them.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "base/finding.hpp"

namespace pinfold {

/// Keys: `rule`, `severity`, `text`, `file`, `line`, `column` (null where it points nowhere),
/// `notes` [{`text`, `file`, `line`, `column`}], `repairs`, `places`.
nlohmann::ordered_json finding_json(const Finding& finding);

}  // namespace pinfold
