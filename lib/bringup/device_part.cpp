#include "bringup/device_part.hpp"

#include <algorithm>
#include <optional>
#include <set>

#include "pinmap/meter_words.hpp"

namespace pinfold {
namespace {

/// From here up a diode's reading is open: a meter's test voltage ends at 2 to 3 V (common
/// practice).
constexpr Volts least_when_no_diode{2.0};
/// Up to here it is a short (common practice).
constexpr Volts most_when_shorted{0.05};
/// From here up ohms are open: hands and flux have as much (common practice).
constexpr Ohms least_when_no_part{10e6};

/// Which end of a promise a port is; nothing if no interface is promised there.
std::optional<bool> is_first_end(const Design& design, PortRef port) {
    for (const Carry& carry : design.carries) {
        if (carry.interface.empty()) continue;
        if (carry.from == port) return true;
        if (carry.to == port) return false;
    }
    return std::nullopt;
}

std::vector<Point> points_where(const Design& design, const Wiring& wiring, PortRef port,
                                const std::function<bool(const ContactRef&)>& wanted) {
    std::vector<Point> points;
    for (std::size_t i = 0; i < design.port(port).contacts.size(); ++i) {
        const ContactRef contact{port, i};
        if (!design.contact(contact).absent && wanted(contact)) {
            points.push_back(wiring.point_of(contact));
        }
    }
    return points;
}

/// Grounds first, then the shields of pairs: all are one inside a device.
std::vector<Point> grounds_of(const Design& design, const Wiring& wiring, PortRef port) {
    std::vector<Point> grounds;
    for (const Role role : {Role::ground, Role::pair_shield}) {
        const auto more = points_where(design, wiring, port, [&](const ContactRef& contact) {
            const Signal* borne = design.signal_of(contact);
            return borne != nullptr && borne->role == role;
        });
        grounds.insert(grounds.end(), more.begin(), more.end());
    }
    return grounds;
}

/// The parts of one window: one for each of its signals that the port has.
void add_parts(const Design& design, const Wiring& wiring, PortRef port, const MeterWindow& window,
               std::vector<DevicePart>& parts) {
    const Interface& interface = *design.interface_of(design.port(port));
    const auto bears = [&](std::size_t signal) {
        return [&design, &wanted = interface.signals[signal]](const ContactRef& contact) {
            const Signal* borne = design.signal_of(contact);
            return borne != nullptr && borne->name == wanted.name;
        };
    };
    DevicePart part;
    part.device = port.board;
    part.kind = window.kind;
    part.least = window.least;
    part.most = window.most;
    part.against = window.against ? points_where(design, wiring, port, bears(*window.against))
                                  : grounds_of(design, wiring, port);
    part.against_name = window.against ? interface.signals[*window.against].name : "ground";
    part.red_on_contact = window.against.has_value();
    part.source = window.source;
    for (const std::size_t signal : window.signals) {
        part.contacts = points_where(design, wiring, port, bears(signal));
        part.signal = interface.signals[signal].name;
        if (!part.contacts.empty() && !part.against.empty()) parts.push_back(part);
    }
}

/// Whether a part is what a meter of this kind sees, and the right way round.
bool is_seen(const DevicePart& part, const MeterReading& reading, bool contact_at_from) {
    if (reading.volts && part.kind != MeterKind::diode) return false;
    if (reading.ohms && part.kind != MeterKind::resistance) return false;
    return part.kind == MeterKind::resistance || contact_at_from == part.red_on_contact;
}

MeterForecast combined(const std::vector<const DevicePart*>& parts) {
    MeterForecast forecast{MeterForecast::value, parts.front()->kind, parts.front()->least,
                           parts.front()->most};
    if (parts.size() == 1) return forecast;
    double per_least = 0, per_most = 0;
    for (const DevicePart* part : parts) {
        if (part->kind != forecast.part) return {};
        per_least += 1 / part->least;
        per_most += 1 / part->most;
        forecast.least = std::min(forecast.least, part->least);
        forecast.most = std::min(forecast.most, part->most);
    }
    if (forecast.part == MeterKind::diode) return forecast;
    return {MeterForecast::value, MeterKind::resistance, 1 / per_least, 1 / per_most};
}

}  // namespace

std::vector<DevicePart> device_parts(const Design& design, const Wiring& wiring) {
    std::vector<DevicePart> parts;
    for (std::size_t b = 0; b < design.boards.size(); ++b) {
        for (std::size_t p = 0; p < design.boards[b].ports.size(); ++p) {
            const PortRef port{b, p};
            const Interface* interface = design.interface_of(design.port(port));
            const auto is_first = is_first_end(design, port);
            if (!design.boards[b].is_device || interface == nullptr || !is_first) continue;
            const std::string& end = *is_first ? interface->first_end : interface->second_end;
            for (const MeterWindow& window : interface->meter) {
                if (!window.end.empty() && window.end != end) continue;
                add_parts(design, wiring, port, window, parts);
            }
        }
    }
    return parts;
}

std::string in_words(const MeterForecast& forecast) {
    switch (forecast.kind) {
        case MeterForecast::closed: return "closed";
        case MeterForecast::open: return "open";
        case MeterForecast::unknown: return "anything";
        case MeterForecast::value: break;
    }
    return in_words(forecast.part, forecast.least, forecast.most);
}

bool MeterForecast::allows(const MeterReading& reading) const {
    const bool shorted = reading.closed || (reading.volts && *reading.volts <= most_when_shorted);
    const bool numbered = reading.volts
                              ? *reading.volts < least_when_no_diode
                              : reading.ohms.has_value() && *reading.ohms < least_when_no_part;
    switch (kind) {
        case closed: return shorted;
        case open: return !shorted && !numbered;
        case unknown: return true;
        case value: break;
    }
    if (shorted) return least == 0;
    const double number = reading.volts  ? reading.volts->value()
                          : reading.ohms ? reading.ohms->value()
                                         : 0;
    return numbered && number >= least && number <= most;
}

DeviceMeter::DeviceMeter(const Design& design, const Wiring& wiring)
    : parts_(device_parts(design, wiring)) {
    for (std::size_t p = 0; p < parts_.size(); ++p) {
        for (const Point contact : parts_[p].contacts) {
            for (const Point against : parts_[p].against) {
                between_[{contact, against}].push_back(p);
            }
        }
    }
    for (std::size_t b = 0; b < design.boards.size(); ++b) {
        if (!design.boards[b].is_device) continue;
        for (std::size_t p = 0; p < design.boards[b].ports.size(); ++p) {
            const auto is_used = [&](const ContactRef& contact) {
                const Signal* signal = design.signal_of(contact);
                return !design.contact(contact).name.empty() &&
                       (signal == nullptr || signal->role != Role::unused);
            };
            for (const Point point : points_where(design, wiring, {b, p}, is_used)) {
                contacts_.push_back({point, b});
                points_.push_back(point);
            }
        }
    }
}

std::vector<DeviceMeter::Contact> DeviceMeter::touched(Point point, const MeterReading& reading,
                                                       const DeviceView& view) const {
    std::vector<Contact> touched;
    const std::uint32_t piece = view.piece(point);
    for (const Contact& contact : contacts_) {
        if (std::ranges::find(reading.with, contact.device) == reading.with.end()) continue;
        if (view.piece(contact.point) == piece) touched.push_back(contact);
    }
    return touched;
}

std::vector<std::size_t> DeviceMeter::parts_between(Point one, Point other,
                                                    const MeterReading& reading) const {
    std::vector<std::size_t> between;
    for (const bool along : {true, false}) {
        const auto found = between_.find(along ? std::pair(one, other) : std::pair(other, one));
        if (found == between_.end()) continue;
        for (const std::size_t part : found->second) {
            if (is_seen(parts_[part], reading, along)) between.push_back(part);
        }
    }
    return between;
}

MeterForecast DeviceMeter::forecast(const MeterReading& reading, const DeviceView& view) const {
    if (view.piece(reading.from) == view.piece(reading.to)) return {MeterForecast::closed};
    const std::vector<Contact> near = touched(reading.from, reading, view);
    const std::vector<Contact> far = touched(reading.to, reading, view);
    std::set<std::size_t> seen;
    bool is_any = false, all_known = true;
    for (const Contact& one : near) {
        for (const Contact& other : far) {
            if (one.device != other.device) continue;
            const auto between = parts_between(one.point, other.point, reading);
            is_any = true;
            all_known = all_known && !between.empty();
            for (const std::size_t part : between) {
                all_known = all_known && !view.is_spoilt(part);
                if (!view.is_spoilt(part)) seen.insert(part);
            }
        }
    }
    if (!is_any) return {MeterForecast::open};
    if (seen.empty()) return {};
    std::vector<const DevicePart*> parts;
    for (const std::size_t p : seen) parts.push_back(&parts_[p]);
    MeterForecast forecast = combined(parts);
    if (!all_known) forecast.least = 0;
    return forecast;
}

}  // namespace pinfold
