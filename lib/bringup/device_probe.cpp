#include "bringup/device_probe.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace pinfold {
namespace {

class Prober {
public:
    Prober(const Design& design, const Wiring& wiring, const DeviceMeter& meter)
        : design_(design), wiring_(wiring), meter_(meter) {}

    std::vector<DeviceProbe> run() {
        for (const MeterKind kind : {MeterKind::resistance, MeterKind::diode}) {
            for (const DevicePart& part : meter_.parts()) {
                if (part.kind == kind) probe(part);
            }
        }
        std::ranges::stable_sort(probes_, {}, [](const DeviceProbe& probe) {
            return std::tuple(probe.is_further, probe.device, probe.expected.part);
        });
        return std::move(probes_);
    }

private:
    /// Where a probe can be put on the wire that leads to the first of these contacts that has one,
    /// at the other end: the contact or the conductor that meets what is not plugged in there.
    std::optional<Point> far_point(const std::vector<Point>& contacts) const {
        for (const Point contact : contacts) {
            for (const Pass& pass : wiring_.passes()) {
                if (pass.state != State::good || pass.hops.size() < 3) continue;
                const bool at_end = pass.hops.back() == contact;
                if (!at_end && pass.hops.front() != contact) continue;
                const ContactRef& other = at_end ? pass.from : pass.to;
                const std::size_t step = design_.boards[other.port.board].is_device ? 1 : 0;
                return at_end ? pass.hops[step] : pass.hops[pass.hops.size() - 1 - step];
            }
        }
        return std::nullopt;
    }

    void probe(const DevicePart& part) {
        const auto one = far_point(part.contacts);
        const auto other = far_point(part.against);
        if (!one || !other) return;
        const bool red_on_contact = part.kind == MeterKind::resistance || part.red_on_contact;
        DeviceProbe probe;
        probe.device = part.device;
        probe.from = red_on_contact ? *one : *other;
        probe.to = red_on_contact ? *other : *one;
        probe.from_signal = red_on_contact ? part.signal : part.against_name;
        probe.to_signal = red_on_contact ? part.against_name : part.signal;
        probe.expected = sound(probe, part.kind);
        if (probe.expected.kind != MeterForecast::value || probe.expected.least == 0) return;
        probe.why = fmt::format("{} of {} reaches {}", part.signal,
                                design_.boards[part.device].name, part_in_words(part));
        probe.source = part.source;
        probe.is_further = !shown_.insert(part.contacts).second;
        probes_.push_back(std::move(probe));
    }

    static std::string_view part_in_words(const DevicePart& part) {
        return part.kind == MeterKind::diode ? "a diode" : "a resistor";
    }

    MeterForecast sound(const DeviceProbe& probe, MeterKind kind) const {
        MeterReading reading = probe.blank();
        if (kind == MeterKind::diode) reading.volts = Volts(0);
        if (kind == MeterKind::resistance) reading.ohms = Ohms(0);
        return meter_.forecast(reading, {[&](Point point) { return wiring_.piece_of(point); },
                                         [](std::size_t) { return false; }});
    }

    const Design& design_;
    const Wiring& wiring_;
    const DeviceMeter& meter_;
    std::set<std::vector<Point>> shown_;  ///< contacts that have their reading
    std::vector<DeviceProbe> probes_;
};

}  // namespace

MeterReading DeviceProbe::blank() const {
    MeterReading reading;
    reading.row = static_cast<int>(number);
    reading.from = from;
    reading.to = to;
    reading.closed = false;
    reading.with = {device};
    return reading;
}

std::vector<DeviceProbe> device_probes(const Design& design, const Wiring& wiring,
                                       const DeviceMeter& meter) {
    return Prober(design, wiring, meter).run();
}

}  // namespace pinfold
