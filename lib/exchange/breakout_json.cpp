#include "exchange/breakout_json.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "breakout/board_breakouts.hpp"

namespace pinfold {
namespace {

using Json = nlohmann::ordered_json;

/// To a tenth of a micrometre: finer is noise.
double rounded(double length_mm) {
    const double value = std::round(length_mm * 1e4) / 1e4;
    return value == 0.0 ? 0.0 : value;
}

class BreakoutJson {
public:
    BreakoutJson(const Design& design, const Breakout& made)
        : design_(design), made_(made), board_(design.boards[made.rows.near.board]) {}

    std::string text() const {
        const TrackRules& rules = made_.rows.rules;
        Json json{{"schema", "pinfold-draw/1"}};
        json.update(summary());
        json["track_mm"] = rounded(rules.track_mm);
        json["gap_mm"] = rounded(rules.gap_mm);
        json["via_mm"] = rounded(rules.via_mm);
        json["hole_mm"] = rounded(rules.hole_mm);
        add_figures(json);
        add_copper(json);
        json["remarks"] = made_.rows.remarks;
        return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
    }

    /// What the board needs, without its copper.
    Json summary() const {
        const Tracks& tracks = made_.tracks;
        Json json{{"board", made_.board},
                  {"crossings", made_.escape.crossings},
                  {"crossings_bound", made_.escape.bound},
                  {"exits_under", made_.escape.unders},
                  {"exits_proved", made_.escape.proved()},
                  {"layer_changes", Json::array()},
                  {"layer_changes_proved", made_.layers.proved()},
                  {"signal_vias", made_.signal_vias()},
                  {"ground_vias", made_.ground_vias()},
                  {"plane_runs_mm", rounded(made_.slit_mm)},
                  {"runs_beneath_fast_halves", made_.slits},
                  {"distance_needed_mm", rounded(tracks.needed_mm)},
                  {"distance_placed_mm",
                   tracks.placed_mm ? Json(rounded(*tracks.placed_mm)) : Json(nullptr)}};
        for (const WireFigures& wire : made_.wires) {
            if (wire.dives) json["layer_changes"].push_back(wire.name);
        }
        const Mismatch mismatch = made_.mismatch();
        json["mismatch_in_pair_mm"] = rounded(mismatch.in_pair);
        json["mismatch_between_pairs_mm"] =
            mismatch.between_pairs ? Json(rounded(*mismatch.between_pairs)) : Json(nullptr);
        return json;
    }

private:
    const std::string& name(std::size_t net) const { return board_.nets[net].name; }

    static Json meander(const Meander& meander) {
        return {{"extra_mm", rounded(meander.extra_mm)},
                {"bumps", meander.bumps},
                {"height_mm", rounded(meander.height_mm)},
                {"fits", meander.fits}};
    }

    void add_figures(Json& json) const {
        json["wires"] = Json::array();
        for (const WireFigures& wire : made_.wires) {
            json["wires"].push_back({{"signal", wire.name},
                                     {"length_mm", rounded(wire.length_mm)},
                                     {"meander_mm", rounded(wire.meander_mm)},
                                     {"crossings", wire.crossings},
                                     {"changes_layer", wire.dives}});
        }
        json["pairs"] = Json::array();
        for (const PairFigures& pair : made_.pairs) {
            json["pairs"].push_back(
                {{"pair", pair.name},
                 {"plus_mm", rounded(made_.wires[pair.wires[0]].length_mm)},
                 {"minus_mm", rounded(made_.wires[pair.wires[1]].length_mm)},
                 {"mismatch_mm", rounded(made_.mismatch_in_pair(pair))},
                 {"mismatch_without_meanders_mm", rounded(made_.bare_mismatch_in_pair(pair))},
                 {"in_pair", pair.fast ? meander(pair.in_pair) : Json(nullptr)},
                 {"to_longest", pair.fast ? meander(pair.to_longest) : Json(nullptr)}});
        }
    }

    void add_copper(Json& json) const {
        json["pads"] = Json::array();
        for (const DrawnPad& drawn : made_.tracks.pads) {
            const RowPad& pad = made_.rows.side(drawn.side).pads[drawn.pad];
            json["pads"].push_back({{"contact", name_of(design_, pad.contact)},
                                    {"signal", pad.net ? Json(name(*pad.net)) : Json(nullptr)},
                                    {"x_mm", rounded(drawn.middle.x_mm)},
                                    {"y_mm", rounded(drawn.middle.y_mm)},
                                    {"width_mm", rounded(drawn.width_mm)},
                                    {"height_mm", rounded(drawn.height_mm)},
                                    {"hole_mm", rounded(pad.hole_mm)}});
        }
        json["tracks"] = Json::array();
        for (const Track& track : made_.tracks.tracks) {
            Json points = Json::array();
            for (const Spot& spot : track.points) {
                points.push_back(Json::array({rounded(spot.x_mm), rounded(spot.y_mm)}));
            }
            json["tracks"].push_back({{"signal", name(track.net)},
                                      {"layer", track.layer == CopperLayer::top ? "top" : "plane"},
                                      {"points_mm", std::move(points)}});
        }
        json["vias"] = Json::array();
        for (const Via& via : made_.tracks.vias) {
            json["vias"].push_back({{"signal", name(via.net)},
                                    {"x_mm", rounded(via.at.x_mm)},
                                    {"y_mm", rounded(via.at.y_mm)}});
        }
    }

    const Design& design_;
    const Breakout& made_;
    const Board& board_;
};

}  // namespace

std::string breakout_json(const Design& design, const Breakout& breakout) {
    return BreakoutJson(design, breakout).text();
}

Json breakouts_json(const Design& design) {
    Json json = Json::array();
    for (const BoardBreakout& breakout : board_breakouts(design)) {
        json.push_back(breakout.made
                           ? BreakoutJson(design, *breakout.made).summary()
                           : Json{{"board", breakout.board}, {"not_drawn", breakout.refusal}});
    }
    return json;
}

}  // namespace pinfold
