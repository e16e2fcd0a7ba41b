#include "base/yaml_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/ascii.hpp"
#include "base/utf8.hpp"

namespace pinfold {
namespace {

bool is_plain_sign(char c) {
    return is_letter(c) || is_digit(c) || c == '_' || c == '+' || c == '-' || c == '.' || c == '/';
}

/// Words of letters, digits and a few signs that YAML takes for nothing else.
bool stands_bare(std::string_view text) {
    if (text.empty() || text.front() == '-' || text.front() == '.' || text.front() == '/') {
        return false;
    }
    constexpr std::array<std::string_view, 9> words{"null", "Null", "NULL", "true", "false",
                                                    "yes",  "no",   "on",   "off"};
    return std::ranges::all_of(text, is_plain_sign) &&
           std::ranges::find(words, text) == words.end();
}

}  // namespace

std::string quoted_yaml(std::string_view text) {
    std::string out = "\"";
    for (std::size_t at = 0; at < text.size();) {
        const CodePoint c = code_point_at(text, at);
        if (c.value == U'\t') {
            out += "\\t";
        } else if (is_control(c.value)) {
            out += '?';
        } else if (is_unseen(c.value)) {
            out += fmt::format("\\U{:08X}", static_cast<std::uint32_t>(c.value));
        } else {
            if (c.value == U'"' || c.value == U'\\') out += '\\';
            out += text.substr(at, c.bytes);
        }
        at += c.bytes;
    }
    return out + "\"";
}

std::string yaml_text(std::string_view text) {
    return stands_bare(text) ? std::string(text) : quoted_yaml(text);
}

}  // namespace pinfold
