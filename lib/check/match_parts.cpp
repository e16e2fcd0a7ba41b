#include "check/match_parts.hpp"

#include <algorithm>
#include <unordered_map>
#include <unordered_set>

#include "check/best_fit.hpp"

namespace pinfold {
namespace {

using PartsBy = std::unordered_map<std::string_view, std::vector<const Netlist::Component*>>;

PartsBy parts_by(std::string Netlist::Component::*word, const Netlist& netlist) {
    PartsBy parts;
    for (const Netlist::Component& part : netlist.components) {
        if (!(part.*word).empty()) parts[part.*word].push_back(&part);
    }
    return parts;
}

/// Matches ports by what names them, in one way after the other.
class Matcher {
public:
    Matcher(const Board& board, const Netlist& drawn) : board_(board) {
        for (std::size_t p = 0; p < board.ports.size(); ++p) matches_.push_back({p, {}, {}});
        for (const Netlist::Component& part : drawn.components) known_.insert(part.reference);
        for (const Netlist::Net& net : drawn.nets) {
            for (const Netlist::Node& node : net.nodes) known_.insert(node.reference);
        }
    }

    void by_reference() {
        for (PortMatch& match : matches_) {
            const std::string& reference = board_.ports[match.port].reference;
            if (!reference.empty() && known_.contains(reference))
                take(match, reference, "reference");
        }
    }

    /// The only part that is not taken and has the word that one port alone has.
    void by_word(const char* by, std::string Port::*wanted, const PartsBy& parts) {
        std::unordered_map<std::string_view, int> wanting;
        for (const Port& port : board_.ports) ++wanting[port.*wanted];
        for (PortMatch& match : matches_) {
            const std::string& word = board_.ports[match.port].*wanted;
            if (!match.reference.empty() || wanting.at(word) > 1) continue;
            const auto alike = parts.find(word);
            if (alike == parts.end()) continue;
            const Netlist::Component* found = nullptr;
            int free = 0;
            for (const Netlist::Component* part : alike->second) {
                if (taken_.contains(part->reference)) continue;
                found = part;
                ++free;
            }
            if (free == 1) take(match, found->reference, by);
        }
    }

    std::vector<PortMatch> matches() { return std::move(matches_); }

private:
    void take(PortMatch& match, const std::string& reference, const char* by) {
        match.reference = reference;
        match.by = by;
        taken_.insert(reference);
    }

    const Board& board_;
    std::vector<PortMatch> matches_;
    std::unordered_set<std::string_view> known_, taken_;
};

}  // namespace

std::vector<PortMatch> match_parts(const Board& board, const Netlist& meant, const Netlist& drawn) {
    Matcher matcher(board, drawn);
    matcher.by_reference();
    matcher.by_word("port name", &Port::name, parts_by(&Netlist::Component::port, drawn));
    matcher.by_word("footprint", &Port::footprint, parts_by(&Netlist::Component::footprint, drawn));
    std::vector<PortMatch> matches = matcher.matches();
    match_by_fit(board, meant, drawn, matches);
    return matches;
}

}  // namespace pinfold
