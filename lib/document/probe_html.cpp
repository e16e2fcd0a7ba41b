#include <fmt/format.h>

#include "document/html.hpp"
#include "document/html_style.hpp"
#include "document/probe_sheet.hpp"

namespace pinfold {
namespace {

void add_list(pugi::xml_node parent, const char* heading, const std::vector<std::string>& items) {
    add_element(parent, "h2", heading);
    const pugi::xml_node list = add_element(parent, "ol");
    for (const std::string& item : items) add_element(list, "li", item + ".");
}

void add_section(pugi::xml_node main, const SheetSection& section) {
    const pugi::xml_node table = add_element(main, "table");
    add_element(table, "caption", section.heading);
    const pugi::xml_node head = add_element(add_element(table, "thead"), "tr");
    for (const char* name : {"No.", "From", "To", "Expect", "OK", "Measured", "Why"}) {
        add_element(head, "th", name).append_attribute("scope") = "col";
    }
    const pugi::xml_node body = add_element(table, "tbody");
    for (const SheetRow& row : section.rows) {
        const pugi::xml_node line = add_element(body, "tr");
        add_element(line, "th", row.number, "number").append_attribute("scope") = "row";
        for (const std::string& text : {row.from, row.to, row.expect}) {
            add_element(line, "td", text);
        }
        pugi::xml_node box = add_element(add_element(line, "td", {}, "done"), "input");
        box.append_attribute("type") = "checkbox";
        box.append_attribute("aria-label") =
            fmt::format("reading {} as expected", row.number).c_str();
        add_element(line, "td", {}, "measured");
        add_element(line, "td", row.why);
    }
}

/// The page's style with this sheet's name in the margin and a box to write each reading into.
std::string style() {
    std::string css(bench_style);
    const std::string_view name = "pinfold wiring table";
    css.replace(css.find(name), name.size(), "pinfold meter sheet");
    // Every table of the sheet has the same columns, so that they stand under each other.
    css +=
        "table { table-layout: fixed; }\n"
        "th:nth-child(2), th:nth-child(3) { width: 37mm; }\n"
        "th:first-child { width: 10mm; } th:nth-child(4) { width: 29mm; }\n"
        "th:nth-child(5) { width: 9mm; } th:nth-child(6) { width: 22mm; }\n"
        "tbody tr:first-child { break-before: avoid; }\n"
        ".measured { border: 0.25mm solid #000; }\n";
    return css;
}

}  // namespace

std::string to_html(const ProbeSheet& sheet) {
    HtmlPage page("Meter sheet: " + sheet.title, style());
    const pugi::xml_node main = page.main();
    pugi::xml_node title = add_element(main, "h1");
    add_element(title, "span", "Meter sheet", "kind");
    title.append_child(pugi::node_pcdata).set_value(sheet.title.c_str());
    add_element(main, "p", "Made from " + sheet.file, "file");
    for (const std::string& warning : sheet.warnings) add_element(main, "p", warning, "loud");
    add_list(add_element(main, "section", {}, "cautions"), "Cautions", sheet.cautions);
    add_list(main, "Before you start", sheet.first);
    add_list(main, "Where the contacts are", sheet.where);
    for (const SheetSection& section : sheet.sections) add_section(main, section);
    add_list(main, "What this proves", sheet.notes);
    if (!sheet.sources.empty()) add_list(main, "Who says what a device shows", sheet.sources);
    const pugi::xml_node signed_by = add_element(main, "ul", {}, "signed");
    for (const char* what : {"Measured by", "Meter", "Date"}) add_element(signed_by, "li", what);
    return page.text();
}

}  // namespace pinfold
