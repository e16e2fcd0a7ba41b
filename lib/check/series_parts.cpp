#include "check/series_parts.hpp"

#include <fmt/format.h>

#include <numeric>
#include <unordered_map>
#include <unordered_set>

#include "check/nets_by_part.hpp"
#include "check/tally.hpp"

namespace pinfold {
namespace {

constexpr std::size_t mixed = no_net - 1;

/// Which net of the board the pads of each drawn net belong to; `no_net` if it has none of its
/// pads, `mixed` if it has pads of several.
std::vector<std::size_t> owners(const Netlist& meant, const Netlist& drawn,
                                const std::vector<PortMatch>& ports, const Board& board) {
    std::unordered_map<std::string_view, std::string_view> reference_of;  // by the port's name
    for (const PortMatch& match : ports) {
        reference_of[board.ports[match.port].name] = match.reference;
    }
    const NetsByPart drawn_nets = nets_by_part(drawn);
    const NetsByPart meant_nets = nets_by_part(meant);
    std::vector<std::size_t> owner(drawn.nets.size(), no_net);
    for (const Netlist::Component& part : meant.components) {
        const auto there = drawn_nets.find(reference_of.at(part.port));
        if (there == drawn_nets.end()) continue;
        for (const auto& [label, net] : meant_nets.at(part.reference)) {
            const auto found = there->second.find(label);
            if (found == there->second.end()) continue;
            std::size_t& known = owner[found->second];
            known = known == no_net || known == net ? net : mixed;
        }
    }
    return owner;
}

/// A part of two pads, and the nets they are on.
struct Bridge {
    const Netlist::Component* part;
    std::size_t one, other;
};

std::vector<Bridge> bridges_of(const Netlist& drawn, const std::vector<PortMatch>& ports) {
    std::unordered_set<std::string_view> known;
    for (const PortMatch& match : ports) known.insert(match.reference);
    std::unordered_map<std::string_view, std::vector<std::size_t>> nets;
    for (std::size_t n = 0; n < drawn.nets.size(); ++n) {
        for (const Netlist::Node& node : drawn.nets[n].nodes) {
            if (!known.contains(node.reference)) nets[node.reference].push_back(n);
        }
    }
    std::vector<Bridge> bridges;
    for (const Netlist::Component& part : drawn.components) {
        const auto found = nets.find(part.reference);
        if (found == nets.end() || found->second.size() != 2) continue;
        if (found->second[0] == found->second[1]) continue;
        bridges.push_back({&part, found->second[0], found->second[1]});
    }
    return bridges;
}

}  // namespace

SeriesParts join_series_parts(const Netlist& meant, const Netlist& drawn,
                              const std::vector<PortMatch>& ports, const Board& board) {
    SeriesParts result;
    result.net.resize(drawn.nets.size());
    std::iota(result.net.begin(), result.net.end(), std::size_t{0});
    const auto root = [&](std::size_t net) {
        while (result.net[net] != net) net = result.net[net] = result.net[result.net[net]];
        return net;
    };
    const std::vector<Bridge> bridges = bridges_of(drawn, ports);
    if (bridges.empty()) return result;
    const std::vector<std::size_t> owner = owners(meant, drawn, ports, board);
    for (const Bridge& bridge : bridges) {
        const std::size_t net = owner[bridge.one];
        if (net >= mixed || net != owner[bridge.other]) continue;
        const bool fitted = bridge.part->fitted;
        result.findings.push_back(
            {fitted ? Severity::warning : Severity::error,
             fitted ? "part-in-series" : "part-unfitted",
             fmt::format("{} ({}) stands in net '{}', which the board file has in one piece; {}",
                         bridge.part->reference, bridge.part->value, meant.nets[net].name,
                         fitted ? "taken as joined" : "it is marked as not fitted"),
             bridge.part->at,
             {{meant.nets[net].at, "the board file's net is here"}}});
        result.net[root(bridge.one)] = root(bridge.other);
    }
    for (std::size_t n = 0; n < result.net.size(); ++n) result.net[n] = root(n);
    return result;
}

}  // namespace pinfold
