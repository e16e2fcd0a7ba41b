#include "document/table_sheet.hpp"

#include <fmt/format.h>

namespace pinfold {
namespace {

/// One record, field by field.
struct Record {
    std::string kind, part, number;
    TableRow row;
    std::string length, gauge, colour, text;

    std::vector<std::string> cells() const {
        return {kind,   part,   number, row.signal, row.mark, row.fault, row.from,
                row.to, length, gauge,  colour,     "",       text};
    }
};

void add_texts(Rows& rows, const std::string& kind, const std::vector<std::string>& texts) {
    for (const std::string& text : texts) {
        Record record;
        record.kind = kind;
        record.text = text;
        rows.push_back(record.cells());
    }
}

void add_facts(Rows& rows, const std::string& kind, const std::string& part,
               const std::vector<Fact>& facts) {
    for (const Fact& fact : facts) {
        Record record;
        record.kind = kind;
        record.part = part;
        record.text = fmt::format("{}: {}", fact.label, fact.text);
        rows.push_back(record.cells());
    }
}

void add_ribbon(Rows& rows, const TableRibbon& ribbon) {
    add_facts(rows, "buy", ribbon.name, ribbon.buying);
    add_facts(rows, "buy", ribbon.name, {{"Source", ribbon.source}});
    add_facts(rows, "end-a", ribbon.name, ribbon.end_a);
    add_facts(rows, "end-b", ribbon.name, ribbon.end_b);
    add_facts(rows, "course", ribbon.name, ribbon.course);
    add_facts(rows, "course", ribbon.name, {{"Seen from above", described(ribbon.view)}});
    for (std::size_t i = 0; i < ribbon.rows.size(); ++i) {
        Record record{"conductor", ribbon.name, std::to_string(i + 1), ribbon.rows[i], {}, {},
                      {},          {}};
        rows.push_back(record.cells());
    }
}

}  // namespace

Rows to_sheet(const WiringTable& table) {
    Rows rows{{"kind", "part", "number", "signal", "mark", "fault", "from", "to", "length_mm",
               "gauge", "colour", "done", "text"}};
    add_texts(rows, "title", {table.title, table.file});
    add_texts(rows, "warning", table.warnings);
    add_texts(rows, "promise", table.promises);
    add_texts(rows, "first", table.first);
    add_texts(rows, "caution", table.cautions);
    for (const TableRibbon& ribbon : table.ribbons) add_ribbon(rows, ribbon);
    for (const TableLead& lead : table.leads) {
        const Record record{
            "lead",     lead.name,   "", lead.row, fmt::format("{:.6g}", lead.length.value()),
            lead.gauge, lead.colour, ""};
        rows.push_back(record.cells());
    }
    add_texts(rows, "closing", {table.closing});
    return rows;
}

}  // namespace pinfold
