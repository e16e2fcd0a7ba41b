#include "document/drawing.hpp"

#include <catch2/catch.hpp>
#include <sstream>

#include "document/four_ways.hpp"

using namespace pinfold;

namespace {

/// What a flat ribbon looks like from above, told by coordinates alone: x runs from end a to end
/// b, y upwards on the page, z to the viewer. Board a lies face up with its mouth to the right.
///
/// Someone who looks into a mouth with the board below has his right hand towards normal x mouth;
/// contacts run from his left to his right if the first one is on the left. No use is made of
/// handedness, which is what the drawing goes by.
struct Seen {
    bool a_up, b_up, b_one_at_first;
};

Seen seen_from_above(const WrittenEnd& a, const WrittenEnd& b, bool same_side) {
    const auto side = [](const WrittenEnd& end) {
        return end.receptacle == "ffc-0.50-top" ? 1 : -1;
    };
    // Mouth a = +x, normal +z: right hand z x x = +y.
    const int contacts_a_along_y = a.first == "left" ? 1 : -1;
    const int copper_a = side(a);  // along z
    const int copper_b = same_side ? copper_a : -copper_a;
    const int normal_b = copper_b * side(b);  // so that the copper touches
    // Mouth b = -x: right hand (normal_b z) x (-x) = -normal_b y.
    const int contacts_b_along_y = -normal_b * (b.first == "left" ? 1 : -1);
    // Conductor 1 is at the upper edge if contacts of a run down the page; else turn the page over
    // about the x axis, which brings the other face up.
    const int turned = contacts_a_along_y < 0 ? 1 : -1;
    return {turned * copper_a > 0, turned * copper_b > 0, contacts_a_along_y == contacts_b_along_y};
}

RibbonView lid_view() {
    Library library = shipped_library();
    const Design design = read_design(repository() / "examples/lid-link/design.yaml", library);
    return wiring_table(design, trace(design)).ribbons.at(0).view;
}

}  // namespace

TEST_CASE("the drawing shows the ribbon as coordinates have it") {
    const auto receptacle_a = GENERATE(as<std::string>{}, "ffc-0.50-bottom", "ffc-0.50-top");
    const auto receptacle_b = GENERATE(as<std::string>{}, "ffc-0.50-bottom", "ffc-0.50-top");
    const auto first_a = GENERATE(as<std::string>{}, "left", "right");
    const auto first_b = GENERATE(as<std::string>{}, "left", "right");
    const auto copper = GENERATE(as<std::string>{}, "same-side", "opposite-side");
    CAPTURE(receptacle_a, first_a, receptacle_b, first_b, copper);

    const WrittenEnd a{receptacle_a, first_a};
    const WrittenEnd b{receptacle_b, first_b};
    const RibbonView view = table_of(four_ways(a, b, copper)).ribbons.at(0).view;
    const Seen seen = seen_from_above(a, b, copper == "same-side");
    CHECK((view.a.copper == CopperView::towards_you) == seen.a_up);
    CHECK((view.b.copper == CopperView::towards_you) == seen.b_up);
    CHECK(view.a.one_at_first);
    CHECK(view.b.one_at_first == seen.b_one_at_first);
    CHECK(view.b.one_at_last != seen.b_one_at_first);
}

TEST_CASE("where the order is left open the drawing shows the one of the rows") {
    const RibbonView view =
        table_of(four_ways({}, {"ffc-0.50-both", "left"}, "opposite-side")).ribbons.at(0).view;
    CHECK(view.a.copper == CopperView::towards_you);
    CHECK(view.b.copper == CopperView::below);
    CHECK(view.b.one_at_first);
}

TEST_CASE("the text drawing has both ends, the faces and contact 1") {
    const std::vector<std::string> expected{
        "end a: base.tail                                             end b: lid.tail",
        "copper towards you                                        copper towards you",
        "",
        "   1 > |######|== conductor 1, marked edge ==================|######|   20",
        "       |######|                                              |######|",
        "  20   |######|-- conductor 20 ------------------------------|######| < 1"};
    CHECK(draw_in_text(lid_view()) == expected);
}

TEST_CASE("a ribbon with its copper on opposite faces shows one end from behind") {
    const RibbonView view = table_of(four_ways({}, {}, "opposite-side")).ribbons.at(0).view;
    const std::vector<std::string> lines = draw_in_text(view);
    CHECK(lines[1] ==
          "copper towards you                                              copper below");
    CHECK(lines[3] == "   1 > |######|== conductor 1, marked edge ==================|......| < 1");
}

TEST_CASE("the drawing is described for those who cannot see it") {
    CHECK(described(lid_view()) ==
          "strap seen from above, end a on the left, conductor 1 along the upper, marked edge. "
          "End a (base.tail): copper towards you, contact 1 at the marked edge. "
          "End b (lid.tail): copper towards you, contact 1 at the far edge.");
}

TEST_CASE("the SVG is an image with a title and a description and one bar a conductor and end") {
    pugi::xml_document document;
    draw_in_svg(document, lid_view(), "one");
    const pugi::xml_node svg = document.child("svg");
    CHECK(std::string(svg.attribute("role").value()) == "img");
    CHECK(std::string(svg.attribute("aria-labelledby").value()) == "one-title one-desc");
    CHECK(std::string(svg.child("desc").text().get()) == described(lid_view()));
    // 20 conductors at two ends, and the copper at two ends of the side view.
    CHECK(svg.select_nodes("rect[@fill='#000']").size() == 2 * 20 + 2);
}

TEST_CASE("copper on the far face is dashed in the SVG") {
    pugi::xml_document document;
    draw_in_svg(document, table_of(four_ways({}, {}, "opposite-side")).ribbons.at(0).view, "one");
    CHECK(document.select_nodes("//rect[@stroke-dasharray]").size() == 4);
    CHECK(document.select_nodes("//text[.='copper below, on the far face']").size() == 1);
}
