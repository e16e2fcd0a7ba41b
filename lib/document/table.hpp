// The wiring table: what to buy, how it goes in, and where every conductor and lead runs.
#pragma once

#include <string>
#include <vector>

#include "design/wiring.hpp"
#include "document/drawing.hpp"

namespace pinfold {

/// A line of the sheet that is not a row of a table: `Length`, `120 mm; a listed stock length`.
struct Fact {
    std::string label;
    std::string text;
};

/// One conductor or lead. Marks are letters and never rest on colour.
struct TableRow {
    std::string signal;  ///< as the promise's near port calls it, with the port's name before it
                         ///< if several interfaces are carried; `GND`, `open`
    std::string mark;    ///< `D2 +`, `guard D2, D1`, `SUPPLY`
    std::string fault;   ///< the state of a promise that runs here and does not arrive
    std::string from;    ///< `base.tail.1`
    std::string to;
    bool supply = false;
    bool paired = false;
};

/// One ribbon. Row k is conductor k, counted from the marked edge.
struct TableRibbon {
    std::string name;
    std::string from, to;      ///< the ports of end a and end b
    std::vector<Fact> buying;  ///< what to buy
    std::string source;        ///< who says so
    std::vector<Fact> end_a, end_b;
    std::vector<Fact> course;  ///< order and lay
    RibbonView view;
    std::vector<TableRow> rows;
};

/// One loose wire.
struct TableLead {
    std::string name, gauge, colour;
    Millimetres length;
    TableRow row;
};

/// The assembler's sheet, in the order it is read. All text is one_line() text.
struct WiringTable {
    std::string title;
    std::string file;
    std::vector<std::string> promises;
    std::vector<std::string> warnings;  ///< loud ones; the first says if it must not be built
    std::vector<std::string> first;     ///< before you start
    std::vector<TableRibbon> ribbons;
    std::vector<TableLead> leads;
    std::vector<std::string> cautions;  ///< empty unless a supply is carried
    std::string closing;
    bool arrives = true;  ///< every promised signal does
};

/// The mark, and what is wrong with the row if anything is: `D2 +, FAULT: swapped`.
std::string mark_and_fault(const TableRow& row);

WiringTable wiring_table(const Design& design, const Wiring& wiring);

}  // namespace pinfold
