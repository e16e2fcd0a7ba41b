#include "document/table_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/shown.hpp"
#include "document/columns.hpp"
#include "document/table_words.hpp"
#include "document/text_width.hpp"

namespace pinfold {
namespace {

constexpr std::string_view tick_box = "[ ]";

/// A heading in capitals with a rule under it.
std::string heading(std::string_view text) {
    return fmt::format("\n{}\n{}\n", text,
                       std::string(static_cast<std::size_t>(display_width(text)), '-'));
}

/// A paragraph whose first line starts with `lead` and whose others stand under its text.
std::string hanging(std::string_view lead, std::string_view text) {
    const auto indent = static_cast<std::size_t>(display_width(lead));
    std::string lines = in_lines(text, std::string(indent, ' '));
    return std::string(lead) + lines.substr(std::min(indent, lines.size()));
}

std::string fact_lines(const std::vector<Fact>& facts) {
    std::string lines;
    for (const Fact& fact : facts) lines += hanging("  " + padded(fact.label, 12), fact.text);
    return lines;
}

std::string numbered(const std::vector<std::string>& items) {
    std::string lines;
    for (std::size_t i = 0; i < items.size(); ++i) {
        lines += hanging(fmt::format("{:>3}. ", i + 1), items[i]);
    }
    return lines;
}

std::string ribbon_text(const TableRibbon& ribbon) {
    std::string text =
        heading(fmt::format("Ribbon {}, from {} to {}", ribbon.name, ribbon.from, ribbon.to));
    text += "What to buy\n" + fact_lines(ribbon.buying) + fact_lines({{"Source", ribbon.source}});
    text += "End a\n" + fact_lines(ribbon.end_a) + "End b\n" + fact_lines(ribbon.end_b);
    if (!ribbon.course.empty()) text += "Between\n" + fact_lines(ribbon.course);
    text += "\nBoth ends seen from above, not to scale ('>' or '<' at contact 1)\n\n";
    for (const std::string& line : draw_in_text(ribbon.view)) {
        text += line.empty() ? "\n" : fmt::format("  {}\n", line);
    }
    Rows rows{{"No.", "Signal", "Mark", "From (end a)", "To (end b)", "Done"}};
    for (std::size_t i = 0; i < ribbon.rows.size(); ++i) {
        const TableRow& row = ribbon.rows[i];
        rows.push_back({fmt::format("{:>3}", i + 1), row.signal, mark_and_fault(row), row.from,
                        row.to, std::string(tick_box)});
    }
    return text + "\n" + in_columns(rows, "  ");
}

std::string lead_text(const std::vector<TableLead>& leads) {
    if (leads.empty()) return {};
    Rows rows{{"Lead", "Gauge", "Colour", "Length", "Signal", "Mark", "From", "To", "Done"}};
    for (const TableLead& lead : leads) {
        rows.push_back({lead.name, lead.gauge, lead.colour, in_words(lead.length), lead.row.signal,
                        mark_and_fault(lead.row), lead.row.from, lead.row.to,
                        std::string(tick_box)});
    }
    return heading("Leads") + in_columns(rows, "  ");
}

}  // namespace

std::string to_text(const WiringTable& table) {
    std::string text = fmt::format("Wiring table: {}\n{}\n", table.title, table.file);
    if (!table.warnings.empty()) text += "\n";
    for (const std::string& warning : table.warnings) text += hanging("!! ", warning);
    if (!table.promises.empty()) text += "\n";
    for (const std::string& promise : table.promises) text += hanging("- ", promise);
    text += heading("Before you start") + numbered(table.first);
    if (!table.cautions.empty()) text += heading("Cautions") + numbered(table.cautions);
    for (const TableRibbon& ribbon : table.ribbons) text += ribbon_text(ribbon);
    text += lead_text(table.leads);
    return shown_page(text + "\n" + in_lines(table.closing + "."));
}

}  // namespace pinfold
