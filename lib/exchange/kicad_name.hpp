// Names of nets as a schematic holds them, and the names that were meant.
#pragma once

#include <string>
#include <string_view>

namespace pinfold {

/// A net's name as a schematic holds it.
///
/// `/` parts sheets there and is written `{slash}`; likewise `{backslash}`, `{lt}`, `{gt}`,
/// `{colon}`, `{dblquote}`, `{space}`, `{return}`, `{tab}`, and `{brace}` for a brace that would
/// start one of these words. Source: public issue threads of the program; the list of words is
/// from memory.
std::string to_kicad_name(std::string_view name);

/// The name that was meant: the words are undone, any other brace stays, as in `~{INT}`.
///
/// A `/` that parts sheets and one that was written `{slash}` are told apart no longer.
std::string from_kicad_name(std::string_view name);

}  // namespace pinfold
