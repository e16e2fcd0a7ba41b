#include "exchange/place_finder.hpp"

#include <catch2/catch.hpp>

#include "support.hpp"

using namespace pinfold;

TEST_CASE("a byte's place counts lines and code points from 1, asked in any order") {
    PlaceFinder places(text_source("\xEF\xBB\xBF\xC3\xA9x\r\nab"));
    const auto place = [&](std::size_t offset) {
        const Mark at = places.at(offset);
        return std::pair{at.line, at.column};
    };
    CHECK(place(6) == std::pair{2, 2});
    CHECK(place(2) == std::pair{1, 2});
    CHECK(place(0) == std::pair{1, 1});
    CHECK(place(5) == std::pair{2, 1});
    CHECK(place(99) == std::pair{2, 3});
    CHECK(places.at(6).line_begins == 8);
    CHECK(places.at(2).line_begins == 0);
}

TEST_CASE("text is plain if every reader can be given it") {
    CHECK(is_plain_text("a\tb\r\n\xE2\x82\xAC"));
    CHECK_FALSE(is_plain_text("\x1b"));
    CHECK_FALSE(is_plain_text("\x7f"));
    CHECK_FALSE(is_plain_text("\xC2\x9b"));
    CHECK_FALSE(is_plain_text("\xEF\xBF\xBF"));
    CHECK_FALSE(is_plain_text("\xC0\x80"));
}

TEST_CASE("a netlist of more than 256 MiB is refused") {
    const auto source = text_source(std::string(largest_netlist_bytes + 1, ' '));
    CHECK(complaint([&] { require_plain_text(source); }) ==
          "error: 'input' is larger than 256 MiB [file-too-large]\n");
}
