// A small netlist made up for the tests: a four-way receptacle and three solder pads.
#pragma once

#include "design/netlist.hpp"

namespace pinfold {

inline Netlist buoy() {
    Netlist netlist;
    netlist.board = "buoy";
    netlist.title = "Buoy \"north\"";
    netlist.source = "buoy.yaml";
    netlist.components = {{"J1",
                           "4-way (0.5)",
                           "Buoy:FFC_4",
                           "537c77a6-755b-5b4c-a179-46da6c2f2d2f",
                           "tail",
                           {{"1", "GND"}, {"2", "D+/D-"}, {"3", ""}, {"MP1", "SHIELD"}},
                           {}},
                          {"J2",
                           "Pads",
                           "",
                           "c407f798-5e76-52ab-b542-834ba44578bd",
                           "sensor",
                           {{"1", "D+/D-"}, {"2", "GND"}},
                           {}}};
    netlist.nets = {{"D+/D-", false, {{"J1", "2"}, {"J2", "1"}}, {}},
                    {"GND", false, {{"J1", "1"}, {"J1", "MP1"}, {"J2", "2"}}, {}},
                    {"unconnected-(J1-Pad3)", true, {{"J1", "3"}}, {}}};
    return netlist;
}

/// The same with one text put in every place that takes a text.
inline Netlist buoy_named(const std::string& text) {
    Netlist netlist = buoy();
    netlist.title = netlist.source = text;
    for (Netlist::Component& component : netlist.components) {
        component.value = component.footprint = component.port = text;
        for (Netlist::Pad& pad : component.pads) pad.function = text;
    }
    netlist.components[0].reference = "J" + text;
    netlist.components[0].pads[0].label = text;
    for (Netlist::Net& net : netlist.nets) {
        net.name += text;
        for (Netlist::Node& node : net.nodes) {
            if (node.reference != "J1") continue;
            node.reference = "J" + text;
            if (node.pad == "1") node.pad = text;
        }
    }
    return netlist;
}

/// Whether `read` gives a result or a complaint; anything else is a fault of ours.
template <class Read>
bool is_answered(const Read& read) {
    try {
        read();
    } catch (const InputError& error) {
        return !error.findings().empty();
    }
    return true;
}

}  // namespace pinfold
