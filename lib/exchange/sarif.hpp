// Findings as SARIF, for hosts that show them beside the lines of a change.
#pragma once

#include <string>
#include <string_view>

#include "base/finding.hpp"

namespace pinfold {

/// A SARIF 2.1.0 log of one run, also if nothing was found, so that old alerts are closed.
///
/// All rules of the checks are described, then those that only `findings` name, such as faults of
/// an input file. Notes become related locations; repairs and places go into `properties`.
/// Source: OASIS SARIF 2.1.0, sections 3.4, 3.11 and 3.27; shape tested in tests/outside/sarif.mjs.
std::string sarif_of(const Findings& findings);

/// A message as SARIF holds it: braces doubled (3.11.5), and brackets escaped if they would
/// otherwise read as a link (3.11.6).
std::string sarif_message(std::string_view text);

/// A file's name as a URI reference (RFC 3986): bytes other than letters, digits, `-._~/` are
/// percent-encoded; an absolute path becomes a `file:` URI.
std::string sarif_uri(std::string_view file);

}  // namespace pinfold
