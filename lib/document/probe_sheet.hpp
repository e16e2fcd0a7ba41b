// The meter sheet: what to unplug, what to mind, and every reading with room for its result.
#pragma once

#include <string>

#include "bringup/probe_plan.hpp"
#include "document/columns.hpp"

namespace pinfold {

/// One reading as a person finds it.
struct SheetRow {
    std::string number, from, to, expect, why;  ///< `12`, `base.plug.4 D1+`, ..., `closed`
    std::string from_point, to_point;           ///< without the signal
    std::string with;                           ///< the device plugged in, if one is
};

struct SheetSection {
    std::string heading;
    std::vector<SheetRow> rows;
};

/// The sheet in the order it is read. All text is one_line() text.
struct ProbeSheet {
    std::string title, file;
    std::vector<std::string> warnings, cautions, first, where, notes, sources;
    std::vector<SheetSection> sections;
};

ProbeSheet probe_sheet(const Bench& bench, const ProbePlan& plan);

std::string to_text(const ProbeSheet& sheet);
/// no, from, to, expect, reading, with: to be filled in and given to `pinfold diagnose`.
Rows to_sheet(const ProbeSheet& sheet);
/// A self-contained page for A4 or Letter: no script, nothing fetched.
std::string to_html(const ProbeSheet& sheet);

}  // namespace pinfold
