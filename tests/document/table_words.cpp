#include "document/table_words.hpp"

#include <catch2/catch.hpp>

using namespace pinfold;

// All expected texts are words we chose.

TEST_CASE("user text keeps to one line and cannot steer a terminal or turn the reading") {
    CHECK(one_line("a\nb\tc") == "a b c");
    CHECK(one_line("\x1B[31mred") == "?[31mred");
    CHECK(one_line("5V\u202E\u2066x") == "5V??x");
    CHECK(one_line("Bö日本 +") == "Bö日本 +");
}

TEST_CASE("the next stock length up is named") {
    const std::vector<Millimetres> stock{Millimetres(200), Millimetres(100), Millimetres(150)};
    CHECK(stock_in_words(Millimetres(120), stock) == "next listed stock length: 150 mm");
    CHECK(stock_in_words(Millimetres(100), stock) == "a listed stock length");
    CHECK(stock_in_words(Millimetres(201), stock) ==
          "longer than every listed stock length (200 mm at most); have it made");
    CHECK(stock_in_words(Millimetres(201), {}) == "cut to length");
}

TEST_CASE("lengths are printed without the noise of binary fractions") {
    CHECK(in_words(Millimetres(0.1 + 0.2)) == "0.3 mm");
    CHECK(in_words(Millimetres(1234.5)) == "1234.5 mm");
}

TEST_CASE("a lay is told step by step") {
    const Lay lay{{Turn::bend_up, Turn::fold_left, Turn::half_twist}, Facing::up, Facing::down};
    CHECK(
        in_words(lay) ==
        "bent up by 90 degrees, then folded at 45 degrees to the left, then turned over by a half "
        "twist; component side of the board at end a up, at end b down");
}

TEST_CASE("how a ribbon goes in is told against the board and against the drawing") {
    CHECK(copper_in_words(ContactSide::top, Entry::right_angle, true) ==
          "copper away from the board; on a board that lies face up, as drawn");
    CHECK(copper_in_words(ContactSide::bottom, Entry::right_angle, true) ==
          "copper towards the board; on a board that lies face up, the drawing turned over");
    CHECK(copper_in_words(ContactSide::bottom, Entry::vertical, true) ==
          "copper towards the contacts");
}
