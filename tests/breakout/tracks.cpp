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
    std::ranges::shuffle(nets, random);
    for (int p = 0; p < pads; ++p) {
        RowPad pad;
        pad.row = p % rows;
        pad.along_mm = (p / rows) * row.pitch_mm + pad.row * offset;
        pad.behind_mm = pad.row * std::max(row.pitch_mm, length + 1.04);
        pad.width_mm = 0.6 * row.pitch_mm;
        pad.length_mm = length;
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

}  // namespace

// Expected: geometry alone, by a check that shares nothing with the drawing (verify.hpp).
TEST_CASE("copper of different nets keeps its distance and every pad is joined", "[breakout]") {
    for (unsigned seed = 0; seed < 1500; ++seed) {
        const PadRows rows = generated_rows(seed);
        CAPTURE(seed);
        const Drawn all = drawn(rows);
        CHECK(faults_of(rows, all.escape, all.tracks) == std::vector<std::string>{});
        CHECK(parts_too_many(rows, all.escape) == 0);
        CHECK(crossings_drawn(all.tracks) == all.escape.crossings);
        CHECK(count_crossings(all.escape.wires) == all.escape.crossings);
    }
}

}  // namespace pinfold
