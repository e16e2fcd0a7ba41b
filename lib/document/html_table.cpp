#include "document/html_table.hpp"

#include <fmt/format.h>

#include "document/html.hpp"
#include "document/html_style.hpp"
#include "document/table_words.hpp"

namespace pinfold {
namespace {

void add_head(pugi::xml_node main, const WiringTable& table) {
    pugi::xml_node title = add_element(main, "h1");
    add_element(title, "span", "Wiring table", "kind");
    title.append_child(pugi::node_pcdata).set_value(table.title.c_str());
    add_element(main, "p", "Made from " + table.file, "file");
    for (const std::string& warning : table.warnings) add_element(main, "p", warning, "loud");
    if (!table.promises.empty()) {
        const pugi::xml_node promises = add_element(main, "ul");
        for (const std::string& promise : table.promises) add_element(promises, "li", promise);
    }
}

void add_steps(pugi::xml_node parent, const char* heading, const std::vector<std::string>& steps) {
    if (steps.empty()) return;
    add_element(parent, "h2", heading);
    const pugi::xml_node list = add_element(parent, "ol");
    for (const std::string& step : steps) add_element(list, "li", step + ".");
}

void add_facts(pugi::xml_node parent, const std::vector<Fact>& facts, const char* style_class) {
    if (facts.empty()) return;
    const pugi::xml_node list = add_element(parent, "dl", {}, style_class);
    for (const Fact& fact : facts) {
        const pugi::xml_node pair = add_element(list, "div");
        add_element(pair, "dt", fact.label);
        add_element(pair, "dd", fact.text);
    }
}

void add_part(pugi::xml_node parent, const char* heading, const std::vector<Fact>& facts,
              const char* style_class) {
    const pugi::xml_node part = add_element(parent, "section", {}, "part");
    add_element(part, "h3", heading);
    add_facts(part, facts, style_class);
}

void add_table_head(pugi::xml_node table, std::initializer_list<const char*> names) {
    const pugi::xml_node row = add_element(add_element(table, "thead"), "tr");
    for (const std::string_view name : names) {
        const std::string_view style = name == "No." ? "number" : name == "Done" ? "done" : "";
        add_element(row, "th", name, style).append_attribute("scope") = "col";
    }
}

pugi::xml_node add_row(pugi::xml_node body, const TableRow& row, const std::string& name,
                       const char* style_class) {
    const pugi::xml_node line = add_element(body, "tr", {},
                                            !row.fault.empty() ? "fault"
                                            : row.supply       ? "supply"
                                            : row.paired       ? "pair"
                                                               : "");
    add_element(line, "th", name, style_class).append_attribute("scope") = "row";
    return line;
}

/// Signal, mark, the two ends and a box to tick.
void add_cells(pugi::xml_node line, const TableRow& row, const std::string& label) {
    for (const std::string& text : {row.signal, mark_and_fault(row), row.from, row.to}) {
        add_element(line, "td", text);
    }
    pugi::xml_node box = add_element(add_element(line, "td", {}, "done"), "input");
    box.append_attribute("type") = "checkbox";
    box.append_attribute("aria-label") = label.c_str();
}

void add_drawing(pugi::xml_node parent, const TableRibbon& ribbon) {
    const pugi::xml_node figure = add_element(parent, "figure");
    draw_in_svg(figure, ribbon.view, "ribbon-" + ribbon.name);
    add_element(
        figure, "figcaption",
        ribbon.view.a.copper == CopperView::sockets
            ? "Seen from above, not to scale. The thick line is the marked edge, the arrow "
              "stands at contact 1."
            : "Seen from above, not to scale. Black bars: copper towards you. Dashed, under "
              "a hatched stiffener: copper on the far face. The thick line is the marked "
              "edge, the arrow stands at contact 1.");
}

void add_ribbon_table(pugi::xml_node parent, const TableRibbon& ribbon) {
    const pugi::xml_node table = add_element(parent, "table");
    add_element(table, "caption",
                fmt::format("Ribbon {}: {}, counted from the marked edge", ribbon.name,
                            counted(ribbon.rows.size(), "conductor")));
    add_table_head(table, {"No.", "Signal", "Mark", "From (end a)", "To (end b)", "Done"});
    const pugi::xml_node body = add_element(table, "tbody");
    for (std::size_t i = 0; i < ribbon.rows.size(); ++i) {
        const std::string number = std::to_string(i + 1);
        add_cells(add_row(body, ribbon.rows[i], number, "number"), ribbon.rows[i],
                  fmt::format("{} conductor {} done", ribbon.name, number));
    }
}

/// What to buy, how it goes in, the drawing, the rows.
void add_ribbon(pugi::xml_node main, const TableRibbon& ribbon) {
    const pugi::xml_node heading = add_element(main, "h2", "Ribbon " + ribbon.name);
    add_element(heading, "span", fmt::format(" from {} to {}", ribbon.from, ribbon.to), "way");
    add_part(main, "What to buy", ribbon.buying, "buy");
    const pugi::xml_node ends = add_element(main, "div", {}, "ends");
    add_part(ends, "End a", ribbon.end_a, "seat");
    add_part(ends, "End b", ribbon.end_b, "seat");
    add_facts(main, ribbon.course, "course");
    add_element(main, "p", "Source of the ribbon's figures: " + ribbon.source, "source");
    add_drawing(main, ribbon);
    add_ribbon_table(main, ribbon);
}

void add_leads(pugi::xml_node main, const std::vector<TableLead>& leads) {
    if (leads.empty()) return;
    add_element(main, "h2", "Leads");
    const pugi::xml_node table = add_element(main, "table");
    add_element(table, "caption", "Loose wires, " + counted(leads.size(), "lead"));
    add_table_head(table,
                   {"Lead", "Gauge", "Colour", "Length", "Signal", "Mark", "From", "To", "Done"});
    const pugi::xml_node body = add_element(table, "tbody");
    for (const TableLead& lead : leads) {
        const pugi::xml_node line = add_row(body, lead.row, lead.name, "");
        for (const std::string& text : {lead.gauge, lead.colour, in_words(lead.length)}) {
            add_element(line, "td", text);
        }
        add_cells(line, lead.row, fmt::format("lead {} done", lead.name));
    }
}

void add_foot(pugi::xml_node main, const WiringTable& table) {
    const pugi::xml_node signed_by = add_element(main, "ul", {}, "signed");
    for (const char* what : {"Made by", "Measured by", "Date"}) add_element(signed_by, "li", what);
    add_element(main, "p", table.closing + ".", "closing");
}

}  // namespace

std::string to_html(const WiringTable& table) {
    HtmlPage page("Wiring table: " + table.title, bench_style);
    const pugi::xml_node main = page.main();
    add_head(main, table);
    add_steps(main, "Before you start", table.first);
    if (!table.cautions.empty()) {
        add_steps(add_element(main, "section", {}, "cautions"), "Cautions", table.cautions);
    }
    for (const TableRibbon& ribbon : table.ribbons) add_ribbon(main, ribbon);
    add_leads(main, table.leads);
    add_foot(main, table);
    return page.text();
}

}  // namespace pinfold
