#include "base/shown.hpp"

#include <algorithm>

#include "base/utf8.hpp"

namespace pinfold {
namespace {

std::string well_formed(std::string_view text) {
    std::string sound(text);
    std::size_t from = 0;
    while (const auto at = first_invalid_utf8(std::string_view(sound).substr(from))) {
        from += *at;
        sound[from++] = '?';
    }
    return sound;
}

}  // namespace

std::string shown(std::string_view text) {
    const std::string sound = well_formed(text);
    std::string clean;
    for (std::size_t at = 0; at < sound.size();) {
        const CodePoint c = code_point_at(sound, at);
        if (c.value == U'\t') {
            clean += ' ';
        } else if (is_control(c.value) || is_turning(c.value)) {
            clean += '?';
        } else {
            clean.append(sound, at, c.bytes);
        }
        at += c.bytes;
    }
    return clean;
}

std::string shown_page(std::string_view page) {
    std::string text;
    for (std::size_t at = 0; at < page.size();) {
        const std::size_t end = std::min(page.find('\n', at), page.size());
        text += shown(page.substr(at, end - at));
        if (end < page.size()) text += '\n';
        at = end + 1;
    }
    return text;
}

}  // namespace pinfold
