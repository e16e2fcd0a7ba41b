#include <fmt/format.h>

#include "base/ascii.hpp"
#include "base/shown.hpp"
#include "document/table_text.hpp"
#include "document/table_words.hpp"

namespace pinfold {
namespace {

using Cells = std::vector<std::string>;

/// Where a text would open a list, a heading, a rule or a ruled-off heading: the place of the
/// character to be disarmed.
std::size_t opener_at(std::string_view text) {
    if (text.empty()) return std::string_view::npos;
    if (std::string_view("+-#=").find(text.front()) != std::string_view::npos) return 0;
    std::size_t digits = 0;
    while (digits < text.size() && is_digit(text[digits])) ++digits;
    const bool list =
        digits > 0 && digits < text.size() && (text[digits] == '.' || text[digits] == ')');
    return list ? digits : std::string_view::npos;
}

std::string table_line(const Cells& cells, bool escaped = true) {
    std::string line = "|";
    for (const std::string& cell : cells) {
        line += fmt::format(" {} |", escaped ? markdown_text(cell) : cell);
    }
    return line + "\n";
}

std::string table_head(const Cells& names) {
    return table_line(names) + table_line(Cells(names.size(), "---"), false);
}

std::string fact_list(std::string_view name, const std::vector<Fact>& facts) {
    if (facts.empty()) return {};
    std::string text = fmt::format("**{}**\n\n", name);
    for (const Fact& fact : facts) {
        text += fmt::format("- {}: {}\n", markdown_text(fact.label), markdown_text(fact.text));
    }
    return text + "\n";
}

std::string numbered_items(const std::vector<std::string>& items) {
    std::string text;
    for (std::size_t i = 0; i < items.size(); ++i) {
        text += fmt::format("{}. {}\n", i + 1, markdown_text(items[i]));
    }
    return text + "\n";
}

std::string drawing(const RibbonView& view) {
    std::string text = "Both ends seen from above, not to scale (`>` or `<` at contact 1):\n\n";
    for (const std::string& line : draw_in_text(view)) {
        text += line.empty() ? "\n" : fmt::format("    {}\n", line);
    }
    return text + "\n";
}

std::string ribbon_part(const TableRibbon& ribbon) {
    std::string text = fmt::format("## Ribbon {}, from {} to {}\n\n", markdown_text(ribbon.name),
                                   markdown_text(ribbon.from), markdown_text(ribbon.to));
    std::vector<Fact> buying = ribbon.buying;
    buying.push_back({"Source", ribbon.source});
    text += fact_list("What to buy", buying) + fact_list("End a", ribbon.end_a) +
            fact_list("End b", ribbon.end_b) + fact_list("Between", ribbon.course) +
            drawing(ribbon.view);
    text += table_head({"No.", "Signal", "Mark", "From (end a)", "To (end b)", "Done"});
    for (std::size_t i = 0; i < ribbon.rows.size(); ++i) {
        const TableRow& row = ribbon.rows[i];
        text += table_line(
            {std::to_string(i + 1), row.signal, mark_and_fault(row), row.from, row.to, "[ ]"});
    }
    return text + "\n";
}

std::string lead_part(const std::vector<TableLead>& leads) {
    if (leads.empty()) return {};
    std::string text = "## Leads\n\n" + table_head({"Lead", "Gauge", "Colour", "Length", "Signal",
                                                    "Mark", "From", "To", "Done"});
    for (const TableLead& lead : leads) {
        text +=
            table_line({lead.name, lead.gauge, lead.colour, in_words(lead.length), lead.row.signal,
                        mark_and_fault(lead.row), lead.row.from, lead.row.to, "[ ]"});
    }
    return text + "\n";
}

}  // namespace

std::string markdown_text(std::string_view text) {
    const std::size_t opener = opener_at(text);
    std::string escaped;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool special =
            std::string_view("\\|*_<>[]&~$`").find(text[i]) != std::string_view::npos;
        if (special || i == opener) escaped += '\\';
        escaped += text[i];
    }
    return escaped;
}

std::string to_markdown(const WiringTable& table) {
    std::string text = fmt::format("# Wiring table: {}\n\n{}\n\n", markdown_text(table.title),
                                   markdown_text(table.file));
    for (const std::string& warning : table.warnings) {
        text += fmt::format("> **{}**\n\n", markdown_text(warning));
    }
    for (const std::string& promise : table.promises) {
        text += fmt::format("- {}\n", markdown_text(promise));
    }
    text += "\n## Before you start\n\n" + numbered_items(table.first);
    if (!table.cautions.empty()) text += "## Cautions\n\n" + numbered_items(table.cautions);
    for (const TableRibbon& ribbon : table.ribbons) text += ribbon_part(ribbon);
    return shown_page(text + lead_part(table.leads) + markdown_text(table.closing) + ".\n");
}

}  // namespace pinfold
