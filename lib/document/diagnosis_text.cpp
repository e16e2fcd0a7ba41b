#include "document/diagnosis_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "base/shown.hpp"
#include "document/columns.hpp"
#include "document/table_words.hpp"

namespace pinfold {
namespace {

std::string cause_text(const Cause& cause, std::size_t number) {
    std::string text = fmt::format("\n{}. {}{}{}\n", number, cause.cause,
                                   cause.place.empty() ? "" : " at ", one_line(cause.place));
    text += in_lines(one_line(cause.text) + ".", "   ");
    text += in_lines("What to do: " + one_line(cause.remedy) + ".", "   ");
    if (cause.contradicts.empty()) return text;
    const std::string rows = fmt::format("{}", fmt::join(cause.contradicts, ", "));
    if (cause.cause == "readings-contradict") {
        return text + in_lines(fmt::format("Rows {} contradict each other.", rows), "   ");
    }
    return text + in_lines(fmt::format("It contradicts row {}; it explains {}.", rows,
                                       counted(cause.explains.size(), "row")),
                           "   ");
}

std::string next_text(const NextReading& next) {
    std::string text = fmt::format("  {} to {}", one_line(next.from), one_line(next.to));
    if (!next.alone.empty()) text += fmt::format(", {} taken out", one_line(next.alone));
    if (!next.with.empty()) text += fmt::format(", with {} plugged in alone", one_line(next.with));
    if (!next.with.empty() && next.if_closed.empty()) {
        return text + fmt::format("\n    should show {}\n", next.shows);
    }
    if (next.if_closed.empty() && next.if_open.empty()) {
        return text + fmt::format("\n    shows: {}\n", fmt::join(next.tells_apart, ", "));
    }
    return text + fmt::format(": {} leaves {}, open leaves {}{}\n",
                              next.shows.empty() ? "closed" : next.shows,
                              fmt::join(next.if_closed, ", "), fmt::join(next.if_open, ", "),
                              next.alone.empty() ? "" : "; note it beside the sheet, not in it");
}

}  // namespace

std::string to_text(const Diagnosis& diagnosis) {
    std::string text =
        fmt::format("{}, {} not as on a sound assembly{}\n", counted(diagnosis.measured, "reading"),
                    diagnosis.unexpected.size(),
                    diagnosis.blank > 0 ? fmt::format(", {} blank", diagnosis.blank) : "");
    if (!diagnosis.unexpected.empty()) {
        text +=
            in_lines(fmt::format("Not as expected: row {}", fmt::join(diagnosis.unexpected, ", ")));
    }
    if (diagnosis.measured == 0) {
        text += "\nNothing is measured yet.\n";
    } else if (!diagnosis.explained) {
        text += "\nNo single fault and no two of those tried explain all of this. Nearest:\n";
    }
    for (std::size_t i = 0; i < diagnosis.causes.size(); ++i) {
        text += cause_text(diagnosis.causes[i], i + 1);
    }
    if (diagnosis.more_causes > 0) {
        text +=
            fmt::format("\n{} more explain it as well; measure further\n", diagnosis.more_causes);
    }
    if (!diagnosis.next.empty()) text += "\nMeasure next\n";
    for (const NextReading& next : diagnosis.next) text += next_text(next);
    return shown_page(
        text + "\n" +
        in_lines("Without power, everything unplugged. The readings are held against the design "
                 "as written; local codes and licensed practice come before this page."));
}

}  // namespace pinfold
