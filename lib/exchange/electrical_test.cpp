#include "exchange/electrical_test.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace pinfold {
namespace {

constexpr std::size_t longest_net = 14, longest_reference = 6, longest_contact = 4;
constexpr std::size_t longest_full_name = 58, longest_value = 63, longest_comment = 69;

bool is_printable(std::string_view text) {
    return std::ranges::all_of(text, [](char c) { return c >= ' ' && c <= '~'; });
}

bool fits(std::string_view text, std::size_t longest) {
    return !text.empty() && text.size() <= longest && is_printable(text) &&
           text.find(' ') == std::string_view::npos;
}

/// In the file's alphabet and no longer than its columns.
std::string cut(std::string_view text, std::size_t longest) {
    std::string out(text.substr(0, longest));
    std::ranges::replace_if(
        out, [](char c) { return c < ' ' || c > '~'; }, '?');
    return out;
}

std::string parameter(std::string_view name, std::string_view value) {
    return fmt::format("P  {:<6}{}\n", name, cut(value, longest_value));
}

std::string comment_record(std::string_view text) {
    return fmt::format("C  {}\n", cut(text, longest_comment));
}

/// `N` and four digits of 36: the n-th alias.
std::string alias(std::size_t n) {
    constexpr std::string_view digits = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    std::string text = "N0000";
    for (std::size_t place = 4; place > 0 && n > 0; --place, n /= 36) text[place] = digits[n % 36];
    return text;
}

/// Thousandths of a millimetre.
long thousandths(Millimetres length) { return std::lround(length.value() * 1000.0); }

struct Pad {
    PlacedPad pad;
    const Placing* placing = nullptr;
};

const Port* port_of(const Board& board, const Netlist::Component& component) {
    const auto found = std::ranges::find(board.ports, component.port, &Port::name);
    return found == board.ports.end() ? nullptr : &*found;
}

std::map<std::string, Pad> places_on(const Port& port) {
    std::map<std::string, Pad> places;
    if (!port.placing) return places;
    for (PlacedPad& pad : on_board(*port.placing)) {
        const std::string label = pad.label;
        places[label] = {std::move(pad), &*port.placing};
    }
    return places;
}

Finding unplaced_contacts(const Port& port, const std::vector<std::string>& labels) {
    if (!port.placing) {
        return {Severity::error, "pad-unplaced",
                fmt::format("{} does not say where its pads lie; write such as "
                            "'placing: {{x: 10 mm, y: 4 mm, angle: 0, side: top}}'",
                            port.name),
                port.at};
    }
    return {Severity::error, "pad-unplaced",
            fmt::format("no place is known of contact{} {} of {}; name {} in 'rows' or 'pads-at'",
                        labels.size() == 1 ? "" : "s", fmt::join(labels, ", "), port.name,
                        labels.size() == 1 ? "it" : "them"),
            port.placing->at};
}

class ElectricalTestWriter {
public:
    ElectricalTestWriter(const Netlist& netlist, const Board& board)
        : netlist_(netlist), board_(board) {}

    std::string write() {
        for (const Netlist::Component& component : netlist_.components) note(component);
        if (!findings_.empty()) throw InputError(std::move(findings_));
        name_nets();
        std::string text = head();
        for (std::size_t n = 0; n < netlist_.nets.size(); ++n) {
            for (const Netlist::Node& node : netlist_.nets[n].nodes)
                text += record(names_[n], node);
        }
        return text + "999\n";
    }

private:
    using Key = std::pair<std::string, std::string>;  ///< reference and label

    void note(const Netlist::Component& component) {
        require_columns(component.reference, longest_reference, "reference", component);
        const Port* port = port_of(board_, component);
        if (!port) return;
        for (auto& [label, pad] : places_on(*port)) {
            require_columns(label, longest_contact, "contact", component);
            require_near(pad, component);
            places_[{component.reference, label}] = pad;
        }
    }

    void require_columns(const std::string& text, std::size_t longest, const char* what,
                         const Netlist::Component& component) {
        if (fits(text, longest)) return;
        findings_.push_back({Severity::error, "test-columns",
                             fmt::format("{} '{}' of {} does not fit: IPC-D-356A has {} columns of "
                                         "ASCII for it, without blanks",
                                         what, text, component.port, longest),
                             component.at});
    }

    void require_near(const Pad& pad, const Netlist::Component& component) {
        const double far = std::max(std::abs(pad.pad.x.value()), std::abs(pad.pad.y.value()));
        if (far < 999.999) return;
        findings_.push_back({Severity::error, "test-columns",
                             fmt::format("contact {} of {} lies a metre or more from the origin",
                                         pad.pad.label, component.port),
                             pad.placing->at});
    }

    /// Names that stand for themselves, an alias for each other one.
    void name_nets() {
        std::set<std::string> taken{"N/C", "VIA"};
        for (const Netlist::Net& net : netlist_.nets) taken.insert(net.name);
        std::size_t next = 0;
        for (const Netlist::Net& net : netlist_.nets) {
            const bool plain =
                fits(net.name, longest_net) && net.name != "N/C" && net.name != "VIA";
            std::string name = net.unconnected ? "N/C" : net.name;
            if (!net.unconnected && !plain) {
                do name = alias(next++);
                while (taken.contains(name));
                aliases_ += fmt::format("P  NNAME{} {}\n", name, cut(net.name, longest_full_name));
            }
            names_.push_back(std::move(name));
        }
    }

    std::string head() const {
        std::string text = parameter("JOB", netlist_.board) + parameter("CODE", "00") +
                           parameter("UNITS", "CUST 1") + parameter("TITLE", netlist_.title) +
                           parameter("NUM", netlist_.board) + parameter("VER", "IPC-D-356A");
        text += comment_record("lengths in 0.001 mm; angles in degrees, counter-clockwise");
        for (const Finding& remark : netlist_.remarks) {
            if (remark.rule == "pad-unplaced") text += comment_record(remark.text);
        }
        return text + parameter("IMAGE", "PRIMARY") + aliases_;
    }

    std::string record(const std::string& net, const Netlist::Node& node) const {
        const auto& [pad, placing] = places_.at({node.reference, node.pad});
        const std::string drill =
            placing->drill ? fmt::format("D{:04}P", four_digits(*placing->drill)) : "      ";
        const std::string access = placing->drill ? "A00" : placing->bottom ? "A02" : "A01";
        return fmt::format(
            "{}{:<14}   {:<6}-{:<4} {}{}X{:+07}Y{:+07}{}{}R{:03}\n", placing->drill ? "317" : "327",
            net, node.reference, node.pad, drill, access, thousandths(pad.x), thousandths(pad.y),
            size('X', placing->pad_width), size('Y', placing->pad_length), placing->angle);
    }

    /// A size the columns cannot hold is written as the largest they can.
    static long four_digits(Millimetres length) { return std::min(thousandths(length), 9999L); }

    static std::string size(char axis, const std::optional<Millimetres>& length) {
        return length ? fmt::format("{}{:04}", axis, four_digits(*length)) : "     ";
    }

    const Netlist& netlist_;
    const Board& board_;
    Findings findings_;
    std::map<Key, Pad> places_;
    std::vector<std::string> names_;  ///< by net, as in the records
    std::string aliases_;
};

}  // namespace

Netlist placed_part(Netlist netlist, const Board& board) {
    Findings faults;
    std::set<Netlist::Node> left_out;
    for (Netlist::Component& component : netlist.components) {
        const Port* port = port_of(board, component);
        if (!port) continue;
        const auto places = places_on(*port);
        std::vector<std::string> unplaced;
        std::erase_if(component.pads, [&](const Netlist::Pad& pad) {
            if (places.contains(pad.label)) return false;
            const bool is_shield = std::ranges::find(port->shell, pad.label) != port->shell.end();
            if (!is_shield) return unplaced.push_back(pad.label), false;
            netlist.remarks.push_back(
                {Severity::warning, "pad-unplaced",
                 fmt::format("no place is known of shield pad {} of {}; it is not tested",
                             pad.label, component.reference),
                 component.at});
            left_out.insert({component.reference, pad.label});
            return true;
        });
        if (!unplaced.empty()) faults.push_back(unplaced_contacts(*port, unplaced));
    }
    if (!faults.empty()) throw InputError(std::move(faults));
    for (Netlist::Net& net : netlist.nets) {
        std::erase_if(net.nodes, [&](const Netlist::Node& n) { return left_out.contains(n); });
    }
    return netlist;
}

std::string electrical_test(const Netlist& netlist, const Board& board) {
    return ElectricalTestWriter(netlist, board).write();
}

}  // namespace pinfold
