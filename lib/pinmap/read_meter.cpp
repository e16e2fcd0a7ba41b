#include "pinmap/read_meter.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/spelling.hpp"

namespace pinfold {
namespace {

const Words<MeterKind> meter_words{{"resistance", MeterKind::resistance},
                                   {"diode", MeterKind::diode}};

template <class Q>
double number(Fields& fields, const std::string& key) {
    return fields.quantity<Q>(key).value_or(Q{}).value();
}

void read_window(Fields& fields, MeterWindow& window, Findings& findings) {
    const bool is_diode = window.kind == MeterKind::diode;
    window.least = is_diode ? number<Volts>(fields, "least") : number<Ohms>(fields, "least");
    window.most = is_diode ? number<Volts>(fields, "most") : number<Ohms>(fields, "most");
    if (!fields.has("least") || !fields.has("most")) return;
    if (window.least < window.most) return;
    complain(findings, "meter-window", "'least' must be below 'most'", fields.at("most"));
}

std::string read_end(Fields& fields, const Interface& interface, Findings& findings) {
    const std::string end = fields.text_or("end", {});
    if (end.empty() || end == interface.first_end || end == interface.second_end) return end;
    complain(
        findings, "meter-end",
        fmt::format("'end' is {} or {}, not '{}'", interface.first_end, interface.second_end, end),
        fields.at("end"));
    return {};
}

/// A diode conducts from ground or into a supply; against another signal it says nothing.
void require_way(const MeterWindow& window, const Interface& interface, Findings& findings,
                 const Mark& at) {
    if (!window.against) return;
    const Signal& against = interface.signals[*window.against];
    if (window.kind == MeterKind::diode && against.role != Role::supply) {
        complain(findings, "meter-against",
                 fmt::format("a diode is read against ground or a supply, and {} is neither",
                             against.name),
                 at);
    }
    if (std::ranges::find(window.signals, *window.against) != window.signals.end()) {
        complain(findings, "meter-against",
                 fmt::format("{} is measured against itself", against.name), at);
    }
}

MeterWindow read_item(const Yaml& yaml, const Interface& interface, Findings& findings) {
    Fields fields(yaml, findings);
    MeterWindow window;
    window.at = fields.at();
    window.kind = fields.word<MeterKind>("kind", meter_words).value_or(MeterKind::resistance);
    fields.require("signals");
    for (const std::string& name : fields.texts("signals")) {
        const auto signal = signal_written(interface, name, fields.at("signals"), findings);
        if (signal) window.signals.push_back(*signal);
    }
    const std::string against = fields.text("against");
    if (against != "ground") {
        window.against = signal_written(interface, against, fields.at("against"), findings);
    }
    require_way(window, interface, findings, fields.at("against"));
    window.end = read_end(fields, interface, findings);
    read_window(fields, window, findings);
    window.source = fields.text("source");
    fields.done();
    return window;
}

/// Whether two windows say what one device shows for one signal.
bool clash(const MeterWindow& one, const MeterWindow& other) {
    if (one.kind != other.kind || one.against != other.against) return false;
    if (!one.end.empty() && !other.end.empty() && one.end != other.end) return false;
    return std::ranges::any_of(one.signals, [&](std::size_t signal) {
        return std::ranges::find(other.signals, signal) != other.signals.end();
    });
}

}  // namespace

std::optional<std::size_t> signal_written(const Interface& interface, const std::string& name,
                                          const Mark& at, Findings& findings) {
    if (name.empty()) return std::nullopt;
    const auto found = std::ranges::find(interface.signals, name, &Signal::name);
    if (found != interface.signals.end()) {
        return static_cast<std::size_t>(found - interface.signals.begin());
    }
    std::vector<std::string> known;
    for (const Signal& signal : interface.signals) known.push_back(signal.name);
    complain(findings, "signal-unknown",
             fmt::format("no signal '{}' in this interface{}", name, did_you_mean(name, known)),
             at);
    return std::nullopt;
}

std::vector<MeterWindow> read_meter(const std::vector<Yaml>& items, const Interface& interface,
                                    Findings& findings) {
    std::vector<MeterWindow> windows;
    for (const Yaml& item : items) {
        MeterWindow window = read_item(item, interface, findings);
        for (const MeterWindow& before : windows) {
            if (!clash(before, window)) continue;
            complain(findings, "meter-twice", "a signal has two windows of one kind here",
                     window.at, {{before.at, "the first is here"}});
        }
        windows.push_back(std::move(window));
    }
    return windows;
}

}  // namespace pinfold
