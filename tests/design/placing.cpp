#include "design/placing.hpp"

#include <catch2/catch.hpp>

#include "design/told.hpp"

namespace pinfold {
namespace {

Design with_placing(const std::string& port) {
    Library library = shipped_library();
    Design design;
    read_board(text_source("pinfold-board: 1\nports:\n  p: " + port), "it", design, library);
    return design;
}

/// Places on the board in mm, by label.
std::map<std::string, std::pair<double, double>> places(const std::string& port) {
    const Design design = with_placing(port);
    std::map<std::string, std::pair<double, double>> found;
    for (const PlacedPad& pad : on_board(design.boards[0].ports[0].placing.value())) {
        found[pad.label] = {pad.x.value(), pad.y.value()};
    }
    return found;
}

bool is_at(const std::pair<double, double>& place, double x, double y) {
    return std::abs(place.first - x) < 1e-9 && std::abs(place.second - y) < 1e-9;
}

std::string tail(const std::string& first, const std::string& placing) {
    return "{receptacle: ffc-0.50-bottom, positions: 4, first-contact: " + first +
           ", wired: [A, B, A, B], placing: {" + placing + "}}\n";
}

}  // namespace

// Looking into a mouth that faces -y, left is -x (geometry); the pitch is that of the receptacle.
TEST_CASE("a ribbon receptacle's row follows from its pitch and first contact") {
    const auto left = places(tail("left", "x: 10 mm, y: 4 mm"));
    CHECK(is_at(left.at("1"), 9.25, 4.0));
    CHECK(is_at(left.at("4"), 10.75, 4.0));
    const auto right = places(tail("right", "x: 10 mm, y: 4 mm"));
    CHECK(is_at(right.at("1"), 10.75, 4.0));
}

TEST_CASE("a part is turned counter-clockwise, and turned over first if it is on the other side") {
    CHECK(is_at(places(tail("left", "x: 0 mm, y: 0 mm, angle: 90")).at("1"), 0.0, -0.75));
    CHECK(is_at(places(tail("left", "x: 0 mm, y: 0 mm, angle: 180")).at("1"), 0.75, 0.0));
    CHECK(is_at(places(tail("left", "x: 0 mm, y: 0 mm, side: bottom")).at("1"), 0.75, 0.0));
    CHECK(is_at(places(tail("left", "x: 0 mm, y: 0 mm, side: bottom, angle: 90")).at("1"), 0.0,
                0.75));
}

TEST_CASE("rows and single pads are placed as written") {
    const auto found = places(
        "{pads: [A, B, A, B], shell: [MP], placing: {x: 1 mm, y: -2 mm, rows: [[1, 3], [2, 4]], "
        "pitch: 2.54 mm, row-distance: 2.54 mm, pads-at: {MP: {x: -5 mm, y: 0 mm}}}}\n");
    CHECK(is_at(found.at("1"), -0.27, -3.27));
    CHECK(is_at(found.at("4"), 2.27, -0.73));
    CHECK(is_at(found.at("MP"), -4.0, -2.0));
}

TEST_CASE("a placing that cannot be is refused where it stands") {
    const auto refused = [](const std::string& placing) {
        return complaint([&] { with_placing(tail("left", placing)); });
    };
    CHECK_THAT(refused("x: near, y: 4 mm"),
               Catch::Matchers::Contains("'x' must be a place such as '12.5 mm' or '-3 mm'"));
    CHECK_THAT(refused("y: 4 mm"), Catch::Matchers::Contains("'x' is missing"));
    CHECK_THAT(refused("x: 0 mm, y: 0 mm, side: back"), Catch::Matchers::Contains("'side'"));
    CHECK_THAT(refused("x: 0 mm, y: 0 mm, rows: [[1, 2, 3, 9]]"),
               Catch::Matchers::Contains("p has no contact or shield pad '9'"));
    CHECK_THAT(refused("x: 0 mm, y: 0 mm, rows: [[1, 2], [3, 4]]"),
               Catch::Matchers::Contains("'row-distance' is missing"));
    CHECK_THAT(refused("x: 0 mm, y: 0 mm, rows: [1, 2]"),
               Catch::Matchers::Contains("a row is a list of contacts"));
}

}  // namespace pinfold
