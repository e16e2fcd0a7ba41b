#include "design/adopt_series.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string_view>
#include <unordered_map>

namespace pinfold {
namespace {

/// A two-pad part that no port is, and the nets of its pads.
struct Bridge {
    std::string_view reference;
    std::vector<std::size_t> nets;
    Mark at;
};

/// Fitted parts outside the ports with two pads on two nets, by reference.
std::vector<Bridge> bridges(const Netlist& drawn, const Adoption& adoption) {
    std::map<std::string_view, Bridge> strangers;
    for (std::size_t net = 0; net < drawn.nets.size(); ++net) {
        for (const Netlist::Node& node : drawn.nets[net].nodes) {
            strangers[node.reference].nets.push_back(net);
        }
    }
    for (const AdoptedPort& port : adoption.ports) strangers.erase(port.reference);
    for (const Netlist::Component& part : drawn.components) {
        const auto found = strangers.find(part.reference);
        if (found == strangers.end()) continue;
        found->second.at = part.at;
        if (!part.fitted) strangers.erase(found);
    }
    std::vector<Bridge> found;
    for (auto& [reference, bridge] : strangers) {
        if (bridge.nets.size() != 2 || bridge.nets[0] == bridge.nets[1]) continue;
        bridge.reference = reference;
        found.push_back(std::move(bridge));
    }
    return found;
}

/// The only port that knows each net; none for the ground and where several do.
class OnlyPort {
public:
    OnlyPort(const std::vector<AdoptedPads>& pads, std::size_t ground) : ground_(ground) {
        for (std::size_t p = 0; p < pads.size(); ++p) {
            for (const auto& [label, pad] : pads[p]) {
                const auto [known, is_new] = port_of_.try_emplace(pad.net, p);
                if (known->second != p) known->second = no_net;
            }
        }
    }
    std::size_t of(std::size_t net) const {
        const auto found = port_of_.find(net);
        return net == ground_ || found == port_of_.end() ? no_net : found->second;
    }
    bool are_apart(const Bridge& bridge) const {
        const std::size_t one = of(bridge.nets[0]), other = of(bridge.nets[1]);
        return one != no_net && other != no_net && one != other;
    }

private:
    std::unordered_map<std::size_t, std::size_t> port_of_;
    std::size_t ground_;
};

Finding told(const Bridge& bridge, const Netlist& drawn, bool one_way) {
    return {Severity::warning, "adopt-series",
            fmt::format("{} stands between nets '{}' and '{}': {}", bridge.reference,
                        drawn.nets[bridge.nets[0]].name, drawn.nets[bridge.nets[1]].name,
                        one_way ? "taken for copper in series"
                                : "more than one way, so the nets stay apart"),
            bridge.at};
}

}  // namespace

DrawnSeries drawn_series(const Netlist& drawn, const std::vector<AdoptedPads>& pads,
                         Adoption& adoption) {
    std::vector<Bridge> in_the_way = bridges(drawn, adoption);
    const OnlyPort only_port(pads, adoption.ground);
    std::erase_if(in_the_way, [&](const Bridge& bridge) { return !only_port.are_apart(bridge); });
    std::map<std::size_t, std::set<std::size_t>> beyond;
    for (const Bridge& bridge : in_the_way) {
        beyond[bridge.nets[0]].insert(bridge.nets[1]);
        beyond[bridge.nets[1]].insert(bridge.nets[0]);
    }
    DrawnSeries series;
    for (const Bridge& bridge : in_the_way) {
        const bool one_way =
            beyond.at(bridge.nets[0]).size() == 1 && beyond.at(bridge.nets[1]).size() == 1;
        adoption.doubts.push_back(told(bridge, drawn, one_way));
        series.references.emplace_back(bridge.reference);
        const auto [first, second] = std::minmax(bridge.nets[0], bridge.nets[1]);
        if (one_way) series.joined[second] = first;
    }
    return series;
}

}  // namespace pinfold
