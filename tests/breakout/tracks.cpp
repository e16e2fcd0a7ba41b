#include "breakout/tracks.hpp"

#include <catch2/catch.hpp>
#include <random>

#include "breakout/match.hpp"
#include "breakout/verify.hpp"

namespace pinfold {
namespace {

/// Rows of pads as no library has them: pitches, rows and nets by chance, a fifth of them ground.
PadRow generated_row(std::mt19937& random, int pads, std::vector<std::size_t> nets) {
    const double pitches[] = {0.3, 0.4, 0.5, 0.65, 0.8, 1.0, 1.27, 2.0, 2.54};
    PadRow row;
    row.pitch_mm = pitches[random() % 9];
    const int rows = random() % 3 == 0 ? 2 : 1;
    const double offset = random() % 2 == 0 ? 0.0 : row.pitch_mm / 2;
    const double length = std::clamp(2.4 * row.pitch_mm, 0.8, 1.5);
    const bool holes = row.pitch_mm > 1.0 && random() % 2 == 0;
    std::ranges::shuffle(nets, random);
    for (int p = 0; p < pads; ++p) {
        RowPad pad;
        pad.row = p % rows;
        pad.along_mm = (p / rows) * row.pitch_mm + pad.row * offset;
        pad.behind_mm = pad.row * std::max(row.pitch_mm, length + 1.04);
        pad.width_mm = 0.6 * row.pitch_mm;
        pad.length_mm = length;
        pad.hole_mm = holes ? 0.4 * row.pitch_mm : 0.0;
        const std::size_t net = nets[static_cast<std::size_t>(p) % nets.size()];
        if (net < 100) pad.net = net;
        pad.ground = net == 0;
        row.pads.push_back(pad);
    }
    return row;
}

PadRows generated_rows(unsigned seed) {
    std::mt19937 random(seed);
    const int wires = 1 + static_cast<int>(random() % 11);
    std::vector<std::size_t> nets{100};  // 100: left open
    for (int n = 1; n <= wires; ++n) nets.push_back(static_cast<std::size_t>(n));
    for (int n = 0; n < wires / 4; ++n) nets.push_back(0);
    if (random() % 3 == 0) nets.push_back(1);  // a net with two pads a side
    PadRows rows;
    for (PadRow& side : rows.sides) {
        side = generated_row(random, static_cast<int>(nets.size()), nets);
    }
    const double aside = static_cast<double>(random() % 90) / 10.0 - 6.0;
    for (RowPad& pad : rows.sides[1].pads) pad.along_mm += aside;
    rows.rules = usual_rules(std::min(rows.sides[0].pitch_mm, rows.sides[1].pitch_mm));
    if (random() % 4 == 0) rows.rules.via_mm *= 0.8;
    const Course courses[] = {Course::in_line, Course::to_right, Course::to_left};
    rows.course = courses[random() % 3];
    return rows;
}

struct Drawn {
    Escape escape;
    std::vector<Dive> dives;
    Tracks tracks;
};

Drawn drawn(const PadRows& rows) {
    Drawn all{fewest_crossings(rows), {}, {}};
    std::vector<std::size_t> far_place;
    for (const Route& wire : all.escape.wires) far_place.push_back(wire.far_place);
    const std::vector<bool> fast(far_place.size(), false);
    const auto choice = keep_on_top(far_place, layer_weights(all.escape.wires, fast));
    all.dives = dives_of(far_place, choice.stays);
    all.tracks = draw_tracks(rows, all.escape, all.dives);
    return all;
}

/// The pad whose middle is here, if any.
const RowPad* pad_under(const PadRows& rows, const Tracks& tracks, const Spot& at) {
    for (const DrawnPad& drawn : tracks.pads) {
        const double off = std::hypot(drawn.middle.x_mm - at.x_mm, drawn.middle.y_mm - at.y_mm);
        if (off < 1e-6) return &rows.side(drawn.side).pads[drawn.pad];
    }
    return nullptr;
}

}  // namespace

// Expected: geometry alone, by a check that shares nothing with the drawing (verify.hpp).
TEST_CASE("copper of different nets keeps its distance and every pad is joined", "[breakout]") {
    int under = 0, from_holes = 0;
    for (unsigned seed = 0; seed < 1500; ++seed) {
        const PadRows rows = generated_rows(seed);
        CAPTURE(seed);
        const Drawn all = drawn(rows);
        under += all.escape.unders;
        for (const Track& track : all.tracks.tracks) {
            const RowPad* pad = pad_under(rows, all.tracks, track.points.front());
            from_holes += track.layer == CopperLayer::bottom && pad && pad->hole_mm > 0 ? 1 : 0;
        }
        CHECK(faults_of(rows, all.escape, all.tracks) == std::vector<std::string>{});
        CHECK(parts_too_many(rows, all.escape) == 0);
        CHECK(crossings_drawn(all.tracks) == all.escape.crossings);
        CHECK(count_crossings(all.escape.wires) == all.escape.crossings);
    }
    CHECK(under > 100);
    CHECK(from_holes > 20);
}

// Expected: geometry alone, as above; a meander adds what it was asked for and crosses nothing.
TEST_CASE("meanders keep their distance and add what they say", "[breakout]") {
    int drawn_ones = 0, refused = 0;
    for (unsigned seed = 0; seed < 400; ++seed) {
        const PadRows rows = generated_rows(seed);
        CAPTURE(seed);
        Drawn all = drawn(rows);
        const std::size_t wires = all.escape.wires.size();
        if (wires == 0) continue;
        std::mt19937 random(seed);
        for (int round = 0; round < 3; ++round) {
            const std::vector<double> before = wire_lengths(all.tracks, wires);
            const std::size_t wire = random() % wires;
            const double extra = 0.02 * static_cast<double>(1 + random() % 60);
            const Meander made = draw_meander(all.tracks, {wire}, extra, rows.rules);
            const std::vector<double> after = wire_lengths(all.tracks, wires);
            ++(made.fits ? drawn_ones : refused);
            for (std::size_t w = 0; w < wires; ++w) {
                const double added = w == wire && made.fits ? extra : 0.0;
                CHECK(after[w] == Approx(before[w] + added).epsilon(1e-9));
            }
            CHECK(own_crossings(all.tracks, wire) == 0);
        }
        CHECK(faults_of(rows, all.escape, all.tracks) == std::vector<std::string>{});
        CHECK(crossings_drawn(all.tracks) == all.escape.crossings);
    }
    CHECK(drawn_ones > 200);
    CHECK(refused > 50);
}

// Expected: by hand. Tracks of 0.15 mm stand 1 mm on both sides of one of 10 mm, so that bumps may
// be 1 - 2 x 0.075 - 0.15 = 0.7 mm high; each adds 2 (root 2 - 1) of its height. One bump of 0.604
// mm adds 0.5 mm; for 1.2 mm two would have to be 0.724 mm high, three 0.483 mm. Bumps for 6 mm
// would take more than the 10 mm.
TEST_CASE("a meander has the fewest bumps that there is room for", "[breakout]") {
    struct Asked {
        double extra_mm;
        int bumps;
        bool fits;
    };
    const Asked asked = GENERATE(values<Asked>({{0.5, 1, true}, {1.2, 3, true}, {6.0, 13, false}}));
    Tracks tracks;
    for (std::size_t w = 0; w < 3; ++w) {
        const double x = static_cast<double>(w);
        tracks.tracks.push_back({w, w, CopperLayer::top, {{x, 0.0}, {x, 10.0}}});
    }
    const Meander made = draw_meander(tracks, {1}, asked.extra_mm, TrackRules{});
    CHECK(made.fits == asked.fits);
    CHECK(made.bumps == asked.bumps);
    CHECK(tracks.tracks[1].points.size() == (asked.fits ? 2U + 4U * made.bumps : 2U));
    CHECK(length_of(tracks.tracks[1]) == Approx(10.0 + (asked.fits ? asked.extra_mm : 0.0)));
}

// Expected: by hand. A bump that adds 1 mm is 1.207 mm high; between two legs 1 mm apart it would
// cross the other one.
TEST_CASE("a meander keeps away from its own wire", "[breakout]") {
    Tracks tracks;
    tracks.tracks.push_back(
        {0, 0, CopperLayer::top, {{1.0, 0.0}, {1.0, 10.0}, {0.0, 10.0}, {0.0, 0.0}}});
    CHECK(draw_meander(tracks, {0}, 1.0, TrackRules{}).bumps == 1);
    CHECK(own_crossings(tracks, 0) == 0);
    const auto [left, right] = std::ranges::minmax(tracks.tracks[0].points, {}, &Spot::x_mm);
    CHECK(right.x_mm - left.x_mm == Approx(1.0 + 1.0 / (2 * (std::sqrt(2.0) - 1))));
}

// Expected: by hand. Two wires cross; one passes beneath. A plated hole is on both layers, so that
// it takes no via there; at a surface pad it takes one.
TEST_CASE("a wire that dives between plated holes needs no via", "[breakout]") {
    struct Holes {
        bool near, far;
        std::size_t vias;
    };
    const Holes holes =
        GENERATE(values<Holes>({{true, true, 0}, {true, false, 1}, {false, false, 2}}));
    PadRows rows;
    for (const std::size_t side : {0, 1}) {
        for (const std::size_t place : {0, 1}) {
            RowPad pad;
            pad.net = side == 0 ? place : 1 - place;
            pad.along_mm = 2.54 * static_cast<double>(place);
            pad.width_mm = pad.length_mm = 1.5;
            pad.pitch_mm = rows.sides[side].pitch_mm = 2.54;
            pad.hole_mm = (side == 0 ? holes.near : holes.far) ? 1.0 : 0.0;
            rows.sides[side].pads.push_back(pad);
        }
    }
    const Drawn all = drawn(rows);
    CHECK(all.escape.crossings == 1);
    CHECK(all.tracks.vias.size() == holes.vias);
    CHECK(faults_of(rows, all.escape, all.tracks) == std::vector<std::string>{});
}

}  // namespace pinfold
