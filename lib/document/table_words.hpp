// Words of the wiring table: lengths, sides and courses as an assembler would say them.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/units.hpp"
#include "design/lay.hpp"
#include "pinmap/ribbon_type.hpp"

namespace pinfold {

/// User text fit for one line of paper: blanks for line ends and tabs, `?` for other control
/// characters and for those that would turn the direction of reading.
std::string one_line(std::string_view text);

std::string in_words(Millimetres length);  ///< `120 mm`
std::string in_words(Copper copper);       ///< `bared copper on the same face at both ends`
std::string in_words(const Lay& lay);      ///< `straight, then folded at 45 degrees to the left`

/// Which face of the ribbon the contacts of a receptacle touch.
std::string contacts_in_words(ContactSide side, Entry entry);
/// Where contact 1 is and how to look.
std::string first_contact_in_words(Hand first, Entry entry);
/// Which way the copper must look as the ribbon goes in, and whether that is the way it is drawn
/// (`drawn_up`: the drawing shows it towards the viewer; a board lies component side up).
std::string copper_in_words(ContactSide side, Entry entry, bool drawn_up);

/// What a list of stock lengths has for a ribbon of this length.
std::string stock_in_words(Millimetres length, const std::vector<Millimetres>& stock);

/// `1 signal`, `3 signals`.
std::string counted(std::size_t count, std::string_view one);

}  // namespace pinfold
