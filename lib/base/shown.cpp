#include "base/shown.hpp"

#include <algorithm>
#include <array>

#include "base/utf8.hpp"

namespace pinfold {
namespace {

/// The character that turns or breaks a line at the start of a text; nothing if there is none.
std::string_view turning_mark(std::string_view text) {
    static constexpr std::array<std::string_view, 14> marks{
        "\xD8\x9C",     "\xE2\x80\x8E", "\xE2\x80\x8F", "\xE2\x80\xA8", "\xE2\x80\xA9",
        "\xE2\x80\xAA", "\xE2\x80\xAB", "\xE2\x80\xAC", "\xE2\x80\xAD", "\xE2\x80\xAE",
        "\xE2\x81\xA6", "\xE2\x81\xA7", "\xE2\x81\xA8", "\xE2\x81\xA9"};
    const auto found =
        std::ranges::find_if(marks, [&](std::string_view mark) { return text.starts_with(mark); });
    return found == marks.end() ? std::string_view{} : *found;
}

std::string well_formed(std::string_view text) {
    std::string sound(text);
    std::size_t from = 0;
    while (const auto at = first_invalid_utf8(std::string_view(sound).substr(from))) {
        from += *at;
        sound[from++] = '?';
    }
    return sound;
}

std::string without_turns(std::string_view text) {
    std::string clean;
    while (!text.empty()) {
        const std::string_view mark = turning_mark(text);
        clean += mark.empty() ? text.front() : '?';
        text.remove_prefix(std::max<std::size_t>(1, mark.size()));
    }
    return clean;
}

}  // namespace

std::string shown(std::string_view given) {
    const std::string sound = well_formed(given);
    std::string_view text = sound;
    std::string clean;
    while (const auto at = first_control(text)) {
        clean += text.substr(0, *at);
        clean += text[*at] == '\t' ? ' ' : '?';
        text.remove_prefix(*at + (text[*at] == '\xC2' ? 2 : 1));
    }
    clean += text;
    return without_turns(clean);
}

}  // namespace pinfold
