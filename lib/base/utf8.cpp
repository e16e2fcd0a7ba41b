#include "base/utf8.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>

namespace pinfold {
namespace {

/// How many bytes the sequence at `at` has by the table in RFC 3629, section 4; 0 if none fits.
std::size_t sequence_length(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) {
        return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0u;
    };
    const auto tail = [&](std::size_t i) { return byte(i) >= 0x80 && byte(i) <= 0xBF; };
    const unsigned first = byte(0);
    const unsigned second = byte(1);
    if (first < 0x80) return 1;
    if (first >= 0xC2 && first <= 0xDF) return tail(1) ? 2 : 0;
    if (first >= 0xE0 && first <= 0xEF) {
        const unsigned least = first == 0xE0 ? 0xA0 : 0x80;
        const unsigned most = first == 0xED ? 0x9F : 0xBF;
        return second >= least && second <= most && tail(2) ? 3 : 0;
    }
    if (first >= 0xF0 && first <= 0xF4) {
        const unsigned least = first == 0xF0 ? 0x90 : 0x80;
        const unsigned most = first == 0xF4 ? 0x8F : 0xBF;
        return second >= least && second <= most && tail(2) && tail(3) ? 4 : 0;
    }
    return 0;
}

/// Where the next bytes that are not ASCII may be, from `at` on: eight are looked at in one go.
std::size_t ascii_length(std::string_view text, std::size_t at) {
    std::uint64_t eight = 0;
    for (; at + sizeof eight <= text.size(); at += sizeof eight) {
        std::memcpy(&eight, text.data() + at, sizeof eight);
        if ((eight & 0x8080808080808080U) != 0) break;
    }
    return at;
}

std::size_t bytes_of(unsigned char first) {
    if (first < 0x80) return 1;
    if (first < 0xE0) return 2;
    return first < 0xF0 ? 3 : 4;
}

}  // namespace

std::optional<std::size_t> first_invalid_utf8(std::string_view text) {
    for (std::size_t at = ascii_length(text, 0); at < text.size(); at = ascii_length(text, at)) {
        const std::size_t length = sequence_length(text, at);
        if (length == 0) return at;
        at += length;
    }
    return std::nullopt;
}

std::optional<std::size_t> first_control(std::string_view text) {
    for (std::size_t at = 0; at < text.size(); ++at) {
        const auto byte = static_cast<unsigned char>(text[at]);
        if (byte < 0x20 || byte == 0x7F) return at;
        if (byte != 0xC2 || at + 1 == text.size()) continue;
        const auto next = static_cast<unsigned char>(text[at + 1]);
        if (next >= 0x80 && next <= 0x9F) return at;
    }
    return std::nullopt;
}

int code_points(std::string_view text) {
    return static_cast<int>(std::ranges::count_if(
        text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

CodePoint code_point_at(std::string_view text, std::size_t at) {
    const auto first = static_cast<unsigned char>(text[at]);
    const std::size_t bytes = std::min(bytes_of(first), text.size() - at);
    constexpr std::array<unsigned, 4> masks{0x7F, 0x1F, 0x0F, 0x07};
    char32_t value = first & masks[bytes - 1];
    for (std::size_t i = 1; i < bytes; ++i) {
        value = (value << 6) | (static_cast<unsigned char>(text[at + i]) & 0x3Fu);
    }
    return {value, bytes};
}

bool is_control(char32_t c) { return c < 0x20 || (c >= 0x7F && c < 0xA0); }

bool is_turning(char32_t c) {
    return c == 0x61C || (c >= 0x200E && c <= 0x200F) || (c >= 0x2028 && c <= 0x202E) ||
           (c >= 0x2066 && c <= 0x2069) || c == 0xFEFF;
}

bool is_unseen(char32_t c) {
    return is_turning(c) || c == 0xAD || c == 0x180E || (c >= 0x200B && c <= 0x200F) ||
           (c >= 0x2060 && c <= 0x206F) || (c >= 0xFFF9 && c <= 0xFFFB) || (c & 0xFFFE) == 0xFFFE ||
           (c >= 0xE0000 && c <= 0xE0FFF);
}

}  // namespace pinfold
