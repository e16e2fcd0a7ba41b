#include "breakout/breakout.hpp"

#include <catch2/catch.hpp>

#include "breakout/verify.hpp"
#include "check/estimates.hpp"
#include "design/read.hpp"
#include "support.hpp"

namespace pinfold {
namespace {

Design example(const std::string& file) {
    Library library = shipped_library();
    return read_design(repository() / "examples" / file, library);
}

std::size_t board_called(const Design& design, std::string_view name) {
    const auto board = std::ranges::find(design.boards, name, &Board::name);
    return static_cast<std::size_t>(board - design.boards.begin());
}

Design with_board(const std::string& ports) {
    Library library = shipped_library();
    return read_design(text_source("pinfold: 1\ntitle: T\nboards:\n  b:\n    ports:\n" + ports), {},
                       library);
}

}  // namespace

// Expected: geometry alone (verify.hpp), and the sums of the segments.
TEST_CASE("every board of the examples is drawn without a fault", "[breakout]") {
    struct Drawn {
        const char* file;
        const char* board;
    };
    const Drawn which = GENERATE(values<Drawn>({{"lid-link/design.yaml", "base"},
                                                {"lid-link/design.yaml", "lid"},
                                                {"kiln-display/design.yaml", "near"},
                                                {"kiln-display/design.yaml", "far"},
                                                {"mast-camera/design.yaml", "adapter"},
                                                {"strap-orders/inside.yaml", "desk"},
                                                {"strap-orders/between.yaml", "dome"},
                                                {"shore-lamp/design.yaml", "splice"}}));
    CAPTURE(which.file, which.board);
    const Design design = example(which.file);
    const Breakout made = breakout_of(design, board_called(design, which.board));
    CHECK(faults_of(made.rows, made.escape, made.tracks) == std::vector<std::string>{});
    CHECK(parts_too_many(made.rows, made.escape) == 0);
    CHECK(crossings_drawn(made.tracks) == made.escape.crossings);
    CHECK(made.escape.proved());
    CHECK(made.layers.proved());
    double wires = 0.0, tracks = 0.0;
    for (const WireFigures& wire : made.wires) wires += wire.length_mm;
    for (const Track& track : made.tracks.tracks) tracks += track.wire ? length_of(track) : 0.0;
    CHECK(wires == Approx(tracks).epsilon(1e-12));
}

// Expected: counted by hand. Of the base's list, SDA SCL 5V HPD UTIL CEC lie before the four halves
// of D0 and CK and after them on the plug: 24; among themselves the plug has CEC UTIL SCL SDA 5V
// HPD, which parts SDA SCL, SDA UTIL, SDA CEC, SCL UTIL, SCL CEC, 5V and HPD each with UTIL and
// CEC, UTIL CEC: 10.
TEST_CASE("the base adapter of the lid link crosses thirty-four times", "[breakout]") {
    const Design design = example("lid-link/design.yaml");
    const Breakout made = breakout_of(design, board_called(design, "base"));
    CHECK(made.escape.crossings == 34);
    for (const WireFigures& wire : made.wires) CHECK(wire.dives != wire.fast);
    CHECK(made.slits == 24);
    CHECK(made.signal_vias() == 12);
    CHECK(made.ground_vias() == 11);
}

// Expected: nothing crosses that lies in the order it comes in; pads of one pitch face each other.
TEST_CASE("a half-millimetre row in its own order needs straight traces alone", "[breakout]") {
    const Design design = example("lid-link/design.yaml");
    BreakoutWish wish;
    wish.own_order = true;
    const Breakout made = breakout_of(design, board_called(design, "base"), wish);
    CHECK(made.escape.crossings == 0);
    CHECK(made.dives.empty());
    // Nineteen contacts beside twenty: all traces step aside by a quarter of a millimetre.
    for (const PairFigures& pair : made.pairs) CHECK(made.mismatch_in_pair(pair) < 1e-9);
}

// Expected: the pads of the board file: 12 mm and 3 mm, 12 mm and 17 mm. Both receptacles number
// their contacts the same way across the board, so that all signals lie in one order.
TEST_CASE("rows lie as the board's placing has them", "[breakout]") {
    const Design design = example("mast-camera/design.yaml");
    const Breakout made = breakout_of(design, board_called(design, "adapter"));
    REQUIRE(made.tracks.placed_mm);
    CHECK(*made.tracks.placed_mm == Approx(14.0));
    CHECK(made.fits());
    CHECK(made.escape.crossings == 0);
    CHECK(made.reversed == 11 * 10 / 2);
}

// Expected: both have contact 1 on the left and look away from each other: all wires cross.
TEST_CASE("receptacles of one hand on opposite edges cross all their traces", "[breakout]") {
    const Design design = with_board(R"(
      near: {receptacle: ffc-0.50-bottom, positions: 6, first-contact: left, placing: {x: 5 mm, y: 3 mm}, wired: [A, B, C, D, E, open]}
      far: {receptacle: ffc-0.50-bottom, positions: 6, first-contact: left, placing: {x: 5 mm, y: 6 mm, angle: 180}, wired: [A, B, C, D, E, open]}
)");
    const Breakout made = breakout_of(design, 0);
    CHECK(made.escape.crossings == 5 * 4 / 2);
    CHECK(made.reversed == 0);
    REQUIRE(made.tracks.placed_mm);
    CHECK(*made.tracks.placed_mm == Approx(3.0));
    CHECK_FALSE(made.fits());
}

TEST_CASE("a placing that cannot be drawn is warned of where it stands", "[breakout]") {
    const auto drawn = [](const std::string& far, const BreakoutWish& wish = {}) {
        return pad_rows(with_board("      near: {receptacle: ffc-0.50-bottom, positions: 4, "
                                   "first-contact: left, placing: {x: 5 mm, y: 3 mm}, "
                                   "wired: [A, B, GND, open]}\n"
                                   "      far: {receptacle: ffc-0.50-bottom, positions: 4, "
                                   "first-contact: left, " +
                                   far + "wired: [A, B, GND, open]}\n"),
                        0, wish)
            .findings;
    };
    const Findings askew = drawn("placing: {x: 5 mm, y: 9 mm, angle: 45}, ");
    REQUIRE(askew.size() == 1);
    CHECK(askew[0].rule == "placing-undrawn");
    CHECK(askew[0].severity == Severity::warning);
    CHECK_THAT(askew[0].text, Catch::Contains("the ports do not stand at right angles"));
    CHECK(askew[0].at.line > 0);
    CHECK(drawn("").size() == 1);
    CHECK(drawn("placing: {x: 5 mm, y: 9 mm, angle: 180}, ").empty());
    BreakoutWish wish;
    wish.course = Course::to_left;  // who asks for a course does not want the placing
    CHECK(drawn("", wish).empty());
}

// Expected: by hand. C stands behind A and D behind B; the ribbon has C A B D. Round the left end
// and round the right one nothing crosses.
TEST_CASE("contacts of a back row leave on the side where they cross least", "[breakout]") {
    const Design design = with_board(R"(
      tail: {receptacle: ffc-0.50-bottom, positions: 6, first-contact: left, wired: [C, A, B, D, open, open]}
      pads: {pads: [A, B, C, D]}
)");
    PadRows rows = pad_rows(design, 0);
    std::vector<RowPad>& far = rows.sides[1].pads;
    for (std::size_t p : {2, 3}) {  // C and D behind A and B
        far[p].row = 1;
        far[p].behind_mm = 2.54;
        far[p].along_mm = far[p - 2].along_mm;
    }
    const Escape escape = fewest_crossings(rows);
    CHECK(escape.crossings == 0);
    CHECK(escape.proved());
    const Tracks tracks = draw_tracks(rows, escape, {});
    CHECK(faults_of(rows, escape, tracks) == std::vector<std::string>{});
}

TEST_CASE("boards that cannot be drawn say why", "[breakout]") {
    const auto said = [](const std::string& ports, const BreakoutWish& wish = {}) {
        return complaint([&] { (void)breakout_of(with_board(ports), 0, wish); });
    };
    CHECK_THAT(said("      p: {pads: [A, B]}\n"),
               Catch::Contains("board b has no receptacle for a ribbon [breakout-rows]"));
    const std::string tail =
        "      tail: {receptacle: ffc-0.50-bottom, positions: 4, "
        "first-contact: left, wired: [A, B, GND, open]}\n";
    CHECK_THAT(said(tail), Catch::Contains("board b has nothing opposite tail [breakout-rows]"));
    BreakoutWish wish;
    wish.port = "tial";
    CHECK_THAT(said(tail, wish), Catch::Contains("did you mean 'tail'?"));
}

// Expected: IPC-2221, minimum annular rings: 0.05 mm on an outer layer, from memory.
TEST_CASE("a hole leaves a ring of copper, or is refused", "[breakout]") {
    const auto said = [](const std::string& placing, std::optional<Millimetres> via) {
        BreakoutWish wish;
        wish.rules.via = via;
        const std::string part =
            "{receptacle: ffc-0.50-bottom, positions: 4, first-contact: left, wired: [A, B, C, D], "
            "placing: {x: 5 mm, y: ";
        const Design design = with_board("      near: " + part + "0 mm}}\n      far: " + part +
                                         "-20 mm, angle: 180" + placing + "}}\n");
        return complaint([&] { (void)breakout_of(design, 0, wish); });
    };
    CHECK(said("", {}) == "no complaint");
    CHECK(said("", Millimetres(0.2)) == "no complaint");  // its hole is half of it
    CHECK_THAT(said("", Millimetres(0.19)),
               Catch::Contains("a hole of 0.095 mm leaves a ring of 0.0475 mm of a via of 0.19 mm, "
                               "and 0.05 mm is the least; make the via wider or the hole smaller"));
    CHECK_THAT(said(", drill: 0.25 mm, pad-width: 0.3 mm, pad-length: 1 mm", {}),
               Catch::Contains("leaves a ring of 0.025 mm of a pad of 0.3 by 1 mm"));
    CHECK(said(", drill: 0.2 mm, pad-width: 0.3 mm, pad-length: 1 mm", {}) == "no complaint");
}

// Expected: words we chose.
TEST_CASE("pairs of two links on one board are told apart by their ports", "[breakout]") {
    const Design design = with_board(R"(
      tail: {receptacle: ffc-0.50-bottom, positions: 6, first-contact: left, wired: [left.2, left.3, right.2, right.3, GND, open]}
      left: {connector: usb2-a plug}
      right: {connector: usb2-a plug}
)");
    std::vector<std::string> names;
    for (const PairFigures& pair : breakout_of(design, 0).pairs) names.push_back(pair.name);
    CHECK(names == std::vector<std::string>{"left.D", "right.D"});
}

// Expected: the figures of the drawing itself; a board that states lengths keeps them.
TEST_CASE("lengths are estimated where a board gives none", "[breakout]") {
    const Design camera = example("mast-camera/design.yaml");
    const EstimatedLengths estimated = with_estimated_lengths(camera);
    CHECK(estimated.boards == std::vector<std::string>{"adapter"});
    const std::size_t adapter = board_called(camera, "adapter");
    const Breakout made = breakout_of(camera, adapter);
    CHECK(estimated.bent == made.has_meanders());
    for (std::size_t w = 0; w < made.wires.size(); ++w) {
        const std::size_t net = made.escape.wires[w].net;
        REQUIRE(estimated.drawn.boards[adapter].nets[net].length);
        CHECK(estimated.drawn.boards[adapter].nets[net].length->value() == made.wires[w].length_mm);
        CHECK(estimated.bare.boards[adapter].nets[net].length->value() == made.wires[w].bare_mm());
    }
    CHECK(with_estimated_lengths(example("lid-link/design.yaml")).boards.empty());
}

}  // namespace pinfold
