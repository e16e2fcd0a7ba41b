#include "pinmap/interface.hpp"

#include <algorithm>
#include <array>

#include "base/ascii.hpp"

namespace pinfold {
namespace {

struct Sign {
    std::string_view utf8;
    char plain;
};
/// Minus sign, hyphens, en and em dash, full-width and superscript signs.
constexpr std::array signs{
    Sign{"\xE2\x88\x92", '-'}, Sign{"\xE2\x80\x90", '-'}, Sign{"\xE2\x80\x91", '-'},
    Sign{"\xE2\x80\x93", '-'}, Sign{"\xE2\x80\x94", '-'}, Sign{"\xEF\xBC\x8D", '-'},
    Sign{"\xEF\xB9\xA3", '-'}, Sign{"\xEF\xBC\x8B", '+'}, Sign{"\xE2\x81\xBA", '+'},
    Sign{"\xE2\x81\xBB", '-'}, Sign{"\xC2\xA0", ' '}};

std::string with_plain_signs(std::string_view text) {
    std::string plain;
    while (!text.empty()) {
        const auto sign =
            std::ranges::find_if(signs, [&](const Sign& s) { return text.starts_with(s.utf8); });
        plain += sign == signs.end() ? text.front() : sign->plain;
        text.remove_prefix(sign == signs.end() ? 1 : sign->utf8.size());
    }
    return plain;
}

}  // namespace

std::string_view name_of(Role role) {
    switch (role) {
        case Role::pair_half: return "pair-half";
        case Role::pair_shield: return "pair-shield";
        case Role::ground: return "ground";
        case Role::supply: return "supply";
        case Role::low_speed: return "low-speed";
        case Role::presence: return "presence";
        case Role::unused: return "unused";
    }
    return "";
}

std::string_view name_of(Direction direction) {
    switch (direction) {
        case Direction::forward: return "forward";
        case Direction::back: return "back";
        case Direction::both: return "both";
        case Direction::none: return "none";
        case Direction::outward: return "outward";
    }
    return "";
}

std::string_view name_of(MeterKind kind) {
    return kind == MeterKind::diode ? "diode" : "resistance";
}

std::string plain_name(std::string_view text) {
    const std::string signed_text = with_plain_signs(text);
    std::string plain;
    for (std::size_t i = 0; i < signed_text.size(); ++i) {
        const char c = signed_text[i];
        const bool last = i + 1 == signed_text.size();
        const bool is_minus_of_voltage = plain.empty() && !last && is_digit(signed_text[i + 1]);
        if (c == ' ' || c == '_' || (c == '-' && !last && !is_minus_of_voltage)) continue;
        if (c == '.' &&
            !(i > 0 && !last && is_digit(signed_text[i - 1]) && is_digit(signed_text[i + 1]))) {
            continue;
        }
        plain += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    }
    if (plain.size() > 1 && plain[0] == '+' && is_digit(plain[1])) plain.erase(0, 1);
    return plain;
}

std::optional<std::size_t> Interface::find(std::string_view text) const {
    const auto found = names.find(plain_name(text));
    return found == names.end() ? std::nullopt : std::optional(found->second);
}

const Limit* Interface::limit_at(GigabitsPerSecond rate) const {
    const auto row = std::ranges::find_if(limits, [&](const Limit& l) { return l.up_to >= rate; });
    return row == limits.end() ? nullptr : &*row;
}

const Supply* Interface::supply_of(std::size_t signal) const {
    const auto row = std::ranges::find(supplies, signal, &Supply::signal);
    return row == supplies.end() ? nullptr : &*row;
}

bool Interface::crosses() const {
    for (std::size_t i = 0; i < counterpart.size(); ++i) {
        if (counterpart[i] != i) return true;
    }
    return false;
}

}  // namespace pinfold
