#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "exchange/kicad_name.hpp"
#include "exchange/kicad_tree.hpp"

namespace pinfold {
namespace {

bool is_virtual(std::string_view reference) { return reference.starts_with('#'); }

/// Reads the parts of one netlist that we keep, noting every fault.
class TreeReader {
public:
    Netlist read(const Branch& root) {
        if (root.word != "export") {
            complain("netlist-root",
                     fmt::format("this is no netlist: it starts with '{}', not with 'export'",
                                 root.word.substr(0, 40)),
                     root.at);
            throw InputError(std::move(findings_));
        }
        if (const Branch* design = root.find("design")) netlist_.source = design->text_of("source");
        for (const Branch& branch : section(root, "components")) {
            if (branch.word == "comp") read_component(branch);
        }
        for (const Branch& branch : section(root, "nets")) {
            if (branch.word == "net") read_net(branch);
        }
        if (!findings_.empty()) throw InputError(std::move(findings_));
        return std::move(netlist_);
    }

private:
    struct Placed {
        std::size_t net = 0;
        Mark at;
    };

    void complain(const char* rule, std::string text, const Mark& at,
                  std::vector<Note> notes = {}) {
        findings_.push_back({Severity::error, rule, std::move(text), at, std::move(notes)});
    }

    void remark(const char* rule, std::string text, const Mark& at, std::vector<Note> notes = {}) {
        netlist_.remarks.push_back(
            {Severity::warning, rule, std::move(text), at, std::move(notes)});
    }

    const std::vector<Branch>& section(const Branch& root, std::string_view word) {
        static const std::vector<Branch> none;
        if (const Branch* found = root.find(word)) return found->branches;
        complain("netlist-section", fmt::format("this netlist has no list of {}", word), root.at);
        return none;
    }

    void read_component(const Branch& branch) {
        const std::string reference = branch.text_of("ref");
        if (reference.empty()) {
            complain("netlist-reference", "a component without a reference", branch.at);
            return;
        }
        if (is_virtual(reference)) return;
        const auto [twin, is_new] = components_.try_emplace(reference, netlist_.components.size());
        if (!is_new) {
            complain("reference-twice", fmt::format("reference '{}' is given twice", reference),
                     branch.at, {{netlist_.components[twin->second].at, "first here"}});
            return;
        }
        const bool is_new_form = branch.find("tstamps") != nullptr;
        netlist_.components.push_back({reference,
                                       branch.text_of("value"),
                                       branch.text_of("footprint"),
                                       branch.text_of(is_new_form ? "tstamps" : "tstamp"),
                                       {},
                                       {},
                                       branch.at});
    }

    /// The net's name, made up from its code as the old writers did if it has none.
    std::string name_of_net(const Branch& branch) {
        const std::string code = branch.text_of("code");
        std::string name = branch.text_of("name");
        return name.empty() && !code.empty() ? "N-" + code : name;
    }

    void read_net(const Branch& branch) {
        const std::string name = name_of_net(branch);
        if (name.empty()) {
            complain("netlist-net", "a net without a name", branch.at);
            return;
        }
        const auto [twin, is_new] = nets_.try_emplace(name, netlist_.nets.size());
        if (is_new) {
            netlist_.nets.push_back({from_kicad_name(name), false, {}, branch.at});
        } else {
            remark("net-twice", fmt::format("net '{}' is given twice; taken as one", name),
                   branch.at, {{netlist_.nets[twin->second].at, "first here"}});
        }
        for (const Branch& node : branch.branches) {
            if (node.word == "node") read_node(node, twin->second);
        }
    }

    void read_node(const Branch& branch, std::size_t net) {
        Netlist::Node node{branch.text_of("ref"), branch.text_of("pin")};
        if (node.reference.empty() || node.pad.empty()) {
            complain("netlist-node", "a node needs a reference and a pin", branch.at);
            return;
        }
        if (is_virtual(node.reference)) return;
        const auto [before, is_new] = placed_.try_emplace(node, Placed{net, branch.at});
        if (!is_new) {
            if (before->second.net != net) complain_of_short(node, net, branch.at, before->second);
            return;
        }
        give_pad(node, branch);
        Netlist::Net& here = netlist_.nets[net];
        if (branch.text_of("pintype").ends_with("no_connect")) here.unconnected = true;
        here.nodes.push_back(std::move(node));
    }

    void complain_of_short(const Netlist::Node& node, std::size_t net, const Mark& at,
                           const Placed& before) {
        complain("netlist-short",
                 fmt::format("pad {} of {} is on two nets, '{}' and '{}'", node.pad, node.reference,
                             netlist_.nets[before.net].name, netlist_.nets[net].name),
                 at, {{before.at, "first here"}});
    }

    void give_pad(const Netlist::Node& node, const Branch& branch) {
        const auto component = components_.find(node.reference);
        if (component != components_.end()) {
            netlist_.components[component->second].pads.push_back(
                {node.pad, branch.text_of("pinfunction")});
        } else if (strangers_.insert(node.reference).second) {
            remark("netlist-stranger",
                   fmt::format("'{}' is on a net but not among the components; was the netlist "
                               "cut down by hand?",
                               node.reference),
                   branch.at);
        }
    }

    Netlist netlist_;
    Findings findings_;
    std::map<std::string, std::size_t> components_;
    std::map<std::string, std::size_t> nets_;  ///< by the name as written
    std::map<Netlist::Node, Placed> placed_;
    std::set<std::string> strangers_;
};

}  // namespace

Netlist netlist_in(const Branch& root) { return TreeReader().read(root); }

}  // namespace pinfold
