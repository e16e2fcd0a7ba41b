// What people write for a reading: closed, open, ohms, volts, or nothing yet.
#pragma once

#include <algorithm>
#include <array>
#include <string>
#include <string_view>

namespace pinfold {

/// What a cell says was measured; a blank one says nothing.
struct MeterWord {
    enum Kind { closed, open, ohms, volts, blank, unknown } kind = unknown;
    double number = 0;  ///< in ohms or volts
};

/// `closed`, `beep`, `OL`, `>20M`, `0.4 ohm`, `47k`, `4R7`, `0,55 V` and their like; a bare number
/// is in ohms.
/// Unknown are other words, and numbers below nothing.
MeterWord meter_word(std::string_view cell);

/// Without blanks at its ends, in small letters.
std::string lowered(std::string_view text);

template <std::size_t N>
bool is_one_of(const std::string& word, const std::array<std::string_view, N>& words) {
    return std::ranges::find(words, word) != words.end();
}

}  // namespace pinfold
