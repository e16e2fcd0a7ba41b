#include "exchange/pinmap_json.hpp"

#include <nlohmann/json.hpp>

#include "pinmap/doubt.hpp"

namespace pinfold {
namespace {

using Json = nlohmann::ordered_json;

template <class Unit>
Json number(const std::optional<Quantity<Unit>>& value) {
    return value ? Json(value->value()) : Json(nullptr);
}
Json number(const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); }
Json word(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

std::string whole(const Json& json) {
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

/// What every document begins with.
template <class PinMap>
Json opening(std::string_view kind, const PinMap& map) {
    return {{"schema", "pinfold-pinmap/1"},
            {"kind", kind},
            {"id", map.id},
            {"name", map.name},
            {"source", map.source},
            {"from_memory", doubts_of(map)}};
}

Json signal_json(std::size_t index, const Interface& interface) {
    const Signal& signal = interface.signals[index];
    Json json{{"signal", signal.name},
              {"role", name_of(signal.role)},
              {"direction", name_of(signal.direction)},
              {"pair", nullptr},
              {"half", nullptr},
              {"lane", nullptr}};
    if (!signal.pair) return json;
    const Pair& pair = interface.pairs[*signal.pair];
    json["pair"] = pair.name;
    json["half"] = index == pair.plus ? "plus" : index == pair.minus ? "minus" : "shield";
    json["lane"] = word(pair.lane);
    return json;
}

Json contacts_json(const std::vector<Contact>& contacts, const Interface& interface) {
    Json list = Json::array();
    for (const Contact& contact : contacts) {
        Json json{{"contact", contact.label}, {"absent", contact.absent}};
        if (contact.signal) json.update(signal_json(*contact.signal, interface));
        if (!contact.signal) json["signal"] = nullptr;
        list.push_back(std::move(json));
    }
    return list;
}

Json supply_json(const Supply& supply, const Interface& interface) {
    return {{"signal", interface.signals[supply.signal].name},
            {"least_at_source_v", number(supply.least_at_source)},
            {"most_at_source_v", number(supply.most_at_source)},
            {"least_at_sink_v", number(supply.least_at_sink)},
            {"most_at_sink_v", number(supply.most_at_sink)},
            {"current_a", number(supply.current)},
            {"source", supply.source}};
}

Json meter_json(const MeterWindow& window, const Interface& interface) {
    Json signals = Json::array();
    for (const std::size_t signal : window.signals) {
        signals.push_back(interface.signals[signal].name);
    }
    const char* unit = window.kind == MeterKind::diode ? "v" : "ohm";
    return {{"signals", std::move(signals)},
            {"against", window.against ? interface.signals[*window.against].name : "ground"},
            {"end", word(window.end)},
            {"kind", name_of(window.kind)},
            {std::string("least_") + unit, window.least},
            {std::string("most_") + unit, window.most},
            {"source", window.source}};
}

Json limit_json(const Limit& limit) {
    return {{"up_to_gbit_s", limit.up_to.value()},
            {"impedance_ohm", number(limit.impedance)},
            {"tolerance_percent", number(limit.tolerance)},
            {"skew_in_pair_ps", number(limit.skew_in_pair)},
            {"skew_in_pair_ui", number(limit.skew_in_pair_bits)},
            {"skew_between_pairs_ps", number(limit.skew_between_pairs)},
            {"skew_between_pairs_ui", number(limit.skew_between_pairs_bits)},
            {"loss_db", number(limit.loss)},
            {"crosstalk_below_db", number(limit.crosstalk_below)},
            {"least_swing_v", number(limit.least_swing)},
            {"least_eye_v", number(limit.least_eye)},
            {"least_eye_width_ui", number(limit.least_eye_width)},
            {"source", limit.source}};
}

Json signals_json(const Interface& interface) {
    Json list = Json::array();
    for (std::size_t i = 0; i < interface.signals.size(); ++i) {
        const Signal& signal = interface.signals[i];
        Json json = signal_json(i, interface);
        json["clock"] = signal.clock;
        json["optional"] = signal.optional;
        json["withstands_v"] = number(signal.withstands);
        json["meets"] = interface.signals[interface.counterpart[i]].name;
        list.push_back(std::move(json));
    }
    return list;
}

Json film_json(const std::optional<Film>& film) {
    if (!film) return nullptr;
    return {{"thickness_mm", number(film->thickness)},
            {"permittivity", number(film->permittivity)},
            {"loss_tangent", number(film->loss_tangent)},
            {"source", film->source}};
}

}  // namespace

std::string pinmap_list_json(const std::vector<PinMapShelf>& shelves) {
    Json json{{"schema", "pinfold-pinmap/1"}, {"kind", "library"}};
    for (const PinMapShelf& shelf : shelves) {
        Json& list = json[std::string(folder_of(shelf.kind))] = Json::array();
        for (const PinMapEntry& entry : shelf.entries) {
            list.push_back({{"id", entry.id}, {"name", entry.name}});
        }
    }
    return whole(json);
}

std::string connector_json(const Connector& connector, const Interface& interface) {
    Json json = opening("connector", connector);
    json["interface"] = connector.interface;
    json["end"] = word(connector.end);
    json["body"] = connector.body;
    json["takes"] = connector.takes_ribbon ? "ribbon" : "plug";
    json["flippable"] = connector.flippable;
    json["pitch_mm"] = connector.pitch.value();
    json["current_a"] = number(connector.current);
    json["contact_resistance_ohm"] = number(connector.contact_resistance);
    json["contacts"] = contacts_json(connector.contacts, interface);
    json["plug_contacts"] = contacts_json(connector.plug_contacts, interface);
    json["shell"] = connector.shell;
    json["face"] = nullptr;
    if (connector.face) {
        json["face"] = {{"source", connector.face->source}, {"rows", connector.face->rows}};
    }
    return whole(json);
}

std::string interface_json(const Interface& interface) {
    Json json = opening("interface", interface);
    json["ends"] = {interface.first_end, interface.second_end};
    json["signals"] = signals_json(interface);
    json["limits"] = Json::array();
    for (const Limit& limit : interface.limits) json["limits"].push_back(limit_json(limit));
    json["supplies"] = Json::array();
    for (const Supply& supply : interface.supplies) {
        json["supplies"].push_back(supply_json(supply, interface));
    }
    json["meter"] = Json::array();
    for (const MeterWindow& window : interface.meter) {
        json["meter"].push_back(meter_json(window, interface));
    }
    return whole(json);
}

std::string ribbon_json(const RibbonType& ribbon) {
    Json json = opening("ribbon", ribbon);
    json["conductor_kind"] = name_of(ribbon.kind);
    json["pitch_mm"] = ribbon.pitch.value();
    json["conductors"] = {{"least", ribbon.conductors.least}, {"most", ribbon.conductors.most}};
    json["width_mm"] = number(ribbon.width);
    json["thickness_mm"] = number(ribbon.thickness);
    json["section_mm2"] = ribbon.section.value();
    json["film"] = film_json(ribbon.film);
    json["margin_mm"] = number(ribbon.margin);
    json["end_thickness_mm"] = number(ribbon.end_thickness);
    json["current_a"] = number(ribbon.current);
    json["bend_radius_mm"] = number(ribbon.bend_radius);
    json["stock_lengths_mm"] = Json::array();
    for (const Millimetres length : ribbon.stock_lengths) {
        json["stock_lengths_mm"].push_back(length.value());
    }
    return whole(json);
}

std::string receptacle_json(const ReceptacleType& receptacle) {
    Json json = opening("receptacle", receptacle);
    json["takes"] = name_of(receptacle.takes);
    json["pitch_mm"] = receptacle.pitch.value();
    json["positions"] = {{"least", receptacle.positions.least},
                         {"most", receptacle.positions.most}};
    json["rows"] = receptacle.rows;
    json["side"] = name_of(receptacle.side);
    json["entry"] = name_of(receptacle.entry);
    json["end_thickness_mm"] = nullptr;
    if (receptacle.end_thickness) {
        json["end_thickness_mm"] = {{"least", receptacle.end_thickness->least.value()},
                                    {"most", receptacle.end_thickness->most.value()}};
    }
    json["current_a"] = number(receptacle.current);
    json["all_loaded_percent"] = number(receptacle.all_loaded);
    json["contact_resistance_ohm"] = number(receptacle.contact_resistance);
    json["contact_inductance_h"] = number(receptacle.contact_inductance);
    json["contact_capacitance_f"] = number(receptacle.contact_capacitance);
    json["mating_cycles"] =
        receptacle.mating_cycles ? Json(*receptacle.mating_cycles) : Json(nullptr);
    return whole(json);
}

}  // namespace pinfold
