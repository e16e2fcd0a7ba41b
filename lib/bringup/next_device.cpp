#include "bringup/next_device.hpp"

#include <algorithm>

namespace pinfold {
namespace {

NextReading reading_of(const Inquiry& inquiry, const DeviceProbe& probe) {
    NextReading next;
    next.from = inquiry.name(probe.from);
    next.to = inquiry.name(probe.to);
    next.with = inquiry.bench.design.boards[probe.device].name;
    next.shows = in_words(probe.expected);
    return next;
}

/// Whether a meter would see two forecasts as different.
bool parts(const MeterForecast& one, const MeterForecast& other) {
    if (one.kind == MeterForecast::unknown || other.kind == MeterForecast::unknown) return false;
    if (one.kind != other.kind) return true;
    return one.kind == MeterForecast::value && (one.least > other.most || other.least > one.most);
}

/// What the probe would show under each suspect; nothing if that parts none of them.
std::optional<NextReading> parting(const Inquiry& inquiry, const DeviceProbe& probe,
                                   const std::vector<Suspect>& suspects,
                                   const std::vector<std::string>& names) {
    MeterReading reading = probe.blank();
    if (probe.expected.part == MeterKind::diode) reading.volts = Volts(0);
    if (probe.expected.part == MeterKind::resistance) reading.ohms = Ohms(0);
    std::vector<MeterForecast> forecasts;
    for (std::size_t i = 0; i < names.size(); ++i) {
        forecasts.push_back(inquiry.forecast(reading, suspects[i].partition));
    }
    NextReading next = reading_of(inquiry, probe);
    for (std::size_t i = 0; i < names.size(); ++i) {
        const auto differs = [&](const MeterForecast& any) { return parts(forecasts[i], any); };
        const bool is_open = forecasts[i].kind == MeterForecast::open;
        const bool is_unknown = forecasts[i].kind == MeterForecast::unknown;
        if (!is_open) next.if_closed.push_back(i + 1);
        if (is_open || is_unknown) next.if_open.push_back(i + 1);
        if (std::ranges::any_of(forecasts, differs)) next.tells_apart.push_back(names[i]);
    }
    if (next.tells_apart.empty()) return std::nullopt;
    return next;
}

}  // namespace

std::vector<NextReading> device_readings_to_part(const Inquiry& inquiry,
                                                 const std::vector<Suspect>& suspects,
                                                 const std::vector<std::string>& names) {
    std::vector<NextReading> next;
    for (const DeviceProbe& probe : inquiry.device_probes) {
        if (next.size() == most_next) break;
        if (inquiry.is_measured(probe.from, probe.to, {probe.device})) continue;
        auto reading = parting(inquiry, probe, suspects, names);
        if (reading) next.push_back(std::move(*reading));
    }
    return next;
}

std::vector<NextReading> device_readings_left(const Inquiry& inquiry) {
    std::vector<NextReading> next;
    for (const DeviceProbe& probe : inquiry.device_probes) {
        if (next.size() == most_next || probe.is_further) break;
        if (inquiry.is_measured(probe.from, probe.to, {probe.device})) continue;
        next.push_back(reading_of(inquiry, probe));
        next.back().tells_apart = {"open-contact", "device-differs"};
    }
    return next;
}

}  // namespace pinfold
