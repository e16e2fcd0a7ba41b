#include "order/new_end.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "order/paste.hpp"

namespace pinfold {
namespace {

bool same(Millimetres one, Millimetres other) {
    return std::abs(one.value() - other.value()) < 1e-6;
}

int contacts_of(const Connector& connector) { return static_cast<int>(connector.contacts.size()); }

/// The flat ribbon that goes into a connector.
const RibbonType& fitting_ribbon(const Connector& connector, Library& library) {
    for (const std::string& id : library.names(PinMapKind::ribbon)) {
        const RibbonType& type = library.ribbon(id, Mark{});
        if (type.kind == RibbonKind::flat && same(type.pitch, connector.pitch) &&
            type.conductors.holds(contacts_of(connector))) {
            return type;
        }
    }
    refuse("new-ribbon",
           fmt::format("no ribbon of the library fits {}: {} contacts, {:g} mm pitch", connector.id,
                       contacts_of(connector), connector.pitch.value()));
}

/// What the other end calls the signal on each contact.
std::vector<std::string> facing_signals(const Connector& connector, const Interface& interface) {
    std::vector<std::string> names;
    for (const Contact& contact : connector.contacts) {
        names.push_back(contact.signal
                            ? interface.signals[interface.counterpart[*contact.signal]].name
                            : "open");
    }
    return names;
}

}  // namespace

const ReceptacleType& fitting_receptacle(const RibbonType& ribbon, int conductors,
                                         Library& library) {
    for (const std::string& id : library.names(PinMapKind::receptacle)) {
        const ReceptacleType& type = library.receptacle(id, Mark{});
        // A round ribbon has half the pitch of its socket of two rows.
        const bool fits = type.takes == ribbon.kind && type.positions.holds(conductors) &&
                          same(type.pitch, ribbon.pitch) && type.side == ContactSide::bottom &&
                          type.entry == Entry::right_angle;
        const bool fits_round = type.takes == RibbonKind::round &&
                                ribbon.kind == RibbonKind::round &&
                                type.positions.holds(conductors);
        if (fits || fits_round) return type;
    }
    refuse("new-receptacle",
           fmt::format("no receptacle takes {} with {} conductors", ribbon.id, conductors));
}

NewEnd new_end(const Connector& connector, const Interface& interface, bool is_near,
               const RibbonType& ribbon, int conductors, Library& library) {
    NewEnd end;
    end.is_near = is_near;
    end.connector = &connector;
    end.receptacle = &fitting_receptacle(ribbon, conductors, library);
    if (!connector.takes_ribbon) return end;
    const bool fits = ribbon.kind == RibbonKind::flat && same(ribbon.pitch, connector.pitch) &&
                      conductors == contacts_of(connector);
    const std::string& meant = is_near ? interface.first_end : interface.second_end;
    const bool is_other_end = !connector.end.empty() && connector.end != meant;
    if (fits) {
        end.kind = is_other_end ? NewEndKind::own : NewEndKind::straight;
        return end;
    }
    if (is_other_end) {
        refuse("new-connector",
               fmt::format("{} is a connector of the {} end; at the {} end only a ribbon that goes "
                           "straight into it ({} conductors, {:g} mm pitch) tells what is wanted",
                           connector.id, connector.end, meant, contacts_of(connector),
                           connector.pitch.value()));
    }
    end.kind = NewEndKind::bridged;
    end.link = &fitting_ribbon(connector, library);
    end.mouth = &fitting_receptacle(*end.link, contacts_of(connector), library);
    return end;
}

std::string device_lines(const NewEnd& end, const Interface& interface) {
    const Connector& connector = *end.connector;
    const std::string id = connector.id;
    if (end.kind == NewEndKind::plugged) {
        return fmt::format("  {}: {{ports: {{port: {} receptacle}}}}\n", end.device(), id);
    }
    if (end.kind == NewEndKind::own) {
        return fmt::format(
            "  # {1} is for the {2} end. This is a board of your own at the {3} end, its "
            "receptacle\n"
            "  # wired to meet that row contact by contact; put in what yours has.\n"
            "  {0}:\n"
            "    ports:\n"
            "      port:\n"
            "        interface: {4}\n"
            "        receptacle: {5}\n"
            "        positions: {6}\n"
            "        first-contact: left\n"
            "        signals: {7}\n",
            end.device(), id, connector.end,
            end.is_near ? interface.first_end : interface.second_end, interface.id,
            end.receptacle->id, contacts_of(connector),
            list_text(facing_signals(connector, interface), 17, 18));
    }
    const ReceptacleType& mouth = end.mouth ? *end.mouth : *end.receptacle;
    return fmt::format(
        "  # A ribbon goes straight into this board: its pin map fixes the order there.\n"
        "  {}:\n"
        "    ports:\n"
        "      port: {{connector: {} receptacle, receptacle: {}, first-contact: left}}\n",
        end.device(), id, mouth.id);
}

std::string board_lines(const NewEnd& end, int conductors) {
    if (!end.has_board()) return {};
    std::string text = fmt::format("  {}:\n    ports:\n", end.board());
    if (end.kind == NewEndKind::plugged) {
        text +=
            fmt::format("      plug: {{connector: {} plug, reference: J1}}\n", end.connector->id);
    } else {
        text += fmt::format(
            "      # With contact 1 on the other hand than that of the tail's, both rows count "
            "the\n"
            "      # same way across the board, so that no trace needs to cross another.\n"
            "      out:\n"
            "        connector: {} receptacle\n"
            "        receptacle: {}\n"
            "        first-contact: right\n"
            "        reference: J1\n",
            end.connector->id, end.mouth->id);
    }
    return text + fmt::format(
                      "      tail:\n"
                      "        receptacle: {}\n"
                      "        positions: {}\n"
                      "        first-contact: left\n"
                      "        reference: J2\n"
                      "        wired: best\n",
                      end.receptacle->id, conductors);
}

std::string link_lines(const NewEnd& end) {
    if (end.kind != NewEndKind::bridged) return {};
    return ribbon_lines(end.link_name(), *end.link, contacts_of(*end.connector), 60.0, true);
}

std::string join_lines(const NewEnd& end) {
    const std::string device = end.device(), board = end.board();
    const auto at_strap = [&](const std::string& port) {
        return end.is_near ? fmt::format("- {} + strap.a\n", port)
                           : fmt::format("- strap.b + {}\n", port);
    };
    if (!end.has_board()) return at_strap(device + ".port");
    const std::string tail = at_strap(board + ".tail");
    std::string beyond;
    if (end.kind == NewEndKind::plugged) {
        beyond = end.is_near ? fmt::format("- {}.port + {}.plug\n", device, board)
                             : fmt::format("- {}.plug + {}.port\n", board, device);
    } else {
        const std::string link = end.link_name();
        beyond = end.is_near
                     ? fmt::format("- {0}.port + {2}.a\n- {2}.b + {1}.out\n", device, board, link)
                     : fmt::format("- {1}.out + {2}.b\n- {2}.a + {0}.port\n", device, board, link);
    }
    return end.is_near ? beyond + tail : tail + beyond;
}

std::string ribbon_lines(const std::string& name, const RibbonType& ribbon, int conductors,
                         double least_mm, bool turned) {
    double length_mm = least_mm;
    for (const Millimetres stock : ribbon.stock_lengths) {
        if (stock.value() >= least_mm) {
            length_mm = stock.value();
            break;
        }
    }
    std::string text = fmt::format(
        "  {}:\n    type: {}\n    conductors: {}\n    length: {:g} mm   # put in your own\n", name,
        ribbon.id, conductors, length_mm);
    if (ribbon.kind == RibbonKind::round) return text + "    sockets: same-edge\n";
    return text + fmt::format(
                      "    # Copper on {0} brings conductor 1 to contact 1 at both ends, so that\n"
                      "    # neither board has to cross its traces.\n"
                      "    copper: {1}\n"
                      "    # Straight from board to board; the far one lies with its parts {2}. "
                      "Change\n"
                      "    # this to how yours run, and `pinfold check` says whether the copper "
                      "touches.\n"
                      "    lay: [straight]\n"
                      "    faces: {{a: up, b: {3}}}\n",
                      turned ? "one face" : "opposite faces",
                      turned ? "same-side" : "opposite-side", turned ? "upwards" : "downwards",
                      turned ? "up" : "down");
}

}  // namespace pinfold
