#include "document/text_width.hpp"

#include <algorithm>
#include <array>

#include "base/utf8.hpp"

namespace pinfold {
namespace {

struct Block {
    char32_t first, last;
    bool holds(char32_t c) const { return c >= first && c <= last; }
};

constexpr std::array combining{Block{0x0300, 0x036F}, Block{0x0483, 0x0489}, Block{0x200B, 0x200F},
                               Block{0x20D0, 0x20FF}, Block{0xFE00, 0xFE0F}, Block{0xFE20, 0xFE2F}};
constexpr std::array wide{Block{0x1100, 0x115F},   Block{0x2E80, 0x303E},  Block{0x3041, 0xA4CF},
                          Block{0xAC00, 0xD7A3},   Block{0xF900, 0xFAFF},  Block{0xFE30, 0xFE6F},
                          Block{0xFF00, 0xFF60},   Block{0xFFE0, 0xFFE6},  Block{0x1F300, 0x1F64F},
                          Block{0x1F900, 0x1F9FF}, Block{0x20000, 0x3FFFD}};

template <class Blocks>
bool stands_in(const Blocks& blocks, char32_t c) {
    return std::ranges::any_of(blocks, [c](const Block& block) { return block.holds(c); });
}

}  // namespace

int display_width(std::string_view text) {
    int width = 0;
    for (std::size_t at = 0; at < text.size();) {
        const CodePoint c = code_point_at(text, at);
        at += c.bytes;
        if (stands_in(combining, c.value)) continue;
        width += stands_in(wide, c.value) ? 2 : 1;
    }
    return width;
}

std::string padded(std::string_view text, int width) {
    const int missing = std::max(0, width - display_width(text));
    return std::string(text) + std::string(static_cast<std::size_t>(missing), ' ');
}

std::vector<std::string> wrapped(std::string_view text, int width) {
    std::vector<std::string> lines(1);
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        const std::string_view word = text.substr(at, end - at);
        at = end + 1;
        if (word.empty()) continue;
        std::string& line = lines.back();
        if (line.empty()) {
            line = word;
        } else if (display_width(line) + 1 + display_width(word) <= width) {
            line.append(1, ' ').append(word);
        } else {
            lines.emplace_back(word);
        }
    }
    return lines;
}

}  // namespace pinfold
