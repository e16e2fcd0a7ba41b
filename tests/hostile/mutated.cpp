#include <catch2/catch.hpp>

#include <array>

#include "hostile/read_any.hpp"

namespace pinfold {
namespace {

constexpr std::array signs{'\0', '"',  '\'',   ':',    '-',    '\t',   '\n', '[', ']',
                           '{',  '}',  '&',    '*',    '!',    '#',    '|',  '>', '%',
                           '@',  '`',  ',',    '?',    '0',    '9',    'a',  '.', '+',
                           ' ',  '\r', '\x7F', '\xFF', '\xC3', '\x1B', '\\', '~', '<'};

/// The `turn`-th way to spoil one place of a text: a sign put in its place, or before it, or the
/// place and its neighbours taken out, or a piece of the text said twice.
std::string spoilt(std::string text, std::size_t at, std::size_t turn) {
    const char sign = signs[turn / 4 % signs.size()];
    switch (turn % 4) {
        case 0: text[at] = sign; break;
        case 1: text.insert(at, 1, sign); break;
        case 2: text.erase(at, 1 + turn / 4 % 7); break;
        default: text.insert(at, text.substr(at, 1 + turn / 4 % 40)); break;
    }
    return text;
}

}  // namespace

// Every eighth place of every file, each spoilt in another way; the ways go round over all files,
// so that each of the 144 falls on each kind of file many times.
TEST_CASE("every shipped file with a byte changed gives a result or an input error") {
    Library library = shipped_library();
    std::size_t turn = 0;
    std::size_t read = 0;
    std::size_t refused = 0;
    for (const ShippedFile& file : shipped_files()) {
        CAPTURE(file.path);
        for (std::size_t at = turn % 8; at < file.text.size(); at += 8) {
            ++turn;
            CAPTURE(at, turn);
            const Outcome outcome = read_spoilt(file, spoilt(file.text, at, turn), library);
            ++(outcome == Outcome::read ? read : refused);
        }
    }
    CHECK(read > 1'000);
    CHECK(refused > 1'000);
}

// Two files cut and put together, as an editor does that loses its place.
TEST_CASE("two halves of different files give a result or an input error") {
    Library library = shipped_library();
    const std::vector<ShippedFile> files = shipped_files();
    for (std::size_t i = 0; i < files.size(); ++i) {
        const ShippedFile& one = files[i];
        const ShippedFile& other = files[(i * 7 + 3) % files.size()];
        CAPTURE(one.path, other.path);
        read_spoilt(
            one, one.text.substr(0, one.text.size() / 2) + other.text.substr(other.text.size() / 2),
            library);
        read_spoilt(one, one.text + other.text, library);
    }
}

}  // namespace pinfold
