#include "check/nets_by_part.hpp"

namespace pinfold {

NetsByPart nets_by_part(const Netlist& netlist) {
    NetsByPart parts;
    for (const Netlist::Component& part : netlist.components) parts[part.reference];
    for (std::size_t n = 0; n < netlist.nets.size(); ++n) {
        for (const Netlist::Node& node : netlist.nets[n].nodes) {
            parts[node.reference].emplace(node.pad, n);
        }
    }
    return parts;
}

}  // namespace pinfold
