#include "check/best_fit.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>
#include <set>
#include <unordered_map>
#include <unordered_set>

#include "check/nets_by_part.hpp"
#include "check/tally.hpp"

namespace pinfold {
namespace {

using Places = std::vector<std::size_t>;

/// How badly a matching fits as parts are put in and taken out: nets cut or joined, pads missing,
/// and parts that were given to two ports.
class Fit {
public:
    Fit(std::size_t meant_nets, const Netlist& drawn)
        : tally_(meant_nets, drawn.nets.size()), parts_(nets_by_part(drawn)) {}

    const NetsByPart& parts() const { return parts_; }

    void put(const NetsByPad& meant, std::string_view reference) {
        if (++uses_[reference] == 2) ++given_twice_;
        for (const auto& [label, net] : meant) {
            const auto drawn = drawn_net(reference, label);
            drawn ? tally_.add(net, *drawn) : void(++missing_);
        }
    }
    void take(const NetsByPad& meant, std::string_view reference) {
        if (--uses_[reference] == 1) --given_twice_;
        for (const auto& [label, net] : meant) {
            const auto drawn = drawn_net(reference, label);
            drawn ? tally_.remove(net, *drawn) : void(--missing_);
        }
    }

    bool is_possible() const { return given_twice_ == 0; }
    long cost() const { return tally_.cost() + missing_; }

private:
    std::optional<std::size_t> drawn_net(std::string_view reference, std::string_view label) const {
        const NetsByPad& pads = parts_.at(reference);
        const auto found = pads.find(label);
        return found == pads.end() ? std::nullopt : std::optional(found->second);
    }

    Tally tally_;
    NetsByPart parts_;
    std::unordered_map<std::string_view, int> uses_;
    long missing_ = 0, given_twice_ = 0;
};

/// A port to be filled, the parts it may be and the one it is at the moment.
struct OpenPort {
    std::size_t port = 0;
    const NetsByPad* meant = nullptr;
    std::vector<std::string_view> choices;
    std::size_t chosen = 0;
};

class Fitter {
public:
    Fitter(const Board& board, const Netlist& meant, const Netlist& drawn,
           std::vector<PortMatch>& matches)
        : board_(board),
          matches_(matches),
          meant_(nets_by_part(meant)),
          fit_(meant.nets.size(), drawn) {
        for (const Netlist::Component& part : meant.components) {
            nets_of_[part.port] = &meant_.at(part.reference);
        }
        for (const PortMatch& match : matches) {
            if (!match.reference.empty()) fit_.put(nets_of(match.port), match.reference);
        }
    }

    void fit() {
        find_choices();
        if (open_.empty()) return;
        for (OpenPort& open : open_) fit_.put(*open.meant, open.choices[0]);
        do see();
        while (turn_to_next());
        if (best_.empty()) return;
        if (best_.size() > 1) refuse_tie();
        for (std::size_t i = 0; i < open_.size(); ++i) {
            PortMatch& match = matches_[open_[i].port];
            match.reference = open_[i].choices[best_[0][i]];
            match.by = "best fit";
        }
    }

private:
    const NetsByPad& nets_of(std::size_t port) const {
        return *nets_of_.at(board_.ports[port].name);
    }

    void find_choices() {
        std::unordered_set<std::string_view> taken;
        for (const PortMatch& match : matches_) taken.insert(match.reference);
        constexpr std::size_t most_ways = 2000;
        std::size_t ways = 1;
        for (const PortMatch& match : matches_) {
            if (!match.reference.empty()) continue;
            OpenPort open{match.port, &nets_of(match.port), choices(match.port, taken), 0};
            if (open.choices.empty()) continue;
            ways *= open.choices.size();
            open_.push_back(std::move(open));
            if (ways > most_ways) refuse_many(open_.front().port);
        }
    }

    /// Free parts that have most of the pads of a port, and not many more.
    std::vector<std::string_view> choices(std::size_t port,
                                          const std::unordered_set<std::string_view>& taken) {
        constexpr std::size_t most_looks = 20'000'000;
        const NetsByPad& pads = nets_of(port);
        std::vector<std::pair<std::size_t, std::string_view>> ranked;
        for (const auto& [reference, labels] : fit_.parts()) {
            if (++looks_ > most_looks) refuse_many(port);
            if (taken.contains(reference) || 3 * pads.size() < 2 * labels.size()) continue;
            if (3 * labels.size() < 2 * pads.size()) continue;
            looks_ += pads.size();
            const auto common = static_cast<std::size_t>(std::ranges::count_if(
                pads, [&here = labels](const auto& pad) { return here.contains(pad.first); }));
            if (3 * common >= 2 * pads.size()) ranked.emplace_back(pads.size() - common, reference);
        }
        std::ranges::sort(ranked);
        std::vector<std::string_view> references;
        for (const auto& [lost, reference] : ranked) references.push_back(reference);
        return references;
    }

    /// Keeps the way as it stands if no other was better.
    void see() {
        constexpr std::size_t most_kept = 16;
        if (!fit_.is_possible()) return;
        const long cost = fit_.cost();
        if (!best_.empty() && cost > least_) return;
        if (cost < least_) best_.clear();
        least_ = cost;
        if (best_.size() == most_kept) return;
        best_.emplace_back();
        for (const OpenPort& open : open_) best_.back().push_back(open.chosen);
    }

    /// Counts on, as an odometer does; false once it is back at the start.
    bool turn_to_next() {
        for (OpenPort& open : open_) {
            const std::size_t next = (open.chosen + 1) % open.choices.size();
            if (open.choices.size() > 1) {
                fit_.take(*open.meant, open.choices[open.chosen]);
                fit_.put(*open.meant, open.choices[next]);
            }
            open.chosen = next;
            if (next != 0) return true;
        }
        return false;
    }

    [[noreturn]] void refuse_many(std::size_t port) const {
        throw InputError({{Severity::error, "part-doubtful",
                           fmt::format("too many parts of the netlist could be {}; give the port "
                                       "its reference in the board file",
                                       board_.ports[port].name),
                           board_.ports[port].at}});
    }

    [[noreturn]] void refuse_tie() const {
        for (std::size_t i = 0; i < open_.size(); ++i) {
            std::set<std::string_view> names;
            for (const Places& way : best_) names.insert(open_[i].choices[way[i]]);
            if (names.size() < 2) continue;
            const Port& port = board_.ports[open_[i].port];
            throw InputError(
                {{Severity::error, "part-doubtful",
                  fmt::format("{} could be {}, which fit equally well; give the port its reference "
                              "in the board file",
                              port.name, fmt::join(names, " or ")),
                  port.at}});
        }
        refuse_many(open_.front().port);
    }

    const Board& board_;
    std::vector<PortMatch>& matches_;
    NetsByPart meant_;
    std::unordered_map<std::string_view, const NetsByPad*> nets_of_;  ///< by the port's name
    Fit fit_;
    std::vector<OpenPort> open_;
    std::vector<Places> best_;  ///< the chosen places of the ways that fit best
    long least_ = 0;
    std::size_t looks_ = 0;
};

}  // namespace

void match_by_fit(const Board& board, const Netlist& meant, const Netlist& drawn,
                  std::vector<PortMatch>& matches) {
    const bool all_matched =
        std::ranges::none_of(matches, [](const PortMatch& m) { return m.reference.empty(); });
    if (!all_matched) Fitter(board, meant, drawn, matches).fit();
}

}  // namespace pinfold
