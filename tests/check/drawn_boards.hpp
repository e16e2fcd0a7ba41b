// Netlists of the example boards, as layout would export them, and mistakes to plant in them by
// hand.
#pragma once

#include <algorithm>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "check/compare.hpp"
#include "design/read.hpp"
#include "support.hpp"

namespace pinfold {

using Nodes = std::vector<Netlist::Node>;

inline Design example(const std::string& file) {
    Library library = shipped_library();
    return read_design(repository() / "examples" / file, library);
}

inline std::vector<std::string> errors_of(const Comparison& comparison) {
    std::vector<std::string> rules;
    for (const Finding& finding : comparison.findings) {
        if (finding.severity == Severity::error) rules.push_back(finding.rule);
    }
    return rules;
}

struct NodePlace {
    std::size_t net = 0, node = 0;
};

inline std::optional<NodePlace> place_of(const Netlist& netlist, const std::string& reference,
                                         const std::string& pad) {
    for (std::size_t n = 0; n < netlist.nets.size(); ++n) {
        const Nodes& nodes = netlist.nets[n].nodes;
        const auto found = std::ranges::find(nodes, Netlist::Node{reference, pad});
        if (found != nodes.end())
            return NodePlace{n, static_cast<std::size_t>(found - nodes.begin())};
    }
    return std::nullopt;
}

/// The pads of one part get each other's nets: pad `labels[i]` that of `labels[to(i)]`.
inline Netlist permuted(Netlist netlist, const std::string& reference,
                        const std::vector<std::string>& labels,
                        const std::function<std::size_t(std::size_t)>& to) {
    const Netlist before = netlist;
    for (std::size_t i = 0; i < labels.size(); ++i) {
        const auto place = place_of(before, reference, labels[to(i)]);
        netlist.nets[place->net].nodes[place->node].pad = labels[i];
    }
    return netlist;
}

/// The labels of a part's contacts in the board file's order, shields left out.
inline std::vector<std::string> contact_labels(const Board& board, const std::string& port) {
    std::vector<std::string> labels;
    for (const PortContact& contact : board.ports[*board.find_port(port)].contacts) {
        if (!contact.absent) labels.push_back(contact.label);
    }
    return labels;
}

}  // namespace pinfold
