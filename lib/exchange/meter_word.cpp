#include "exchange/meter_word.hpp"

#include <optional>

#include "base/ascii.hpp"
#include "base/quantity.hpp"
#include "base/spelling.hpp"

namespace pinfold {
namespace {

struct Unit {
    std::string_view name;
    double worth;
    MeterWord::Kind kind = MeterWord::ohms;
};

/// A meter whose range ends below this tells nothing by `>`.
constexpr double least_beyond = 1000.0;

// Longest first; M and m are told apart before the text is lowered.
constexpr std::array<Unit, 21> units{{{"kohm", 1e3},
                                      {"Mohm", 1e6},
                                      {"mohm", 1e-3},
                                      {"kOhm", 1e3},
                                      {"MOhm", 1e6},
                                      {"mOhm", 1e-3},
                                      {"k\u03A9", 1e3},
                                      {"M\u03A9", 1e6},
                                      {"m\u03A9", 1e-3},
                                      {"ohms", 1},
                                      {"ohm", 1},
                                      {"Ohm", 1},
                                      {"\u03A9", 1},
                                      {"\u2126", 1},
                                      {"mV", 1e-3, MeterWord::volts},
                                      {"mv", 1e-3, MeterWord::volts},
                                      {"V", 1, MeterWord::volts},
                                      {"v", 1, MeterWord::volts},
                                      {"R", 1},
                                      {"k", 1e3},
                                      {"M", 1e6}}};

/// `4R7`, `1k8`: the letter stands for the point, as on the parts themselves (IEC 60062, 3.2).
std::string with_point(const std::string& text) {
    const std::size_t letter = text.find_first_of("RkM");
    if (letter == std::string::npos || letter + 1 >= text.size()) return text;
    const bool fits =
        letter > 0 && is_digit(text[letter - 1]) &&
        std::all_of(text.begin() + static_cast<std::ptrdiff_t>(letter) + 1, text.end(), is_digit);
    if (!fits) return text;
    return text.substr(0, letter) + "." + text.substr(letter + 1) + text[letter];
}

std::optional<MeterWord> number_with_unit(std::string text) {
    std::ranges::replace(text, ',', '.');
    text = with_point(text);
    Unit unit{"", 1};
    for (const Unit& any : units) {
        if (!text.ends_with(any.name)) continue;
        unit = any;
        text.resize(text.size() - any.name.size());
        break;
    }
    const auto number = parse_number(trimmed(text));
    if (!number || *number < 0) return std::nullopt;
    return MeterWord{unit.kind, *number * unit.worth};
}

}  // namespace

std::string lowered(std::string_view text) {
    std::string low(trimmed(text));
    for (char& c : low) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return low;
}

MeterWord meter_word(std::string_view cell) {
    constexpr std::array<std::string_view, 9> closed{"closed", "close",   "beep", "beeps", "short",
                                                     "yes",    "through", "c",    "x"};
    constexpr std::array<std::string_view, 14> open{"open", "ol",     "o.l", "o.l.",    "ol.",
                                                    "0l",   "0l.",    "0.l", "o",       "inf",
                                                    "no",   "\u221E", ">",   "overload"};
    const std::string word = lowered(cell);
    if (word.empty() || word == "?" || word == "-") return {MeterWord::blank};
    if (is_one_of(word, closed)) return {MeterWord::closed};
    if (is_one_of(word, open)) return {MeterWord::open};
    const bool is_beyond = word.front() == '>';  // the end of the meter's range
    const std::string_view number = trimmed(cell).substr(is_beyond ? 1 : 0);
    const MeterWord read = number_with_unit(std::string(number)).value_or(MeterWord{});
    if (!is_beyond) return read;
    return read.kind == MeterWord::ohms && read.number >= least_beyond ? MeterWord{MeterWord::open}
                                                                       : MeterWord{};
}

}  // namespace pinfold
