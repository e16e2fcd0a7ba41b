#include "pinmap/shelf.hpp"

#include <catch2/catch.hpp>

#include "support.hpp"

using namespace pinfold;

TEST_CASE("the shelves hold every pin map of the folders, by kind and name") {
    Library library({repository() / "tests/cli/shelf"});  // two invented pin maps
    const std::vector<PinMapShelf> shelves = shelves_of(library);
    REQUIRE(shelves.size() == 4);
    REQUIRE(shelves[0].entries.size() == 1);
    CHECK(shelves[0].kind == PinMapKind::connector);
    CHECK(shelves[0].entries[0].name == "Weir gauge, 6 contacts");
    REQUIRE(shelves[1].entries.size() == 1);
    CHECK(shelves[1].entries[0].id == "weir");
    CHECK(shelves[2].entries.empty());
    CHECK(shelves[3].entries.empty());
}

TEST_CASE("a name may stand for pin maps of several kinds") {
    const Library library({repository() / "tests/cli/shelf"});
    CHECK(kinds_of(library, "weir") == std::vector{PinMapKind::connector, PinMapKind::interface});
    CHECK(kinds_of(library, "wier").empty());
}
