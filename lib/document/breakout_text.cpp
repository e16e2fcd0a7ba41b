#include "document/breakout_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "base/shown.hpp"
#include "document/columns.hpp"

namespace pinfold {
namespace {

std::vector<std::string> divers(const Breakout& made) {
    std::vector<std::string> names;
    for (const WireFigures& wire : made.wires) {
        if (wire.dives) names.push_back(wire.name);
    }
    return names;
}

std::string crossings_text(const Breakout& made) {
    const Escape& escape = made.escape;
    std::string text =
        fmt::format("{} crossing{}, ", escape.crossings, escape.crossings == 1 ? "" : "s");
    text += escape.bound == escape.crossings
                ? std::string("proved the fewest")
                : fmt::format("NOT proved: no fewer than {}", escape.bound);
    if (made.reversed < escape.crossings) {
        text += fmt::format("; were one row the other way round, {}", made.reversed);
    }
    return text;
}

std::string layers_text(const Breakout& made) {
    const auto names = divers(made);
    if (names.empty()) return "no wire changes layer";
    std::string text = fmt::format("{} of {} wires change layer ({} vias): {}", names.size(),
                                   made.wires.size(), made.signal_vias(), fmt::join(names, ", "));
    const std::size_t beneath = static_cast<std::size_t>(made.slits);
    return text + fmt::format(
                      "; {:.1f} mm of runs in the plane, {} times beneath a half of a "
                      "fast pair",
                      made.slit_mm, beneath);
}

/// How the contacts of rows behind the front ones leave; empty if there are none.
std::string exits_text(const Breakout& made) {
    int through = 0, round = 0, under = 0;
    for (const auto& side : made.escape.exits) {
        for (const auto& exit : side) {
            if (!exit || *exit == Exit::front) continue;
            ++(goes_under(*exit) ? under : goes_round(*exit) ? round : through);
        }
    }
    if (through + round + under == 0) return {};
    return fmt::format(
        "of the back rows {} leave between the pads before them, {} round an end, {} on the "
        "bottom layer{}",
        through, round, under, made.escape.proved() ? "" : "; NOT proved that fewer cannot be had");
}

std::string layers_of(const WireFigures& wire) {
    std::vector<std::string_view> names;
    for (const CopperLayer layer : wire.layers) {
        names.emplace_back(layer == CopperLayer::top ? "top" : "plane");
    }
    return fmt::format("{}", fmt::join(names, ", "));
}

std::string distance_text(const Breakout& made) {
    const double needed = made.tracks.needed_mm;
    if (!made.tracks.placed_mm) return fmt::format("{:.1f} mm between the rows", needed);
    return fmt::format("{:.1f} mm needed between the rows, {:.1f} mm placed{}", needed,
                       *made.tracks.placed_mm, made.fits() ? "" : "  <-- does not fit");
}

std::string in_words(const Mismatch& mismatch) {
    std::string text = fmt::format("{:.2f} mm in a pair at most", mismatch.in_pair);
    if (mismatch.between_pairs) {
        text += fmt::format(", {:.2f} mm between fast pairs", *mismatch.between_pairs);
    }
    return text;
}

std::string mismatch_text(const Breakout& made) {
    if (made.pairs.empty()) return "no pairs";
    const std::string bare = in_words(made.bare_mismatch());
    if (!made.has_meanders()) return bare;
    return fmt::format("{}; with the meanders drawn {}", bare, in_words(made.mismatch()));
}

std::string in_words(const Meander& meander) {
    if (meander.bumps == 0) return "-";
    return fmt::format("{:.2f} mm: {} x {:.2f} mm high{}", meander.extra_mm, meander.bumps,
                       meander.height_mm, meander.fits ? "" : " (no room, not drawn)");
}

std::string wire_table(const Breakout& made) {
    const bool bent = made.has_meanders();
    Rows rows{{"wire", "length [mm]", "crosses", "layer"}};
    if (bent) rows.front().insert(rows.front().begin() + 2, "meanders [mm]");
    for (const WireFigures& wire : made.wires) {
        rows.push_back({wire.name, fmt::format("{:.2f}", wire.length_mm),
                        fmt::format("{}", wire.crossings), layers_of(wire)});
        if (!bent) continue;
        rows.back().insert(rows.back().begin() + 2,
                           wire.meander_mm > 0 ? fmt::format("{:.2f}", wire.meander_mm) : "-");
    }
    return in_columns(rows, "  ");
}

/// Lengths and what they lack, without the meanders; the meanders; what is left with them.
std::string pair_table(const Breakout& made) {
    Rows rows{{"pair", "plus [mm]", "minus [mm]", "apart [mm]", "to match the halves",
               "to match the longest fast pair", "left [mm]"}};
    for (const PairFigures& pair : made.pairs) {
        rows.push_back({pair.name, fmt::format("{:.2f}", made.wires[pair.wires[0]].bare_mm()),
                        fmt::format("{:.2f}", made.wires[pair.wires[1]].bare_mm()),
                        fmt::format("{:.2f}", made.bare_mismatch_in_pair(pair)),
                        in_words(pair.in_pair), in_words(pair.to_longest),
                        fmt::format("{:.2f}", made.mismatch_in_pair(pair))});
    }
    return in_columns(rows, "  ");
}

/// Pairs whose halves are not neighbours in the near row.
std::vector<std::string> parted_pairs(const Breakout& made) {
    std::vector<std::string> parted;
    const PadRow& near = made.rows.side(Side::near);
    for (const PairFigures& pair : made.pairs) {
        const auto place = [&](std::size_t half) {
            return near.pads[made.escape.wires[pair.wires[half]].pads[0]].along_mm;
        };
        if (std::abs(place(0) - place(1)) > 1.01 * near.pitch_mm) parted.push_back(pair.name);
    }
    return parted;
}

std::string own_text(const Breakout& own) {
    std::string text = fmt::format("In the far row's own order: {}; {}; mismatch {}.",
                                   crossings_text(own), layers_text(own), mismatch_text(own));
    const auto parted = parted_pairs(own);
    if (!parted.empty()) {
        text += fmt::format(" But the halves of {} would lie apart on the ribbon.",
                            fmt::join(parted, ", "));
    }
    return text;
}

}  // namespace

std::string breakout_summary(const Breakout& made) {
    return fmt::format("{}; {}; {} ground vias; {}; mismatch {}.", crossings_text(made),
                       layers_text(made), made.ground_vias(), distance_text(made),
                       mismatch_text(made));
}

std::string breakout_report(const Breakout& made, const std::optional<Breakout>& own) {
    std::string text = fmt::format("{}: {} wires\n", made.board, made.wires.size());
    text += in_lines(crossings_text(made), "  ");
    if (const std::string exits = exits_text(made); !exits.empty()) text += in_lines(exits, "  ");
    text += in_lines(layers_text(made), "  ");
    if (!made.dives.empty() && made.layers.proved()) {
        text += in_lines(
            "proved: of all ways to draw these wires, none keeps more halves of fast pairs on "
            "top, and of those none has fewer runs beneath them, and of those none "
            "fewer layer changes",
            "  ");
    }
    text += in_lines(
        fmt::format("{} ground vias, one at each ground pad without a hole", made.ground_vias()),
        "  ");
    text += in_lines(distance_text(made), "  ");
    text += in_lines("mismatch " + mismatch_text(made), "  ");
    for (const std::string& remark : made.rows.remarks) text += in_lines(remark, "  ");
    if (!made.not_drawn.empty()) {
        text += in_lines(fmt::format("not drawn, as they join pads of one side alone: {}",
                                     fmt::join(made.not_drawn, ", ")),
                         "  ");
    }
    text += "\n" + wire_table(made);
    if (!made.pairs.empty()) text += "\n" + pair_table(made);
    if (own) text += "\n" + in_lines(own_text(*own));
    return shown_page(text);
}

}  // namespace pinfold
