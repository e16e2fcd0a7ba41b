#include <fmt/format.h>

#include <cstdint>
#include <deque>
#include <limits>
#include <unordered_map>

#include "base/fields.hpp"
#include "base/label_hash.hpp"
#include "exchange/kicad_name.hpp"
#include "exchange/netlist_grower.hpp"

namespace pinfold {
namespace {

bool is_virtual(std::string_view reference) { return reference.starts_with('#'); }

}  // namespace

/// Which nodes name a pad that an earlier one names: a table of places in a list of nodes.
///
/// A million pads are looked up in it, so it is one array, open addressed.
class NodeTable {
public:
    explicit NodeTable(std::size_t nodes) {
        std::size_t size = 16;
        while (size < 2 * nodes) size *= 2;
        places_.assign(size, none);
    }

    /// The earlier node that `same` finds to be the same pad; else `place` is kept.
    template <class Same>
    std::optional<std::size_t> earlier(std::size_t hash, std::size_t place, const Same& same) {
        const std::size_t mask = places_.size() - 1;
        for (std::size_t at = hash & mask;; at = (at + 1) & mask) {
            if (places_[at] == none) {
                places_[at] = static_cast<std::uint32_t>(place);
                return std::nullopt;
            }
            if (same(places_[at])) return places_[at];
        }
    }

private:
    static constexpr std::uint32_t none = std::numeric_limits<std::uint32_t>::max();
    std::vector<std::uint32_t> places_;
};

/// Puts the netlist together once all of it was seen, noting every fault.
class NetlistGrower::Maker {
public:
    explicit Maker(NetlistGrower& grown) : grown_(grown), pads_(grown.nodes_.size()) {
        components_.reserve(grown.components_.size());
        nets_.reserve(grown.nets_.size());
        placed_.resize(grown.nodes_.size());
        netlist_.nets.reserve(grown.nets_.size());
    }

    Netlist make() {
        const Mark root = grown_.mark(grown_.root_offset_);
        if (grown_.root_word_ != "export") {
            complain("netlist-root",
                     fmt::format("this is no netlist: it starts with '{}', not with 'export'",
                                 *grown_.root_word_),
                     root);
            throw InputError(std::move(findings_));
        }
        netlist_.source = grown_.source_.value_or("");
        if (!grown_.has_components_) complain_of_section("components", root);
        for (const WrittenComponent& component : grown_.components_) add(component);
        if (!grown_.has_nets_) complain_of_section("nets", root);
        for (const WrittenNet& net : grown_.nets_) add(net);
        if (!findings_.empty()) throw InputError(std::move(findings_));
        return std::move(netlist_);
    }

private:
    void complain(const char* rule, std::string text, const Mark& at,
                  std::vector<Note> notes = {}) {
        pinfold::complain(findings_, rule, std::move(text), at, std::move(notes));
    }

    void complain_of_section(const char* word, const Mark& at) {
        complain("netlist-section", fmt::format("this netlist has no list of {}", word), at);
    }

    void remark(const char* rule, std::string text, const Mark& at, std::vector<Note> notes = {}) {
        netlist_.remarks.push_back(
            {Severity::warning, rule, std::move(text), at, std::move(notes)});
    }

    void add(const WrittenComponent& written) {
        const std::string reference(written.reference.value_or(""));
        const Mark at = grown_.mark(written.offset);
        if (reference.empty()) {
            return complain("netlist-reference", "a component without a reference", at);
        }
        if (is_virtual(reference)) return;
        const auto [twin, is_new] =
            components_.try_emplace(*written.reference, netlist_.components.size());
        if (!is_new) {
            return complain("reference-twice",
                            fmt::format("reference '{}' is given twice", reference), at,
                            {{netlist_.components[twin->second].at, "first here"}});
        }
        const auto text = [](const Slot& slot) { return std::string(slot.value_or("")); };
        netlist_.components.push_back({reference,
                                       text(written.value),
                                       text(written.footprint),
                                       text(written.uuid ? written.uuid : written.old_uuid),
                                       text(written.port),
                                       {},
                                       at,
                                       written.fitted});
    }

    /// Of two nets of one name the first. A net
    /// without a name is called by its code, as the old writers did.
    std::optional<std::size_t> net_of(const WrittenNet& written, const Mark& at) {
        std::string_view name = written.name.value_or("");
        if (name.empty() && !written.code.value_or("").empty()) {
            name = made_up_.emplace_back("N-" + std::string(*written.code));
        }
        if (name.empty()) {
            complain("netlist-net", "a net without a name", at);
            return std::nullopt;
        }
        const auto [twin, is_new] = nets_.try_emplace(name, netlist_.nets.size());
        if (is_new) {
            netlist_.nets.push_back({from_kicad_name(name), false, {}, at});
        } else {
            remark("net-twice", fmt::format("net '{}' is given twice; taken as one", name), at,
                   {{netlist_.nets[twin->second].at, "first here"}});
        }
        return twin->second;
    }

    void add(const WrittenNet& written) {
        const auto net = net_of(written, grown_.mark(written.offset));
        if (!net) return;
        std::vector<Netlist::Node>& nodes = netlist_.nets[*net].nodes;
        nodes.reserve(nodes.size() + written.end_node - written.first_node);
        for (std::size_t n = written.first_node; n < written.end_node; ++n) add(n, *net);
    }

    void add(std::size_t n, std::size_t net) {
        const WrittenNode& node = grown_.nodes_[n];
        const Mark at = grown_.mark(node.offset);
        if (node.reference.empty() || node.pad.empty()) {
            return complain("netlist-node", "a node needs a reference and a pin", at);
        }
        if (is_virtual(node.reference)) return;
        const std::size_t component = component_of(node, at);
        placed_[n] = {component, net};
        const auto before =
            pads_.earlier(label_hash(component, node.pad), n, [&](std::size_t other) {
                return placed_[other].component == component &&
                       grown_.nodes_[other].pad == node.pad;
            });
        if (before) {
            if (placed_[*before].net != net) complain_of_short(n, *before);
            return;
        }
        Netlist::Net& here = netlist_.nets[net];
        if (node.unconnected) here.unconnected = true;
        here.nodes.push_back({std::string(node.reference), std::string(node.pad), at});
        if (component < netlist_.components.size()) {
            netlist_.components[component].pads.push_back(
                {std::string(node.pad), std::string(node.function)});
        }
    }

    /// A node's component by its place; those the netlist does not list come behind the others.
    std::size_t component_of(const WrittenNode& node, const Mark& at) {
        const std::size_t next = netlist_.components.size() + strangers_;
        const auto [found, is_new] = components_.try_emplace(node.reference, next);
        if (!is_new) return found->second;
        ++strangers_;
        remark("netlist-stranger",
               fmt::format("'{}' is on a net but not among the components; was the netlist cut "
                           "down by hand?",
                           node.reference),
               at);
        return next;
    }

    void complain_of_short(std::size_t n, std::size_t before) {
        const WrittenNode& node = grown_.nodes_[n];
        complain("netlist-short",
                 fmt::format("pad {} of {} is on two nets, '{}' and '{}'", node.pad, node.reference,
                             netlist_.nets[placed_[before].net].name,
                             netlist_.nets[placed_[n].net].name),
                 grown_.mark(node.offset),
                 {{grown_.mark(grown_.nodes_[before].offset), "first here"}});
    }

    struct Placed {
        std::size_t component = 0, net = 0;
    };

    NetlistGrower& grown_;
    Netlist netlist_;
    Findings findings_;
    NodeTable pads_;
    std::vector<Placed> placed_;
    std::unordered_map<std::string_view, std::size_t> components_;
    std::unordered_map<std::string_view, std::size_t> nets_;  ///< by the name as written
    std::deque<std::string> made_up_;
    std::size_t strangers_ = 0;
};

Netlist NetlistGrower::take() { return Maker(*this).make(); }

}  // namespace pinfold
