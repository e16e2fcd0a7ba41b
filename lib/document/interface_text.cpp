#include "document/interface_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/shown.hpp"
#include "document/columns.hpp"
#include "document/pinmap_text.hpp"
#include "pinmap/doubt.hpp"
#include "pinmap/meter_words.hpp"

namespace pinfold {
namespace {

std::string remarks(const Signal& signal) {
    std::string text;
    const auto add = [&text](std::string_view remark) {
        text += fmt::format("{}{}", text.empty() ? "" : ", ", remark);
    };
    if (signal.clock) add("clock");
    if (signal.optional) add("a link works without it");
    if (signal.withstands) add(fmt::format("withstands {:.6g} V", signal.withstands->value()));
    return text;
}

std::string signal_table(const Interface& interface) {
    Rows rows{{"signal", "role", "direction", "pair", "lane", "remarks"}};
    for (std::size_t i = 0; i < interface.signals.size(); ++i) {
        const Signal& signal = interface.signals[i];
        rows.push_back({signal.name, std::string(name_of(signal.role)),
                        direction_text(signal.direction, interface), pair_text(i, interface),
                        signal.pair ? interface.pairs[*signal.pair].lane : "", remarks(signal)});
    }
    return in_columns(rows);
}

std::string crossing_text(const Interface& interface) {
    if (!interface.crosses()) return {};
    Rows rows;
    for (std::size_t i = 0; i < interface.signals.size(); ++i) {
        if (interface.counterpart[i] <= i) continue;
        rows.push_back(
            {interface.signals[i].name, "meets", interface.signals[interface.counterpart[i]].name});
    }
    return "\nFrom port to port these cross:\n" + in_columns(rows, "    ");
}

std::string skew(const std::optional<Picoseconds>& time, const std::optional<UnitIntervals>& bits) {
    if (time) return fmt::format("{:.6g} ps", time->value());
    return bits ? fmt::format("{:.6g} UI", bits->value()) : "";
}

std::string impedance(const Limit& limit) {
    if (!limit.impedance) return {};
    const std::string ohms = fmt::format("{:.6g} ohm", limit.impedance->value());
    return limit.tolerance ? fmt::format("{}, {:.6g} %", ohms, limit.tolerance->value()) : ohms;
}

std::string rate_of(const Limit& limit) {
    return fmt::format("{:.6g} Gbit/s", limit.up_to.value());
}

template <class Unit>
std::string with_unit(const std::optional<Quantity<Unit>>& value, const char* unit) {
    return value ? fmt::format("{:.6g} {}", value->value(), unit) : "";
}

/// What the line must leave of the signal, where any row says so.
std::string signal_limits(const Interface& interface) {
    Rows rows{{"up to", "loss", "crosstalk below", "least swing", "least eye", "least eye width"}};
    for (const Limit& limit : interface.limits) {
        rows.push_back({rate_of(limit), with_unit(limit.loss, "dB"),
                        with_unit(limit.crosstalk_below, "dB"), with_unit(limit.least_swing, "V"),
                        with_unit(limit.least_eye, "V"), with_unit(limit.least_eye_width, "UI")});
    }
    const bool any = std::any_of(rows.begin() + 1, rows.end(), [](const auto& row) {
        return std::any_of(row.begin() + 1, row.end(),
                           [](const auto& cell) { return !cell.empty(); });
    });
    return any ? in_columns(rows, "    ") : "";
}

std::string limits_text(const Interface& interface) {
    if (interface.limits.empty()) return {};
    Rows rows{{"up to", "impedance", "skew in a pair", "skew between pairs"}};
    std::string sources;
    for (const Limit& limit : interface.limits) {
        rows.push_back({rate_of(limit), impedance(limit),
                        skew(limit.skew_in_pair, limit.skew_in_pair_bits),
                        skew(limit.skew_between_pairs, limit.skew_between_pairs_bits)});
        sources +=
            in_lines(fmt::format("source up to {}: {}", rate_of(limit), limit.source), "    ");
    }
    return "\nLimits, per lane:\n" + in_columns(rows, "    ") + signal_limits(interface) + sources;
}

std::string window(const std::optional<Volts>& least, const std::optional<Volts>& most) {
    if (least && most) return fmt::format("{:.6g} to {:.6g} V", least->value(), most->value());
    if (least) return fmt::format("at least {:.6g} V", least->value());
    return most ? fmt::format("at most {:.6g} V", most->value()) : "-";
}

std::string supplies_text(const Interface& interface) {
    if (interface.supplies.empty()) return {};
    Rows rows{{"supply", "given", "needed at the far end", "current"}};
    std::string sources;
    for (const Supply& supply : interface.supplies) {
        const std::string& name = interface.signals[supply.signal].name;
        rows.push_back({name, window(supply.least_at_source, supply.most_at_source),
                        window(supply.least_at_sink, supply.most_at_sink),
                        supply.current ? fmt::format("{:.6g} A", supply.current->value()) : ""});
        sources += in_lines(fmt::format("source of {}: {}", name, supply.source), "    ");
    }
    return "\nSupplies:\n" + in_columns(rows, "    ") + sources;
}

std::string names(const std::vector<std::size_t>& signals, const Interface& interface) {
    std::string text;
    for (const std::size_t signal : signals) {
        text += (text.empty() ? "" : ", ") + interface.signals[signal].name;
    }
    return text;
}

std::string meter_text(const Interface& interface) {
    if (interface.meter.empty()) return {};
    Rows rows{{"signals", "against", "device", "kind", "shows"}};
    std::string sources;
    for (const MeterWindow& window : interface.meter) {
        rows.push_back({names(window.signals, interface),
                        window.against ? interface.signals[*window.against].name : "ground",
                        window.end.empty() ? "either" : window.end,
                        std::string(name_of(window.kind)), in_words(window)});
        sources += in_lines(fmt::format("source of {}, {}: {}", rows.back()[0],
                                        name_of(window.kind), window.source),
                            "    ");
    }
    return "\nWhat a device alone shows a meter, without power:\n" + in_columns(rows, "    ") +
           sources;
}

}  // namespace

std::string interface_text(const Interface& interface) {
    std::string text = fmt::format("{}: {}\n", interface.id, interface.name);
    if (!interface.first_end.empty()) {
        text +=
            fmt::format("interface between {} and {}\n", interface.first_end, interface.second_end);
    }
    return shown_page(text + "\n" + signal_table(interface) + crossing_text(interface) +
                      limits_text(interface) + supplies_text(interface) + meter_text(interface) +
                      source_text(interface.source, doubts_of(interface)));
}

}  // namespace pinfold
