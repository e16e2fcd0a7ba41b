#include "bringup/bench.hpp"

#include <algorithm>
#include <map>

namespace pinfold {

Bench set_up(const Design& design, const Wiring& wiring, const std::vector<Point>& also,
             std::size_t parts) {
    Sites sites(design, wiring);
    std::vector<Point> watched = sites.points();
    watched.insert(watched.end(), also.begin(), also.end());
    Bench bench{design,
                wiring,
                std::move(sites),
                Pieces(design, wiring),
                Assembly(wiring, std::move(watched), parts),
                plausible_faults(design, wiring),
                {}};
    bench.partitions.reserve(bench.faults.size());
    for (const Fault& fault : bench.faults) {
        bench.partitions.push_back(bench.assembly.with(fault.change));
    }
    return bench;
}

std::vector<std::vector<std::size_t>> alike(const Bench& bench,
                                            const std::vector<std::size_t>& some) {
    const auto key_less = [&](std::size_t one, std::size_t other) {
        const FaultKind here = bench.faults[one].kind;
        const FaultKind there = bench.faults[other].kind;
        if (here != there) return here < there;
        return bench.partitions[one] < bench.partitions[other];
    };
    std::map<std::size_t, std::size_t, decltype(key_less)> group_of(key_less);
    std::vector<std::vector<std::size_t>> groups;
    for (const std::size_t fault : some) {
        const auto [group, is_new] = group_of.try_emplace(fault, groups.size());
        if (is_new) groups.emplace_back();
        groups[group->second].push_back(fault);
    }
    std::ranges::stable_sort(groups, {}, [&](const std::vector<std::size_t>& group) {
        return bench.faults[group.front()].kind;
    });
    return groups;
}

}  // namespace pinfold
