#include "check/supply_trace.hpp"

#include <fmt/format.h>

#include <cmath>

namespace pinfold {
namespace {

Finding too_warm(const Design& design, const Wiring& wiring, const Link& link, Amperes current) {
    const SupplyTrace trace = *supply_trace_of(design, wiring, link);
    const TraceRise warmed = *trace_rise_of(design, wiring, link, current);
    const std::string beyond =
        warmed.in_range ? "" : "; that is beyond what its charts cover, and only says too much";
    return {Severity::warning,
            "trace-hot",
            fmt::format("the trace of {} on {}, {:g} mm of {:g} mm copper, warms by about {:.0f} K "
                        "at {:.2f} A (IPC-2221, outer layer, no plane); {:.0f} K is what its "
                        "charts are most often read at{}",
                        trace.net, trace.board, trace.width.value(), trace.thickness.value(),
                        warmed.rise.value(), std::abs(current.value()), most_trace_rise.value(),
                        beyond),
            design.boards[link.place].at,
            {},
            {trace.board, trace.net},
            {}};
}

}  // namespace

std::optional<SupplyTrace> supply_trace_of(const Design& design, const Wiring& wiring,
                                           const Link& link) {
    if (link.kind != LinkKind::copper) return std::nullopt;
    const Board& board = design.boards[link.place];
    if (!board.stack_up) return std::nullopt;
    const Net& net = board.nets[*design.contact(*wiring.contact_at(link.one)).net];
    if (!net.width || !net.length) return std::nullopt;
    return SupplyTrace{board.name, net.name, *net.width, board.stack_up->copper, *net.length};
}

std::string far_end_of(const Design& design, const Wiring& wiring, const Link& link) {
    const auto trace = supply_trace_of(design, wiring, link);
    return trace ? fmt::format("{}.{}", trace->board, trace->net)
                 : wiring.name_of(link.other, design);
}

std::optional<TraceRise> trace_rise_of(const Design& design, const Wiring& wiring, const Link& link,
                                       Amperes current) {
    const auto trace = supply_trace_of(design, wiring, link);
    if (!trace) return std::nullopt;
    return trace_rise(current, trace->width, trace->thickness);
}

Findings check_traces(const Design& design, const Wiring& wiring, const Feeds& feeds) {
    std::map<Point, const LinkLoad*> worst;  // by net
    for (const LinkLoad& load : feeds.loads) {
        const Link& link = wiring.links()[load.link];
        if (link.kind != LinkKind::copper) continue;
        const auto [at, is_new] = worst.try_emplace(link.other, &load);
        if (std::abs(load.current.value()) > std::abs(at->second->current.value())) {
            at->second = &load;
        }
    }
    Findings findings;
    for (const auto& [net, load] : worst) {
        const Link& link = wiring.links()[load->link];
        const auto warmed = trace_rise_of(design, wiring, link, load->current);
        if (!warmed || warmed->rise <= most_trace_rise) continue;
        findings.push_back(too_warm(design, wiring, link, load->current));
    }
    return findings;
}

}  // namespace pinfold
