#include "base/utf8.hpp"

#include <catch2/catch.hpp>

namespace pinfold {
namespace {

struct Sample {
    std::string bytes;
    std::optional<std::size_t> first_bad;
};

}  // namespace

// RFC 3629, section 4 (syntax of UTF-8 byte sequences): both ends of every row of its grammar.
TEST_CASE("the first and last sequence of every row of RFC 3629 are well-formed") {
    const std::string bytes =
        GENERATE(as<std::string>{}, "\x7F", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xE0\xBF\xBF",
                 "\xE1\x80\x80", "\xEC\xBF\xBF", "\xED\x80\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
                 "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF0\xBF\xBF\xBF", "\xF1\x80\x80\x80",
                 "\xF3\xBF\xBF\xBF", "\xF4\x80\x80\x80", "\xF4\x8F\xBF\xBF");
    CHECK_FALSE(first_invalid_utf8(bytes));
    CHECK_FALSE(first_invalid_utf8("a" + bytes + "b"));
    CHECK(code_points("a" + bytes + "b") == 3);
}

// RFC 3629, sections 3 and 10: overlong forms, surrogates, beyond U+10FFFF, stray and cut bytes.
TEST_CASE("what RFC 3629 forbids is found where it starts") {
    const Sample sample = GENERATE(values<Sample>({
        {"\x80", 0},  // a continuation without a start
        {"\xBF", 0},
        {"\xC0\x80", 0},  // overlong U+0000
        {"\xC1\xBF", 0},  // overlong U+007F
        {"\xC2", 0},      // cut
        {"\xC2\x41", 0},  // no continuation
        {"\xC2\xC0", 0},
        {"\xE0\x80\x80", 0},      // overlong
        {"\xE0\x9F\xBF", 0},      // overlong U+07FF
        {"\xE1\x80", 0},          // cut
        {"\xED\xA0\x80", 0},      // surrogate U+D800
        {"\xED\xBF\xBF", 0},      // surrogate U+DFFF
        {"\xF0\x80\x80\x80", 0},  // overlong
        {"\xF0\x8F\xBF\xBF", 0},  // overlong U+FFFF
        {"\xF0\x90\x80", 0},      // cut
        {"\xF4\x90\x80\x80", 0},  // U+110000
        {"\xF5\x80\x80\x80", 0},
        {"\xF8\x88\x80\x80\x80", 0},  // five bytes
        {"\xFE", 0},
        {"\xFF", 0},
        {"ab\xC3\xA9\xFF", 4},
    }));
    CAPTURE(sample.bytes);
    CHECK(first_invalid_utf8(sample.bytes) == sample.first_bad);
}

// C0 and C1: ISO/IEC 6429; their UTF-8 form follows from RFC 3629.
TEST_CASE("control characters of both sets are found") {
    CHECK(first_control("ab\x1B[31m") == 2u);
    CHECK(first_control("\x7F") == 0u);
    CHECK(first_control(std::string_view("a\0", 2)) == 1u);
    CHECK(first_control("a\xC2\x9B") == 1u);
    CHECK(first_control("\xC2\x80") == 0u);
    CHECK_FALSE(first_control("\xC2\xA0 \xC3\x9B"));
    CHECK_FALSE(first_control("\xC2"));
}

TEST_CASE("no text has no code points and nothing wrong with it") {
    CHECK(code_points("") == 0);
    CHECK_FALSE(first_invalid_utf8(""));
}

}  // namespace pinfold
