#include "check/compare.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <unordered_map>

#include "check/match_parts.hpp"
#include "check/rules.hpp"
#include "check/series_parts.hpp"
#include "check/slips.hpp"

namespace pinfold {
namespace {

using Places = std::vector<std::size_t>;

/// More pads than these are not read in a sentence.
constexpr std::size_t most_told = 6;

/// Compares one board with one netlist.
class Comparer {
public:
    Comparer(const Design& design, std::size_t board, const Netlist& drawn)
        : design_(design),
          board_(design.boards[board]),
          drawn_(drawn),
          meant_(netlist_of(design, board)) {}

    Comparison compare() {
        result_.ports = match_parts(board_, meant_, drawn_);
        series_ = join_series_parts(meant_, drawn_, result_.ports, board_);
        lay_pads(result_.ports);
        PadDiagnosis diagnosis = diagnose_pads(pads_, board_.ports.size());
        if (diagnosis.count() + missing_.size() > 1) try_exchanges(diagnosis);
        tell_matches();
        tell_missing();
        tell_extra();
        for (const Slip& slip : diagnosis.slips) tell(slip);
        tell(diagnosis.causes);
        std::ranges::move(series_.findings, std::back_inserter(result_.findings));
        sort_by_severity(result_.findings);
        result_.same = !has_errors(result_.findings);
        return std::move(result_);
    }

private:
    /// The pads of the board beside what the netlist says of them, as the ports are matched.
    void lay_pads(const std::vector<PortMatch>& ports) {
        std::map<std::string, std::size_t> port_of;
        for (std::size_t p = 0; p < board_.ports.size(); ++p) port_of[board_.ports[p].name] = p;
        std::map<std::string_view, std::size_t> meant_port;
        for (const Netlist::Component& part : meant_.components) {
            meant_port[part.reference] = port_of.at(part.port);
        }
        std::unordered_map<std::string, std::size_t> places;
        pads_.clear();
        for (std::size_t net = 0; net < meant_.nets.size(); ++net) {
            for (const Netlist::Node& node : meant_.nets[net].nodes) {
                const std::size_t port = meant_port.at(node.reference);
                if (ports[port].reference.empty()) continue;
                const bool is_contact = std::ranges::any_of(
                    board_.ports[port].contacts,
                    [&](const PortContact& contact) { return contact.label == node.pad; });
                pads_.push_back({port, !is_contact, node.pad, net, no_net, node.at, {}});
            }
        }
        order_pads();
        for (std::size_t p = 0; p < pads_.size(); ++p) {
            places.emplace(ports[pads_[p].port].reference + '\n' + pads_[p].label, p);
        }
        find_drawn(ports, places);
    }

    /// By port, then by the contacts' order, so that "the next contact" is the next pad.
    void order_pads() {
        std::map<std::pair<std::size_t, std::string_view>, std::size_t> order;
        for (std::size_t port = 0; port < board_.ports.size(); ++port) {
            const auto& contacts = board_.ports[port].contacts;
            for (std::size_t i = 0; i < contacts.size(); ++i) order[{port, contacts[i].label}] = i;
        }
        const auto key = [&](const ComparedPad& pad) {
            const auto found = order.find({pad.port, pad.label});
            return std::pair(pad.port, found == order.end() ? no_net : found->second);
        };
        std::ranges::stable_sort(pads_, {}, key);
    }

    void find_drawn(const std::vector<PortMatch>& ports,
                    const std::unordered_map<std::string, std::size_t>& places) {
        std::set<std::string_view> references;
        for (const PortMatch& match : ports) references.insert(match.reference);
        extra_.clear();
        missing_.clear();
        for (std::size_t n = 0; n < drawn_.nets.size(); ++n) {
            for (const Netlist::Node& node : drawn_.nets[n].nodes) {
                if (!references.contains(node.reference)) continue;
                const auto found = places.find(node.reference + '\n' + node.pad);
                if (found == places.end()) {
                    extra_.push_back({&node, series_.net[n]});
                } else {
                    pads_[found->second].drawn = series_.net[n];
                    pads_[found->second].in_netlist = node.at;
                }
            }
        }
        for (std::size_t p = 0; p < pads_.size(); ++p) {
            const bool hangs_loose = meant_.nets[pads_[p].meant].nodes.size() == 1;
            if (pads_[p].drawn == no_net && !hangs_loose) missing_[pads_[p].port].push_back(p);
        }
    }

    /// Two parts whose references have changed places.
    void try_exchanges(PadDiagnosis& best) {
        constexpr std::size_t most_ports = 12;
        if (board_.ports.size() > most_ports) return;
        std::size_t least = best.count() + missing_.size() + extra_ports();
        std::optional<std::pair<std::size_t, std::size_t>> found;
        const std::vector<PortMatch> given = result_.ports;
        for (std::size_t a = 0; a < given.size(); ++a) {
            for (std::size_t b = a + 1; b < given.size(); ++b) {
                if (given[a].reference.empty() || given[b].reference.empty()) continue;
                std::vector<PortMatch> swapped = given;
                std::swap(swapped[a].reference, swapped[b].reference);
                lay_pads(swapped);
                const PadDiagnosis other = diagnose_pads(pads_, board_.ports.size());
                const std::size_t count = other.count() + missing_.size() + extra_ports() + 1;
                if (count >= least) continue;
                least = count;
                found = {a, b};
                best = other;
            }
        }
        if (found) {
            tell_exchange(found->first, found->second);
            std::swap(result_.ports[found->first].reference,
                      result_.ports[found->second].reference);
        }
        lay_pads(result_.ports);
    }

    std::size_t extra_ports() const {
        std::set<std::string_view> parts;
        for (const Extra& extra : extra_) parts.insert(extra.node->reference);
        return parts.size();
    }

    std::string name_of(std::size_t pad) const {
        const ComparedPad& at = pads_[pad];
        return fmt::format("{}.{}", result_.ports[at.port].reference, at.label);
    }

    std::string names_of(const Places& pads) const {
        std::vector<std::string> names;
        for (const std::size_t pad : pads) {
            if (names.size() == most_told) {
                names.push_back(fmt::format("{} more", pads.size() - most_told));
                break;
            }
            names.push_back(name_of(pad));
        }
        return fmt::format("{}", fmt::join(names, ", "));
    }

    /// What the board file calls the net of a pad.
    std::string net_of(std::size_t pad) const {
        const Netlist::Net& net = meant_.nets[pads_[pad].meant];
        if (net.unconnected) return fmt::format("the open contact {}", name_of(pad));
        return fmt::format("net '{}'", net.name);
    }

    Finding finding(const char* rule, std::string text, const Places& pads) const {
        Finding made{find_rule(rule)->severity, rule, std::move(text), {}};
        for (std::size_t i = 0; i < std::min(pads.size(), most_told); ++i) {
            const ComparedPad& pad = pads_[pads[i]];
            if (!made.at.source) {
                made.at = pad.in_netlist;
            } else if (pad.in_netlist.source) {
                made.notes.push_back({pad.in_netlist, fmt::format("{} is here", name_of(pads[i]))});
            }
        }
        for (std::size_t i = 0; i < std::min(pads.size(), most_told); ++i) {
            const ComparedPad& pad = pads_[pads[i]];
            made.notes.push_back({pad.in_board, fmt::format("the board file puts {} on {}",
                                                            name_of(pads[i]), net_of(pads[i]))});
            add_place(made, fmt::format("{}.{}", board_.name, board_.ports[pad.port].name));
        }
        return made;
    }

    static void add_place(Finding& finding, std::string place) {
        if (std::ranges::find(finding.places, place) == finding.places.end()) {
            finding.places.push_back(std::move(place));
        }
    }

    const Netlist::Component* part(const std::string& reference) const {
        const auto found =
            std::ranges::find(drawn_.components, reference, &Netlist::Component::reference);
        return found == drawn_.components.end() ? nullptr : &*found;
    }

    Finding about_port(const char* rule, Severity severity, std::string text,
                       std::size_t port) const {
        Finding made{severity, rule, std::move(text), {}};
        if (const auto* found = part(result_.ports[port].reference)) made.at = found->at;
        made.notes.push_back({board_.ports[port].at, "the board file's port is here"});
        add_place(made, fmt::format("{}.{}", board_.name, board_.ports[port].name));
        return made;
    }

    std::string name_of_port(std::size_t port) const {
        return fmt::format("{} ({})", result_.ports[port].reference, board_.ports[port].name);
    }

    void tell_exchange(std::size_t a, std::size_t b) {
        Finding made = about_port(
            "drawn-connectors-exchanged", Severity::error,
            fmt::format("{} and {} have changed places: {} is wired as the board file's {}, and {} "
                        "as its {}",
                        result_.ports[a].reference, result_.ports[b].reference,
                        result_.ports[a].reference, board_.ports[b].name,
                        result_.ports[b].reference, board_.ports[a].name),
            a);
        made.notes.push_back({board_.ports[b].at, "and the other here"});
        add_place(made, fmt::format("{}.{}", board_.name, board_.ports[b].name));
        result_.findings.push_back(std::move(made));
    }

    void tell_matches() {
        for (std::size_t p = 0; p < result_.ports.size(); ++p) {
            const PortMatch& match = result_.ports[p];
            if (match.reference.empty()) {
                result_.findings.push_back(
                    about_port("part-missing", Severity::error,
                               fmt::format("no part of the netlist is {}{}", board_.ports[p].name,
                                           board_.ports[p].reference.empty()
                                               ? std::string{}
                                               : fmt::format(" ({})", board_.ports[p].reference)),
                               p));
            } else if (match.by != "reference") {
                result_.findings.push_back(
                    about_port("part-matched", Severity::note,
                               fmt::format("{} was taken for {} by its {}", match.reference,
                                           board_.ports[p].name, match.by),
                               p));
            }
        }
        result_.nets = meant_.nets.size();
        result_.pads = pads_.size();
    }

    /// Shield pads that bear other names than the connector's own are the same metal if they lie
    /// on ground.
    bool shield_is_renamed(std::size_t port, const Places& missing) const {
        const auto is_shield = [&](std::size_t p) { return pads_[p].is_shield; };
        if (!std::ranges::all_of(missing, is_shield)) return false;
        return std::ranges::none_of(pads_, [&](const ComparedPad& pad) {
            return pad.port == port && pad.is_shield && pad.drawn != no_net;
        });
    }

    void tell_missing() {
        for (const auto& [port, pads] : missing_) {
            const bool renamed = shield_is_renamed(port, pads);
            Finding made = finding(
                "pad-missing",
                renamed
                    ? fmt::format("the shield pads {} are on no net of the netlist; name the "
                                  "footprint's own with 'shell'",
                                  names_of(pads))
                    : fmt::format("{} {} on no net of the netlist: the part lacks the pad, or it "
                                  "is wired to nothing",
                                  names_of(pads), pads.size() == 1 ? "is" : "are"),
                pads);
            if (renamed) made.severity = Severity::warning;
            if (const auto* found = part(result_.ports[port].reference)) made.at = found->at;
            result_.findings.push_back(std::move(made));
        }
    }

    void tell_extra() {
        if (extra_.empty()) return;
        judge_nets();
        std::map<std::pair<std::string, int>, std::vector<const Extra*>> sorted;
        for (const Extra& extra : extra_) {
            sorted[{extra.node->reference, -static_cast<int>(severity_of(extra))}].push_back(
                &extra);
        }
        for (const auto& [key, extras] : sorted) {
            std::vector<std::string> names;
            for (const Extra* extra : extras) {
                if (names.size() < most_told) {
                    names.push_back(fmt::format("{}.{}", key.first, extra->node->pad));
                }
            }
            const auto severity = static_cast<Severity>(-key.second);
            const char* where = severity == Severity::error     ? "joined to a net of the board"
                                : severity == Severity::warning ? "on ground"
                                                                : "joined to nothing";
            result_.findings.push_back(
                {severity, "pad-extra",
                 fmt::format("the board file knows no pad {}{}; here {} {}", fmt::join(names, ", "),
                             extras.size() > most_told ? " and more" : "",
                             extras.size() == 1 ? "it is" : "they are", where),
                 extras[0]->node->at});
        }
    }

    struct Extra {
        const Netlist::Node* node;
        std::size_t net;
    };

    Severity severity_of(const Extra& extra) const {
        const auto found = severity_on_.find(extra.net);
        return found == severity_on_.end() ? Severity::note : found->second;
    }

    /// What an extra pad on each net of the netlist means: an error where it joins a signal.
    void judge_nets() {
        std::unordered_map<std::size_t, bool> grounds;
        for (const ComparedPad& pad : pads_) {
            const auto [ground, is_new] = grounds.try_emplace(pad.meant);
            if (is_new) ground->second = is_ground_net(pad.meant);
            const auto [known, is_first] = severity_on_.try_emplace(pad.drawn, Severity::warning);
            if (!ground->second) known->second = Severity::error;
        }
    }

    bool is_ground_net(std::size_t meant) const {
        const Netlist::Net& net = meant_.nets[meant];
        return std::ranges::any_of(
            board_.nets, [&](const Net& any) { return any.ground && any.name == net.name; });
    }

    void tell(const Slip& slip) {
        Finding made =
            about_port(slip.rule, Severity::error,
                       fmt::format("{}: {}", name_of_port(slip.port), slip.how), slip.port);
        for (const auto& [pad, place] : slip.moves) {
            if (place == no_net || place == pad || !pads_[pad].in_netlist.source) continue;
            made.notes.push_back(
                {pads_[pad].in_netlist,
                 fmt::format("{} lies where {} belongs, for one", name_of(pad), name_of(place))});
            break;
        }
        result_.findings.push_back(std::move(made));
    }

    /// The pair whose half a pad's net is, by its interface and number; and which half.
    struct Half {
        std::string interface;
        std::size_t pair = 0;
        bool plus = false;
    };

    std::optional<Half> half_of(std::size_t pad) const {
        const std::string& name = meant_.nets[pads_[pad].meant].name;
        const auto net = std::ranges::find(board_.nets, name, &Net::name);
        if (net == board_.nets.end() || !net->signal) return std::nullopt;
        const Interface& interface = design_.interfaces.at(net->interface);
        for (std::size_t p = 0; p < interface.pairs.size(); ++p) {
            const Pair& pair = interface.pairs[p];
            if (pair.plus == *net->signal) return Half{net->interface, p, true};
            if (pair.minus == *net->signal) return Half{net->interface, p, false};
        }
        return std::nullopt;
    }

    bool is_one_pair(std::size_t a, std::size_t b) const {
        const auto one = half_of(a);
        const auto other = half_of(b);
        return one && other && one->interface == other->interface && one->pair == other->pair &&
               one->plus != other->plus;
    }

    /// Two exchanges that move both halves of one pair to where another pair belongs are one.
    std::vector<PadCause> merged(std::vector<PadCause> causes) const {
        for (std::size_t i = 0; i < causes.size(); ++i) {
            if (!is_plain_exchange(causes[i])) continue;
            for (std::size_t k = i + 1; k < causes.size(); ++k) {
                if (!is_plain_exchange(causes[k])) continue;
                const auto& one = causes[i].pads;
                const auto& other = causes[k].pads;
                const bool straight =
                    is_one_pair(one[0], other[0]) && is_one_pair(one[1], other[1]);
                const bool crossed = is_one_pair(one[0], other[1]) && is_one_pair(one[1], other[0]);
                if (!straight && !crossed) continue;
                causes[i].kind = PadCause::Kind::pairs_exchanged;
                causes[i].pads.insert(causes[i].pads.end(), other.begin(), other.end());
                causes.erase(causes.begin() + static_cast<std::ptrdiff_t>(k));
                break;
            }
        }
        return causes;
    }

    static bool is_plain_exchange(const PadCause& cause) {
        return cause.kind == PadCause::Kind::exchanged && cause.pads.size() == 2;
    }

    void tell(const std::vector<PadCause>& causes) {
        for (const PadCause& cause : merged(causes)) result_.findings.push_back(told(cause));
    }

    Finding told(const PadCause& cause) const {
        const auto& pads = cause.pads;
        switch (cause.kind) {
            case PadCause::Kind::open:
                return finding("drawn-open",
                               fmt::format("{} is open: {} {} not joined to {}", net_of(pads[0]),
                                           names_of(pads), pads.size() == 1 ? "is" : "are",
                                           names_of(cause.beside)),
                               pads);
            case PadCause::Kind::shorted: return told_short(cause);
            case PadCause::Kind::misplaced:
                return finding(
                    "drawn-misplaced",
                    fmt::format("{} lies on {} but belongs on {}", name_of(pads[0]),
                                cause.beside.empty() ? "another net" : net_of(cause.beside[0]),
                                net_of(pads[0])),
                    pads);
            case PadCause::Kind::pairs_exchanged:
                return finding("drawn-pairs-exchanged",
                               fmt::format("two pairs have changed places: {} with {}, {} with {}",
                                           name_of(pads[0]), name_of(pads[1]), name_of(pads[2]),
                                           name_of(pads[3])),
                               pads);
            case PadCause::Kind::exchanged: break;
        }
        if (pads.size() == 2 && is_one_pair(pads[0], pads[1])) {
            return finding("drawn-pair-swapped",
                           fmt::format("the halves of a pair are exchanged: {} and {}",
                                       name_of(pads[0]), name_of(pads[1])),
                           pads);
        }
        return finding("drawn-pads-exchanged",
                       pads.size() == 2
                           ? fmt::format("{} and {} are on each other's nets", name_of(pads[0]),
                                         name_of(pads[1]))
                           : fmt::format("{} have changed places in a ring", names_of(pads)),
                       pads);
    }

    Finding told_short(const PadCause& cause) const {
        Places both = cause.pads;
        if (!cause.beside.empty()) both.push_back(cause.beside[0]);
        return finding("drawn-short",
                       fmt::format("{} and {} are joined: {}", net_of(cause.pads[0]),
                                   cause.beside.empty() ? "another net" : net_of(cause.beside[0]),
                                   names_of(both)),
                       both);
    }

    const Design& design_;
    const Board& board_;
    const Netlist& drawn_;
    const Netlist meant_;
    Comparison result_;
    SeriesParts series_;
    std::vector<ComparedPad> pads_;
    std::vector<Extra> extra_;
    std::unordered_map<std::size_t, Severity> severity_on_;  ///< by net of the netlist
    std::map<std::size_t, Places> missing_;                  ///< by port
};

}  // namespace

Comparison compare(const Design& design, std::size_t board, const Netlist& drawn) {
    return Comparer(design, board, drawn).compare();
}

}  // namespace pinfold
