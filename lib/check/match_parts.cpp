#include "check/match_parts.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <set>

#include "check/pad_table.hpp"

namespace pinfold {
namespace {

/// How badly a whole matching fits: nets cut or joined, and pads that are missing.
long misfit(const std::map<std::string, std::string>& parts, const Netlist& meant,
            const Netlist& drawn) {
    std::map<Netlist::Node, std::size_t> drawn_net;
    for (std::size_t n = 0; n < drawn.nets.size(); ++n) {
        for (const Netlist::Node& node : drawn.nets[n].nodes) drawn_net.emplace(node, n);
    }
    Tally tally;
    long missing = 0;
    for (std::size_t n = 0; n < meant.nets.size(); ++n) {
        for (const Netlist::Node& node : meant.nets[n].nodes) {
            const auto part = parts.find(node.reference);
            if (part == parts.end()) continue;
            const auto net = drawn_net.find({part->second, node.pad});
            if (net != drawn_net.end()) {
                tally.add(n, net->second);
            } else {
                ++missing;
            }
        }
    }
    return tally.cost() + missing;
}

class Matcher {
public:
    Matcher(const Board& board, const Netlist& meant, const Netlist& drawn)
        : board_(board), meant_list_(meant), drawn_(drawn) {
        for (std::size_t p = 0; p < board.ports.size(); ++p) matches_.push_back({p, {}, {}});
        for (const Netlist::Component& part : meant.components) meant_by_port_[part.port] = &part;
        std::map<std::string_view, std::set<std::string_view>> pads;
        for (const Netlist::Net& net : drawn.nets) {
            for (const Netlist::Node& node : net.nodes) pads[node.reference].insert(node.pad);
        }
        for (auto& [reference, labels] : pads) pads_.emplace(reference, std::move(labels));
        for (const Netlist::Component& part : drawn.components) pads_[part.reference];
    }

    std::vector<PortMatch> match() {
        for (PortMatch& match : matches_) by_reference(match);
        for (PortMatch& match : matches_) by_name(match);
        for (PortMatch& match : matches_) by_footprint(match);
        by_fit();
        return matches_;
    }

private:
    bool is_taken(std::string_view reference) const {
        return std::ranges::find(matches_, reference, &PortMatch::reference) != matches_.end();
    }

    void by_reference(PortMatch& match) {
        const std::string& reference = board_.ports[match.port].reference;
        if (!reference.empty() && pads_.contains(reference)) {
            match.reference = reference;
            match.by = "reference";
        }
    }

    /// The only part that `fits` and is not taken.
    template <class Fits>
    void only_one(PortMatch& match, const char* by, const Fits& fits) {
        if (!match.reference.empty()) return;
        const Netlist::Component* found = nullptr;
        for (const Netlist::Component& part : drawn_.components) {
            if (!fits(part) || is_taken(part.reference)) continue;
            if (found) return;
            found = &part;
        }
        if (!found) return;
        match.reference = found->reference;
        match.by = by;
    }

    void by_name(PortMatch& match) {
        only_one(match, "port name", [&](const Netlist::Component& part) {
            return part.port == board_.ports[match.port].name;
        });
    }

    void by_footprint(PortMatch& match) {
        const std::string& footprint = board_.ports[match.port].footprint;
        const auto alike = std::ranges::count(board_.ports, footprint, &Port::footprint);
        if (footprint.empty() || alike > 1) return;
        only_one(match, "footprint",
                 [&](const Netlist::Component& part) { return part.footprint == footprint; });
    }

    /// Free parts that have most of the pads of a port.
    std::vector<std::string> candidates(std::size_t port) const {
        const Netlist::Component& part = *meant_part(port);
        std::vector<std::pair<std::size_t, std::string>> ranked;
        for (const auto& [reference, labels] : pads_) {
            if (is_taken(reference)) continue;
            std::size_t common = 0;
            for (const Netlist::Pad& pad : part.pads) common += labels.contains(pad.label);
            if (3 * common >= 2 * part.pads.size() && 3 * part.pads.size() >= 2 * labels.size()) {
                ranked.emplace_back(part.pads.size() - common, reference);
            }
        }
        std::ranges::sort(ranked);
        std::vector<std::string> names;
        for (auto& [lost, reference] : ranked) names.push_back(std::move(reference));
        return names;
    }

    const Netlist::Component* meant_part(std::size_t port) const {
        return meant_by_port_.at(board_.ports[port].name);
    }

    void by_fit() {
        std::vector<std::size_t> open;
        for (const PortMatch& match : matches_) {
            if (match.reference.empty()) open.push_back(match.port);
        }
        std::erase_if(open, [&](std::size_t port) { return candidates(port).empty(); });
        if (open.empty()) return;
        std::vector<std::vector<std::string>> choices;
        std::size_t ways = 1;
        for (const std::size_t port : open) {
            choices.push_back(candidates(port));
            ways *= choices.back().size();
            constexpr std::size_t most_ways = 2000;
            if (ways > most_ways) refuse_many(open);
        }
        choose(open, choices, ways);
    }

    [[noreturn]] void refuse_many(const std::vector<std::size_t>& open) const {
        throw InputError({{Severity::error, "part-doubtful",
                           fmt::format("too many parts of the netlist could be {}; give the port "
                                       "its reference in the board file",
                                       board_.ports[open.front()].name),
                           board_.ports[open.front()].at}});
    }

    void choose(const std::vector<std::size_t>& open,
                const std::vector<std::vector<std::string>>& choices, std::size_t ways) {
        std::optional<long> least;
        std::vector<std::vector<std::string>> best;
        for (std::size_t way = 0; way < ways; ++way) {
            std::vector<std::string> picked;
            std::size_t rest = way;
            for (const auto& some : choices) {
                picked.push_back(some[rest % some.size()]);
                rest /= some.size();
            }
            if (std::set(picked.begin(), picked.end()).size() != picked.size()) continue;
            const long cost = misfit(parts_with(open, picked), meant_list_, drawn_);
            if (!least || cost < *least) best.clear();
            if (!least || cost <= *least) best.push_back(picked);
            least = std::min(least.value_or(cost), cost);
        }
        if (best.empty()) return;
        if (best.size() > 1) refuse_tie(open, best);
        for (std::size_t i = 0; i < open.size(); ++i) {
            matches_[open[i]].reference = best[0][i];
            matches_[open[i]].by = "best fit";
        }
    }

    std::map<std::string, std::string> parts_with(const std::vector<std::size_t>& open,
                                                  const std::vector<std::string>& picked) const {
        std::map<std::string, std::string> parts;
        for (const PortMatch& match : matches_) {
            if (!match.reference.empty()) {
                parts[meant_part(match.port)->reference] = match.reference;
            }
        }
        for (std::size_t i = 0; i < open.size(); ++i) {
            parts[meant_part(open[i])->reference] = picked[i];
        }
        return parts;
    }

    [[noreturn]] void refuse_tie(const std::vector<std::size_t>& open,
                                 const std::vector<std::vector<std::string>>& best) const {
        for (std::size_t i = 0; i < open.size(); ++i) {
            std::set<std::string> names;
            for (const auto& picked : best) names.insert(picked[i]);
            if (names.size() < 2) continue;
            throw InputError(
                {{Severity::error, "part-doubtful",
                  fmt::format("{} could be {}, which fit equally well; give the port its reference "
                              "in the board file",
                              board_.ports[open[i]].name, fmt::join(names, " or ")),
                  board_.ports[open[i]].at}});
        }
        refuse_many(open);
    }

    const Board& board_;
    const Netlist& meant_list_;
    const Netlist& drawn_;
    std::vector<PortMatch> matches_;
    std::map<std::string, const Netlist::Component*> meant_by_port_;
    std::map<std::string, std::set<std::string_view>> pads_;
};

}  // namespace

std::vector<PortMatch> match_parts(const Board& board, const Netlist& meant, const Netlist& drawn) {
    return Matcher(board, meant, drawn).match();
}

}  // namespace pinfold
