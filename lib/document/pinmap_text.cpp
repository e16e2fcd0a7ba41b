#include "document/pinmap_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/shown.hpp"
#include "document/columns.hpp"
#include "pinmap/doubt.hpp"

namespace pinfold {
namespace {

std::string signal_text(const Contact& contact, const Interface& interface) {
    if (contact.absent) return "no metal";
    return contact.signal ? interface.signals[*contact.signal].name : "open";
}

std::vector<std::string> contact_row(const Contact& contact, const Interface& interface) {
    if (!contact.signal) return {contact.label, signal_text(contact, interface)};
    const Signal& signal = interface.signals[*contact.signal];
    return {contact.label,
            signal.name,
            std::string(name_of(signal.role)),
            direction_text(signal.direction, interface),
            pair_text(*contact.signal, interface),
            signal.pair ? interface.pairs[*signal.pair].lane : ""};
}

std::string contact_table(const Connector& connector, const Interface& interface) {
    Rows rows{{"contact", "signal", "role", "direction", "pair", "lane"}};
    for (const Contact& contact : connector.contacts) {
        rows.push_back(contact_row(contact, interface));
    }
    return in_columns(rows);
}

std::string ratings(const Connector& connector) {
    std::string text = fmt::format("pitch {:.6g} mm", connector.pitch.value());
    if (connector.current) text += fmt::format(", {:.6g} A a contact", connector.current->value());
    if (connector.contact_resistance) {
        text +=
            fmt::format(", contact resistance {:.6g} ohm", connector.contact_resistance->value());
    }
    return text;
}

std::string heading(const Connector& connector, const Interface& interface) {
    std::string text = fmt::format("{}: {}\n", connector.id, connector.name);
    text += fmt::format("interface {} ({}{})\n", interface.id, interface.name,
                        connector.end.empty() ? "" : ", " + connector.end + " end only");
    text += fmt::format("{}, body {}\n{}\n",
                        connector.takes_ribbon ? "takes a flat ribbon" : "takes a plug",
                        connector.body, ratings(connector));
    return text;
}

std::string drawn(const Face& face) {
    std::size_t longest = 0, most = 0;
    for (const auto& row : face.rows) {
        most = std::max(most, row.size());
        for (const std::string& label : row) longest = std::max(longest, label.size());
    }
    const std::size_t cell = longest + 2, width = most * cell;
    std::string text = fmt::format("    +{:-<{}}+\n", "", width);
    for (const auto& row : face.rows) {
        std::string line((most - row.size()) * cell / 2, ' ');
        for (const std::string& label : row) line += fmt::format("{:^{}}", label, cell);
        text += fmt::format("    |{:<{}}|\n", line, width);
    }
    return text + fmt::format("    +{:-<{}}+\n", "", width);
}

std::string face_text(const Connector& connector) {
    if (!connector.face) return {};
    return "\nMating face, looking into the receptacle (into the plug: left and right "
           "exchanged):\n" +
           drawn(*connector.face) +
           in_lines("source of the face: " + connector.face->source, "    ");
}

/// The contacts that are something else on the plug.
std::string plug_text(const Connector& connector, const Interface& interface) {
    Rows rows;
    for (const Contact& contact : connector.contacts) {
        const Contact& plug = connector.plug_contacts[contact.number.index()];
        if (plug.signal == contact.signal && plug.absent == contact.absent) continue;
        rows.push_back({contact.label, signal_text(plug, interface),
                        fmt::format("(receptacle: {})", signal_text(contact, interface))});
    }
    std::string text;
    if (!rows.empty()) text += "\nWhere the plug differs:\n" + in_columns(rows, "    ");
    if (connector.flippable) {
        text +=
            "\nThe plug goes in upright or flipped; flipped, rows A and B are exchanged: the "
            "plug's A4\nmeets the receptacle's B4.\n";
    }
    return text;
}

}  // namespace

std::string direction_text(Direction direction, const Interface& interface) {
    switch (direction) {
        case Direction::forward:
            return fmt::format("{} -> {}", interface.first_end, interface.second_end);
        case Direction::back:
            return fmt::format("{} -> {}", interface.second_end, interface.first_end);
        case Direction::both: return "both ways";
        case Direction::none: return "-";
        case Direction::outward: return "given by each end, never joined";
    }
    return "";
}

std::string pair_text(std::size_t signal, const Interface& interface) {
    if (!interface.signals[signal].pair) return {};
    const Pair& pair = interface.pairs[*interface.signals[signal].pair];
    const char* part = signal == pair.plus ? "+" : signal == pair.minus ? "-" : "shield";
    return fmt::format("{} {}", pair.name, part);
}

std::string source_text(const std::string& source, const std::vector<std::string>& doubts) {
    std::string text = "\n" + in_lines("Source: " + source);
    if (doubts.empty()) return text;
    std::string list = "From memory, check before a board is made: ";
    for (const std::string& doubt : doubts) list += doubt + (&doubt == &doubts.back() ? "" : "; ");
    return text + in_lines(list);
}

std::string pinmap_list_text(const std::vector<PinMapShelf>& shelves) {
    std::string text;
    for (const PinMapShelf& shelf : shelves) {
        Rows rows;
        for (const PinMapEntry& entry : shelf.entries) rows.push_back({entry.id, entry.name});
        text += fmt::format("{}{}\n{}", text.empty() ? "" : "\n", folder_of(shelf.kind),
                            in_columns(rows, "    "));
    }
    return shown_page(text);
}

std::string connector_text(const Connector& connector, const Interface& interface) {
    std::string text = heading(connector, interface) + "\n" + contact_table(connector, interface);
    if (!connector.shell.empty()) {
        text += fmt::format("shell    {}\n", fmt::join(connector.shell, " "));
    }
    return shown_page(text + face_text(connector) + plug_text(connector, interface) +
                      source_text(connector.source, doubts_of(connector)));
}

}  // namespace pinfold
