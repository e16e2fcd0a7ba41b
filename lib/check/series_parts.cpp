#include "check/series_parts.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <span>
#include <unordered_map>
#include <unordered_set>

#include "base/groups.hpp"
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

/// One way through a part that the board does not know: from net to net.
struct Way {
    const Netlist::Component* part;
    std::size_t one, other;
    std::size_t far_from(std::size_t net) const { return net == one ? other : one; }
};

using PadNets = std::vector<std::size_t>;  ///< of one part, a net for each pad

std::unordered_map<std::string_view, PadNets> nets_of_strangers(
    const Netlist& drawn, const std::vector<PortMatch>& ports) {
    std::unordered_set<std::string_view> known;
    for (const PortMatch& match : ports) known.insert(match.reference);
    std::unordered_map<std::string_view, PadNets> nets;
    for (std::size_t n = 0; n < drawn.nets.size(); ++n) {
        for (const Netlist::Node& node : drawn.nets[n].nodes) {
            if (!known.contains(node.reference)) nets[node.reference].push_back(n);
        }
    }
    return nets;
}

/// Of an array, such as four resistors in one part: every two pads on the same net of the board,
/// drawn in two pieces, are a way. Nothing if any pad is on no such net.
std::vector<Way> ways_of_array(const Netlist::Component& part, const PadNets& nets,
                               const std::vector<std::size_t>& owner) {
    std::map<std::size_t, PadNets> pieces;  // by the board's net
    for (const std::size_t net : nets) pieces[owner[net]].push_back(net);
    std::vector<Way> ways;
    for (const auto& [net, pads] : pieces) {
        if (net >= mixed || pads.size() != 2 || pads[0] == pads[1]) return {};
        ways.push_back({&part, pads[0], pads[1]});
    }
    return ways;
}

/// `0`, `0R`, `0R0`, `0.0 ohm`.
bool is_zero_ohm(std::string_view value) {
    std::string_view number = value.substr(0, value.find_first_of(" ,/"));
    for (const std::string_view unit : {"ohm", "Ohm", "\u03A9", "\u2126"}) {
        if (number.ends_with(unit)) number.remove_suffix(unit.size());
    }
    return number.find('0') != std::string_view::npos &&
           number.find_first_not_of("0.Rr") == std::string_view::npos;
}

/// Finds what stands in the nets of the board.
class SeriesFinder {
public:
    SeriesFinder(const Netlist& meant, const Netlist& drawn, std::vector<std::size_t> owner)
        : meant_(meant), drawn_(drawn), owner_(std::move(owner)), joined_(drawn.nets.size()) {}

    SeriesParts find(const std::unordered_map<std::string_view, PadNets>& strangers) {
        for (const Netlist::Component& part : drawn_.components) {
            const auto nets = strangers.find(part.reference);
            if (nets != strangers.end()) take_ways(part, nets->second);
        }
        for (std::size_t w = 0; w < ways_.size(); ++w) {
            for (const std::size_t net : {ways_[w].one, ways_[w].other}) follow(w, net);
        }
        for (auto& [part, nets] : in_nets_) tell(*part, nets);
        SeriesParts result{{}, std::move(findings_)};
        for (std::size_t n = 0; n < drawn_.nets.size(); ++n) {
            result.net.push_back(joined_.first_of(n));
        }
        return result;
    }

private:
    bool is_owned(std::size_t net) const { return owner_[net] < mixed; }

    void take_ways(const Netlist::Component& part, const PadNets& nets) {
        if (nets.size() != 2) {
            for (const Way& way : ways_of_array(part, nets, owner_)) join({&way, 1});
        } else if (nets[0] != nets[1]) {
            for (const std::size_t net : nets) ways_at_[net].push_back(ways_.size());
            ways_.push_back({&part, nets[0], nets[1]});
            if (part.fitted && is_zero_ohm(part.value)) see_short(ways_.back());
        }
    }

    /// From a net of the board through parts one after the other, as long as nothing else is on the
    /// nets between them; if they end on the same net of the board, they stand in it.
    void follow(std::size_t first, std::size_t from) {
        if (!is_owned(from)) return;
        std::vector<Way> ways{ways_[first]};
        std::size_t net = ways_[first].far_from(from), last = first;
        while (owner_[net] == no_net && drawn_.nets[net].nodes.size() == 2 &&
               ways_at_[net].size() == 2 && ways.size() <= ways_.size()) {
            last = ways_at_[net][ways_at_[net][0] == last ? 1 : 0];
            ways.push_back(ways_[last]);
            net = ways_[last].far_from(net);
        }
        if (owner_[net] == owner_[from] && net != from) join(ways);
    }

    void join(std::span<const Way> ways) {
        const bool stand_apart = std::ranges::any_of(ways, [&](const Way& way) {
            return joined_.first_of(way.one) != joined_.first_of(way.other);
        });
        if (!stand_apart) return;  // seen from its other end
        const std::size_t net = is_owned(ways[0].one) ? owner_[ways[0].one] : owner_[ways[0].other];
        for (const Way& way : ways) {
            joined_.join(way.one, way.other);
            in_nets_.try_emplace(way.part).first->second.push_back(net);
        }
    }

    void tell(const Netlist::Component& part, const std::vector<std::size_t>& nets) {
        std::vector<std::string> names;
        for (const std::size_t net : nets) names.push_back("'" + meant_.nets[net].name + "'");
        findings_.push_back(
            {part.fitted ? Severity::warning : Severity::error,
             part.fitted ? "part-in-series" : "part-unfitted",
             fmt::format("{} ({}) stands in net{} {}, which the board file has in one piece; {}",
                         part.reference, part.value, names.size() == 1 ? "" : "s",
                         fmt::join(names, ", "),
                         part.fitted ? "taken as joined" : "it is marked as not fitted"),
             part.at,
             {{meant_.nets[nets[0]].at, "the board file's net is here"}}});
    }

    void see_short(const Way& way) {
        if (!is_owned(way.one) || !is_owned(way.other) || owner_[way.one] == owner_[way.other]) {
            return;
        }
        const Netlist::Net& one = meant_.nets[owner_[way.one]];
        const Netlist::Net& other = meant_.nets[owner_[way.other]];
        findings_.push_back(
            {Severity::error,
             "part-joins-nets",
             fmt::format("{} ({}) joins '{}' and '{}', which the board file keeps apart",
                         way.part->reference, way.part->value, one.name, other.name),
             way.part->at,
             {{one.at, fmt::format("net '{}' of the board file", one.name)},
              {other.at, fmt::format("net '{}'", other.name)}}});
    }

    const Netlist& meant_;
    const Netlist& drawn_;
    const std::vector<std::size_t> owner_;
    Groups joined_;
    std::vector<Way> ways_;  ///< through parts of two pads
    std::unordered_map<std::size_t, std::vector<std::size_t>> ways_at_;  ///< by net
    std::map<const Netlist::Component*, std::vector<std::size_t>> in_nets_;
    Findings findings_;
};

}  // namespace

SeriesParts join_series_parts(const Netlist& meant, const Netlist& drawn,
                              const std::vector<PortMatch>& ports, const Board& board) {
    const auto strangers = nets_of_strangers(drawn, ports);
    std::vector<std::size_t> owner(drawn.nets.size(), no_net);
    if (!strangers.empty()) owner = owners(meant, drawn, ports, board);
    return SeriesFinder(meant, drawn, std::move(owner)).find(strangers);
}

}  // namespace pinfold
