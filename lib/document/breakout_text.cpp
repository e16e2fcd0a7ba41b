#include "document/breakout_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "document/columns.hpp"
#include "document/table_words.hpp"

namespace pinfold {
namespace {

std::vector<std::string> divers(const Breakout& made) {
    std::vector<std::string> names;
    for (const WireFigures& wire : made.wires) {
        if (wire.dives) names.push_back(one_line(wire.name));
    }
    return names;
}

/// The spread of fast pairs, by the longer half of each; nothing if there is but one.
std::optional<double> between_pairs(const Breakout& made) {
    double most = 0.0;
    int fast = 0;
    for (const PairFigures& pair : made.pairs) {
        if (!pair.fast) continue;
        ++fast;
        most = std::max(most, pair.to_longest.extra_mm);
    }
    return fast > 1 ? std::optional(most) : std::nullopt;
}

double worst_in_pair(const Breakout& made) {
    double worst = 0.0;
    for (const PairFigures& pair : made.pairs) {
        worst = std::max(worst, made.mismatch_in_pair(pair));
    }
    return worst;
}

std::string crossings_text(const Breakout& made) {
    const Escape& escape = made.escape;
    std::string text =
        fmt::format("{} crossing{}, ", escape.crossings, escape.crossings == 1 ? "" : "s");
    text += escape.proved() ? std::string("proved the fewest")
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

std::string distance_text(const Breakout& made) {
    const double needed = made.tracks.needed_mm;
    if (!made.tracks.placed_mm) return fmt::format("{:.1f} mm between the rows", needed);
    return fmt::format("{:.1f} mm needed between the rows, {:.1f} mm placed{}", needed,
                       *made.tracks.placed_mm, made.fits() ? "" : "  <-- does not fit");
}

std::string mismatch_text(const Breakout& made) {
    if (made.pairs.empty()) return "no pairs";
    std::string text = fmt::format("{:.2f} mm in a pair at most", worst_in_pair(made));
    if (const auto spread = between_pairs(made)) {
        text += fmt::format(", {:.2f} mm between fast pairs", *spread);
    }
    return text;
}

std::string in_words(const Meander& meander) {
    if (meander.bumps == 0) return "-";
    return fmt::format("{:.2f} mm: {} x {:.2f} mm high{}", meander.extra_mm, meander.bumps,
                       meander.height_mm, meander.fits ? "" : " (no room)");
}

std::string wire_table(const Breakout& made) {
    Rows rows{{"wire", "length [mm]", "crosses", "layer"}};
    for (const WireFigures& wire : made.wires) {
        rows.push_back({one_line(wire.name), fmt::format("{:.2f}", wire.length_mm),
                        fmt::format("{}", wire.crossings), wire.dives ? "top, plane, top" : "top"});
    }
    return in_columns(rows, "  ");
}

std::string pair_table(const Breakout& made) {
    Rows rows{{"pair", "plus [mm]", "minus [mm]", "apart [mm]", "to match the halves",
               "to match the longest fast pair"}};
    for (const PairFigures& pair : made.pairs) {
        rows.push_back({pair.name, fmt::format("{:.2f}", made.wires[pair.wires[0]].length_mm),
                        fmt::format("{:.2f}", made.wires[pair.wires[1]].length_mm),
                        fmt::format("{:.2f}", made.mismatch_in_pair(pair)), in_words(pair.in_pair),
                        pair.fast ? in_words(pair.to_longest) : "-"});
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
    text += in_lines(layers_text(made), "  ");
    if (!made.dives.empty() && made.layers.proved()) {
        text += in_lines(
            "proved: of all ways to draw it, none keeps more halves of fast pairs on "
            "top, and of those none has fewer runs beneath them, and of those none "
            "fewer layer changes",
            "  ");
    }
    text +=
        in_lines(fmt::format("{} ground vias, one at each ground pad", made.ground_vias()), "  ");
    text += in_lines(distance_text(made), "  ");
    text += in_lines("mismatch " + mismatch_text(made), "  ");
    for (const std::string& remark : made.rows.remarks) text += in_lines(remark, "  ");
    if (!made.not_drawn.empty()) {
        text += in_lines(fmt::format("not drawn, as they join pads of one side alone: {}",
                                     one_line(fmt::format("{}", fmt::join(made.not_drawn, ", ")))),
                         "  ");
    }
    text += "\n" + wire_table(made);
    if (!made.pairs.empty()) text += "\n" + pair_table(made);
    if (own) text += "\n" + in_lines(own_text(*own));
    return text;
}

}  // namespace pinfold
