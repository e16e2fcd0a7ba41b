#include "order/new_design.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace pinfold {
namespace {

[[noreturn]] void refuse(const char* rule, std::string text) {
    throw InputError({{Severity::error, rule, std::move(text), Mark{}}});
}

/// A connector whose plug an adapter can bear, for an interface it carries.
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
    if (connector.takes_ribbon) {
        refuse("new-connector",
               fmt::format("a ribbon goes straight into {}; a new design joins connectors that "
                           "take a plug",
                           id));
    }
    return connector;
}

/// A receptacle for the ribbon: of the right pitch and size, with contacts on one known side.
const ReceptacleType& fitting_receptacle(const RibbonType& ribbon, int conductors,
                                         Library& library) {
    for (const std::string& id : library.names(PinMapKind::receptacle)) {
        const ReceptacleType& type = library.receptacle(id, Mark{});
        // A round ribbon has half the pitch of its socket of two rows.
        const double pitch = type.pitch.value();
        const bool fits = type.takes == ribbon.kind && type.positions.holds(conductors) &&
                          std::abs(pitch - ribbon.pitch.value()) < 1e-6 &&
                          type.side == ContactSide::bottom && type.entry == Entry::right_angle;
        const bool fits_round = type.takes == RibbonKind::round &&
                                ribbon.kind == RibbonKind::round &&
                                type.positions.holds(conductors);
        if (fits || fits_round) return type;
    }
    refuse("new-receptacle",
           fmt::format("no receptacle takes {} with {} conductors", ribbon.id, conductors));
}

std::string ribbon_lines(const RibbonType& ribbon, int conductors) {
    double length_mm = 100.0;
    for (const Millimetres stock : ribbon.stock_lengths) {
        if (stock.value() >= 100.0) {
            length_mm = stock.value();
            break;
        }
    }
    std::string text = fmt::format(
        "  strap:\n    type: {}\n    conductors: {}\n    length: {:g} mm   # put in your own\n",
        ribbon.id, conductors, length_mm);
    if (ribbon.kind == RibbonKind::round) {
        return text + "    sockets: same-edge\n";
    }
    return text +
           "    # Copper on opposite faces brings conductor 1 to contact 1 at both ends, so that\n"
           "    # neither board has to cross its traces.\n"
           "    copper: opposite-side\n"
           "    # Straight from board to board; the far one lies with its parts downwards. Change\n"
           "    # this to how yours run, and `pinfold check` says whether the copper touches.\n"
           "    lay: [straight]\n"
           "    faces: {a: up, b: down}\n";
}

std::string board_lines(const std::string& name, const Connector& connector,
                        const ReceptacleType& receptacle, int conductors) {
    return fmt::format(
        "  {}:\n"
        "    ports:\n"
        "      plug: {{connector: {} plug, reference: J1}}\n"
        "      tail:\n"
        "        receptacle: {}\n"
        "        positions: {}\n"
        "        first-contact: left\n"
        "        reference: J2\n"
        "        wired: best\n",
        name, connector.id, receptacle.id, conductors);
}

std::string carry_lines(const NewDesign& wanted, const Interface& interface) {
    std::string text =
        fmt::format("- {{interface: {}, from: one.port, to: other.port", interface.id);
    if (!interface.limits.empty()) {
        text += fmt::format(", rate: {:g} Gbit/s", interface.limits.front().up_to.value());
    }
    if (!wanted.current_a) return text + "}\n";
    return "# The current is less than the interface allows: for more, this ribbon has too few\n"
           "# conductors.\n" +
           text + fmt::format(", current: {:g} A}}\n", *wanted.current_a);
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
    const ReceptacleType& receptacle = fitting_receptacle(ribbon, wanted.conductors, library);
    return fmt::format(
        "# {} from {} to {} over {} conductors of {}.\n"
        "#\n"
        "# Compare the pin maps and the receptacle with the data sheets of your parts before you\n"
        "# have a board made; `pinfold pinmap NAME` shows each with its source.\n"
        "pinfold: 1\n"
        "title: {} over a ribbon\n"
        "\n"
        "# The finished devices at both ends.\n"
        "devices:\n"
        "  one: {{ports: {{port: {} receptacle}}}}\n"
        "  other: {{ports: {{port: {} receptacle}}}}\n"
        "\n"
        "# The adapters to be made. `wired` says what each contact of the ribbon's receptacle is\n"
        "# wired to, contact 1 first; the plug is wired as its pin map says. Take the side of\n"
        "# contact 1 from the drawing of the part (look into its mouth, board below).\n"
        "boards:\n{}{}"
        "\n"
        "ribbons:\n{}"
        "\n"
        "joins:\n"
        "- one.port + near.plug\n"
        "- near.tail + strap.a\n"
        "- strap.b + far.tail\n"
        "- far.plug + other.port\n"
        "\n"
        "# What is promised, and proved by `pinfold check`.\n"
        "carry:\n{}",
        interface.name, a.id, b.id, wanted.conductors, ribbon.id, interface.name, a.id, b.id,
        board_lines("near", a, receptacle, wanted.conductors),
        board_lines("far", b, receptacle, wanted.conductors),
        ribbon_lines(ribbon, wanted.conductors), carry_lines(wanted, interface));
}

}  // namespace pinfold
