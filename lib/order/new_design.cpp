#include "order/new_design.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "order/new_end.hpp"

namespace pinfold {
namespace {

/// A connector for an interface that it carries.
const Connector& usable_connector(const std::string& id, const Interface& interface,
                                  Library& library) {
    const Connector& connector = library.connector(id, Mark{});
    const bool carries =
        connector.interface == interface.id ||
        std::ranges::find(interface.also_on, connector.interface) != interface.also_on.end();
    if (!carries) {
        refuse("new-connector", fmt::format("{} is a connector of {}, not of {}", id,
                                            connector.interface, interface.id));
    }
    return connector;
}

std::string carry_lines(const NewDesign& wanted, const Interface& interface) {
    std::string text =
        fmt::format("- {{interface: {}, from: one.port, to: other.port", interface.id);
    if (interface.limits.size() > 1) {
        text.insert(0, "# The rate is the lowest there are limits for; put in your own.\n");
    }
    if (!interface.limits.empty()) {
        text += fmt::format(", rate: {:g} Gbit/s", interface.limits.front().up_to.value());
    }
    if (!wanted.current_a) return text + "}\n";
    return "# The current is less than the interface allows: for more, this ribbon has too few\n"
           "# conductors.\n" +
           text + fmt::format(", current: {:g} A}}\n", *wanted.current_a);
}

/// What is to be known about the boards and the order on the ribbon.
std::string boards_part(const std::string& boards, bool all_plugs) {
    if (boards.empty()) {
        return "\n# No board is to be made: both ends of the ribbon are fixed, and with them its "
               "order.\n";
    }
    return fmt::format(
        "\n"
        "# The adapters to be made. `wired` says what each contact of the ribbon's receptacle is\n"
        "# wired to, contact 1 first; the {} is wired as its pin map says. Take the side of\n"
        "# contact 1 from the drawing of the part (look into its mouth, board below).\n"
        "boards:\n{}",
        all_plugs ? "plug" : "other port", boards);
}

}  // namespace

std::string new_design_text(const NewDesign& wanted, Library& library) {
    const Interface& interface = library.interface(wanted.interface, Mark{});
    const Connector& a = usable_connector(wanted.connector_a, interface, library);
    const Connector& b = usable_connector(wanted.connector_b, interface, library);
    const RibbonType& ribbon = library.ribbon(wanted.ribbon, Mark{});
    if (!ribbon.conductors.holds(wanted.conductors)) {
        refuse("conductors-made",
               fmt::format("{} is made with {} to {} conductors, not {}", ribbon.id,
                           ribbon.conductors.least, ribbon.conductors.most, wanted.conductors));
    }
    const NewEnd one = new_end(a, interface, true, ribbon, wanted.conductors, library);
    const NewEnd other = new_end(b, interface, false, ribbon, wanted.conductors, library);
    const bool all_plugs = one.kind == NewEndKind::plugged && other.kind == NewEndKind::plugged;
    return fmt::format(
        "# {} from {} to {} over {} conductors of {}.\n"
        "#\n"
        "# Compare the pin maps and the receptacle with the data sheets of your parts before you\n"
        "# have a board made; `pinfold pinmap NAME` shows each with its source.\n"
        "pinfold: 1\n"
        "title: {} over a ribbon\n"
        "\n"
        "# The {} at both ends.\n"
        "devices:\n{}{}"
        "{}"
        "\n"
        "ribbons:\n{}{}{}"
        "\n"
        "joins:\n{}{}"
        "\n"
        "# What is promised, and proved by `pinfold check`.\n"
        "carry:\n{}",
        interface.name, a.id, b.id, wanted.conductors, ribbon.id, interface.name,
        all_plugs ? "finished devices" : "boards", device_lines(one, interface),
        device_lines(other, interface),
        boards_part(board_lines(one, wanted.conductors) + board_lines(other, wanted.conductors),
                    all_plugs),
        ribbon_lines("strap", ribbon, wanted.conductors, 100.0, false), link_lines(one),
        link_lines(other), join_lines(one), join_lines(other), carry_lines(wanted, interface));
}

}  // namespace pinfold
