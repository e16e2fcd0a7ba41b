#include "check/drop_split.hpp"

#include <algorithm>

namespace pinfold {

DropSplit split_drop(const Wiring& wiring, const FeedNetworks& networks, std::size_t load,
                     const Feeds& feeds) {
    DropSplit split;
    if (!feeds.feeds[load].settles) return split;
    const std::vector<LinkLoad> flow = networks.unit_flow(load);
    if (flow.empty()) return split;
    // The links of one network stand together, in the same order, in both.
    auto actual = std::ranges::find(feeds.loads, flow.front().link, &LinkLoad::link);
    for (const LinkLoad& unit : flow) {
        const Volts part(unit.current.value() * actual->current.value() *
                         actual->resistance.value());
        ++actual;
        const LinkKind kind = wiring.links()[unit.link].kind;
        Volts& sum = kind == LinkKind::conductor ? split.conductors
                     : kind == LinkKind::lead    ? split.leads
                     : kind == LinkKind::copper  ? split.traces
                                                 : split.contacts;
        sum = sum + part;
    }
    return split;
}

}  // namespace pinfold
