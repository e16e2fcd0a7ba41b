#include "exchange/pin_list.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <optional>

#include "base/fields.hpp"
#include "base/groups.hpp"
#include "base/spelling.hpp"
#include "design/adopt_port.hpp"
#include "design/promise.hpp"
#include "exchange/place_finder.hpp"
#include "exchange/sheet_lines.hpp"

namespace pinfold {
namespace {

/// The largest port there is; a ribbon's positions are counted from the list.
constexpr int largest_port = 2000;
constexpr std::size_t most_list_rows = 100'000;

/// The lines that say something, their cells without stray blanks.
std::vector<SheetLine> rows_of(const std::shared_ptr<const Source>& source) {
    Findings findings;
    SheetCutter cutter(source, findings);
    std::vector<SheetLine> rows;
    while (!cutter.at_end()) {
        SheetLine row = cutter.line();
        if (row.empty()) continue;
        if (rows.size() == most_list_rows) {
            complain(findings, "pin-list-size", "more rows than any port has", row[0].at);
            break;
        }
        for (SheetCell& cell : row) cell.text = std::string(trimmed(cell.text));
        rows.push_back(std::move(row));
    }
    if (!findings.empty()) throw InputError(std::move(findings));
    return rows;
}

bool says_open(const std::string& text) {
    constexpr std::array<std::string_view, 6> words{"", "open", "-", "nc", "NC", "N/C"};
    return std::ranges::find(words, text) != words.end();
}

/// Turns the rows into nets of pads.
class PinListReader {
public:
    PinListReader(const std::shared_ptr<const Source>& source, const std::vector<PartWords>& parts,
                  Library& library)
        : rows_(rows_of(source)), parts_(parts), library_(library) {}

    Netlist read() {
        require_two_cells();
        make_ports();
        take_heading();
        for (std::size_t r = first_; r < rows_.size(); ++r) take(rows_[r]);
        if (!findings_.empty()) throw InputError(std::move(findings_));
        return netlist();
    }

private:
    /// Two cells each; further ones may stay empty, as spreadsheets leave them.
    void require_two_cells() {
        for (SheetLine& row : rows_) {
            while (row.size() > 2 && row.back().text.empty()) row.pop_back();
            if (row.size() == 2) continue;
            complain(findings_, "pin-list-row",
                     fmt::format("a row of a pin list has two cells, such as '7,D0+', not {}",
                                 row.size()),
                     row[0].at);
        }
        if (rows_.empty()) complain(findings_, "pin-list-row", "this pin list has no rows", {});
        if (!findings_.empty()) throw InputError(std::move(findings_));
    }

    void make_ports() {
        if (parts_.size() != 2 || parts_[0].reference == parts_[1].reference) {
            throw InputError({{Severity::error, "pin-list-ports",
                               "a pin list joins two ports; name both, the first column's first, "
                               "such as --connector J1=ffc-0.50-bottom --connector J2=hdmi-a",
                               rows_[0][0].at}});
        }
        Findings assumed;  // adopt says it
        for (std::size_t p = 0; p < 2; ++p) {
            ports_.push_back(adopt_port({nullptr, highest_in(p)}, parts_[p], library_, assumed));
            first_contact_.push_back(p == 0 ? 0 : ports_[0].contacts.size());
        }
        joined_ = Groups(ports_[0].contacts.size() + ports_[1].contacts.size());
    }

    /// The highest number in the port's column, whichever column a heading gives it.
    int highest_in(std::size_t port) const {
        const std::size_t column = port ^ static_cast<std::size_t>(heading_exchanges());
        int highest = 0;
        for (const SheetLine& row : rows_) {
            const std::string& text = row[column].text;
            const bool is_number = !text.empty() && text.size() <= 4 && text[0] != '0' &&
                                   text.find_first_not_of("0123456789") == std::string::npos;
            if (is_number) highest = std::max(highest, std::stoi(text));
        }
        return std::clamp(highest, 1, largest_port);
    }

    bool heading_exchanges() const {
        return rows_[0][0].text == parts_[1].reference && rows_[0][1].text == parts_[0].reference;
    }

    void take_heading() {
        exchanged_ = heading_exchanges();
        const auto names_nothing = [&](std::size_t column) {
            return find(port_of(column), rows_[0][column].text).empty();
        };
        const bool says_references = exchanged_ || (rows_[0][0].text == parts_[0].reference &&
                                                    rows_[0][1].text == parts_[1].reference);
        const bool is_blank = says_open(rows_[0][0].text) || says_open(rows_[0][1].text);
        if (!says_references && (is_blank || !names_nothing(0) || !names_nothing(1))) return;
        first_ = 1;
        netlist_.remarks.push_back({Severity::note, "pin-list-heading",
                                    fmt::format("taken for the heading: '{}' and '{}'",
                                                rows_[0][0].text, rows_[0][1].text),
                                    rows_[0][0].at});
    }

    std::size_t port_of(std::size_t column) const {
        return column ^ static_cast<std::size_t>(exchanged_);
    }

    bool is_any_ground(const std::string& text) const {
        const Interface& plain = library_.interface("plain", {});
        const auto signal = plain.find(text);
        return signal && is_ground(plain.signals[*signal].role);
    }

    /// The contacts a text means: the one of that label, else all that bear the signal; `GND` and
    /// the like mean every ground contact.
    std::vector<std::size_t> find(std::size_t p, const std::string& text) const {
        const AdoptedPort& port = ports_[p];
        std::vector<std::size_t> found;
        for (std::size_t i = 0; i < port.contacts.size(); ++i) {
            if (port.contacts[i].label == text) return {i};
        }
        if (!port.interface) return {};
        const auto signal = port.interface->find(text);
        const bool any_ground = is_any_ground(text);
        for (std::size_t i = 0; i < port.contacts.size(); ++i) {
            const AdoptedContact& contact = port.contacts[i];
            if (contact.absent || !contact.signal) continue;
            const bool bears_ground = is_ground(port.interface->signals[*contact.signal].role);
            if (contact.signal == signal || (any_ground && bears_ground)) found.push_back(i);
        }
        return found;
    }

    void take(const SheetLine& row) {
        std::optional<std::size_t> before;
        for (std::size_t column = 0; column < 2; ++column) {
            const std::size_t p = port_of(column);
            if (says_open(row[column].text)) continue;
            const std::vector<std::size_t> found = find(p, row[column].text);
            if (found.empty()) complain_of(row[column], p);
            for (const std::size_t contact : found) {
                const std::size_t pad = first_contact_[p] + contact;
                marks_.try_emplace(pad, row[column].at);
                if (before) joined_.join(pad, *before);
                before = pad;
            }
        }
        if (says_open(row[0].text) && says_open(row[1].text)) {
            complain(findings_, "pin-list-row", "this row names no contact", row[0].at);
        }
    }

    void complain_of(const SheetCell& cell, std::size_t p) {
        const AdoptedPort& port = ports_[p];
        std::vector<std::string> known;
        for (const AdoptedContact& contact : port.contacts) known.push_back(contact.label);
        if (port.interface) {
            for (const Signal& signal : port.interface->signals) known.push_back(signal.name);
        }
        complain(findings_, "contact-unknown",
                 fmt::format("{} ({}) has no contact{} '{}'{}", port.reference, parts_[p].words,
                             port.interface ? " or signal" : "", cell.text,
                             did_you_mean(cell.text, known)),
                 cell.at);
    }

    Netlist netlist() {
        std::map<std::size_t, std::size_t> net_of;
        for (std::size_t p = 0; p < 2; ++p) {
            Netlist::Component part;
            part.reference = ports_[p].reference;
            netlist_.components.push_back(std::move(part));
        }
        for (const auto& [pad, at] : marks_) {
            const std::size_t p = pad < first_contact_[1] ? 0 : 1;
            const AdoptedContact& contact = ports_[p].contacts[pad - first_contact_[p]];
            const auto [net, is_new] =
                net_of.try_emplace(joined_.first_of(pad), netlist_.nets.size());
            if (is_new) netlist_.nets.emplace_back();
            netlist_.nets[net->second].nodes.push_back({ports_[p].reference, contact.label, at});
            netlist_.components[p].pads.push_back({contact.label, {}});
            if (!netlist_.components[p].at.source) netlist_.components[p].at = at;
        }
        return std::move(netlist_);
    }

    std::vector<SheetLine> rows_;
    const std::vector<PartWords>& parts_;
    Library& library_;
    Findings findings_;
    std::vector<AdoptedPort> ports_;
    std::vector<std::size_t> first_contact_;  ///< of each port among all pads
    Groups joined_{0};
    std::map<std::size_t, Mark> marks_;  ///< of the pads the list names
    std::size_t first_ = 0;
    bool exchanged_ = false;
    Netlist netlist_;
};

}  // namespace

bool is_pin_list(const Source& source) {
    std::string_view body = body_of(source);
    while (body.starts_with('#') || body.starts_with('\r') || body.starts_with('\n')) {
        const std::size_t remark = std::min(body.find_first_of("\r\n"), body.size());
        body.remove_prefix(std::max<std::size_t>(remark, 1));
    }
    const std::string_view line = body.substr(0, body.find_first_of("\r\n"));
    if (line.empty() || line[0] == '(' || line[0] == '<') return false;
    if (line.starts_with("C ") || line.starts_with("P ")) return false;
    const bool is_record =
        line.size() > 3 &&
        line.substr(0, 3).find_first_not_of("0123456789") == std::string_view::npos &&
        line[3] != ',' && line[3] != ';';
    return !is_record && line.find_first_of(",;") != std::string_view::npos;
}

Netlist read_pin_list(const std::shared_ptr<const Source>& source,
                      const std::vector<PartWords>& parts, Library& library) {
    require_plain_text(source);
    return PinListReader(source, parts, library).read();
}

}  // namespace pinfold
