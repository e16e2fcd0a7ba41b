#include "exchange/kicad_tree.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "exchange/kicad_name.hpp"

namespace pinfold {
namespace {

using AttributeNames = std::vector<std::string_view>;

const std::vector<std::pair<std::string_view, AttributeNames>> attributes{
    {"export", {"version"}},
    {"sheet", {"number", "name", "tstamps"}},
    {"comment", {"number", "value"}},
    {"textvar", {"name"}},
    {"comp", {"ref"}},
    {"field", {"name"}},
    {"property", {"name", "value"}},
    {"libsource", {"lib", "part", "description"}},
    {"sheetpath", {"names", "tstamps"}},
    {"unit", {"name"}},
    {"libpart", {"lib", "part"}},
    {"pin", {"num", "name", "type"}},
    {"library", {"logical"}},
    {"net", {"code", "name", "class"}},
    {"node", {"ref", "pin", "pinfunction", "pintype"}},
};

/// Grows the tree of one netlist from top to bottom.
class NetlistTree {
public:
    explicit NetlistTree(const Netlist& netlist) : netlist_(netlist) {}

    Branch make() const {
        Branch root = branch("export", {leaf("version", "E", {})});
        root.branches.push_back(design());
        root.branches.push_back(components());
        root.branches.push_back(parts());
        root.branches.push_back(
            branch("libraries", {branch("library", {leaf("logical", library, {})})}));
        root.branches.push_back(nets());
        return root;
    }

private:
    static constexpr const char* library = "pinfold";

    static Branch branch(std::string word, std::vector<Branch> branches) {
        return {std::move(word), std::nullopt, std::move(branches), {}};
    }

    Branch design() const {
        Branch sheet = branch(
            "sheet", {leaf("number", "1", {}), leaf("name", "/", {}), leaf("tstamps", "/", {})});
        sheet.branches.push_back(branch("title_block", {leaf("title", netlist_.title, {})}));
        return branch("design", {leaf("source", netlist_.source, {}), leaf("date", "", {}),
                                 leaf("tool", "pinfold", {}), std::move(sheet)});
    }

    std::string part_of(const Netlist::Component& component) const {
        return fmt::format("{}-{}", netlist_.board, component.reference);
    }

    Branch components() const {
        Branch list = branch("components", {});
        for (const Netlist::Component& component : netlist_.components) {
            const Mark& at = component.at;
            Branch port = branch("field", {leaf("name", "Port", at)});
            port.text = leaf("port", component.port, at).text;
            list.branches.push_back(branch(
                "comp",
                {leaf("ref", component.reference, at), leaf("value", component.value, at),
                 leaf("footprint", component.footprint, at), branch("fields", {std::move(port)}),
                 branch("libsource",
                        {leaf("lib", library, at), leaf("part", part_of(component), at),
                         leaf("description", component.value, at)}),
                 branch("sheetpath", {leaf("names", "/", at), leaf("tstamps", "/", at)}),
                 leaf("tstamps", component.uuid, at)}));
        }
        return list;
    }

    /// One library part for each component, since two of a kind may bear different signals.
    Branch parts() const {
        Branch list = branch("libparts", {});
        for (const Netlist::Component& component : netlist_.components) {
            const Mark& at = component.at;
            Branch pins = branch("pins", {});
            for (const Netlist::Pad& pad : component.pads) {
                pins.branches.push_back(
                    branch("pin", {leaf("num", pad.label, at), leaf("name", pad.function, at),
                                   leaf("type", "passive", at)}));
            }
            list.branches.push_back(branch(
                "libpart",
                {leaf("lib", library, at), leaf("part", part_of(component), at), std::move(pins)}));
        }
        return list;
    }

    Branch nets() const {
        std::map<Netlist::Node, std::string> functions;
        for (const Netlist::Component& component : netlist_.components) {
            for (const Netlist::Pad& pad : component.pads) {
                functions.emplace(Netlist::Node{component.reference, pad.label}, pad.function);
            }
        }
        Branch list = branch("nets", {});
        for (const Netlist::Net& net : netlist_.nets) {
            const std::string code = std::to_string(list.branches.size() + 1);
            Branch made = branch(
                "net", {leaf("code", code, net.at), leaf("name", to_kicad_name(net.name), net.at)});
            const char* type = net.unconnected ? "passive+no_connect" : "passive";
            for (const Netlist::Node& node : net.nodes) {
                made.branches.push_back(node_branch(node, functions, type, net.at));
            }
            list.branches.push_back(std::move(made));
        }
        return list;
    }

    static Branch node_branch(const Netlist::Node& node,
                              const std::map<Netlist::Node, std::string>& functions,
                              const char* type, const Mark& at) {
        Branch made = branch("node", {leaf("ref", node.reference, at), leaf("pin", node.pad, at)});
        const auto function = functions.find(node);
        if (function != functions.end() && !function->second.empty()) {
            made.branches.push_back(leaf("pinfunction", function->second, at));
        }
        made.branches.push_back(leaf("pintype", type, at));
        return made;
    }

    const Netlist& netlist_;
};

}  // namespace

bool is_attribute(std::string_view parent, std::string_view word) {
    const auto row =
        std::ranges::find(attributes, parent, &std::pair<std::string_view, AttributeNames>::first);
    return row != attributes.end() && std::ranges::find(row->second, word) != row->second.end();
}

Branch kicad_tree(const Netlist& netlist) { return NetlistTree(netlist).make(); }

}  // namespace pinfold
