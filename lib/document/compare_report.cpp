#include "document/compare_report.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/shown.hpp"

namespace pinfold {

std::string compare_report(const Board& board, const Comparison& comparison,
                           const std::string& form) {
    std::string report;
    for (const Finding& finding : comparison.findings) report += to_text(finding);
    if (!comparison.findings.empty()) report += '\n';
    report += fmt::format("read as {}\n", form);
    for (const PortMatch& match : comparison.ports) {
        if (match.reference.empty()) continue;
        report += fmt::format("{} is {}, by its {}\n", board.ports[match.port].name,
                              shown(match.reference), match.by);
    }
    report += fmt::format("{} pads on {} nets compared\n", comparison.pads, comparison.nets);
    const auto errors =
        std::ranges::count(comparison.findings, Severity::error, &Finding::severity);
    return shown_page(report + (comparison.same ? "same\n"
                                                : fmt::format("NOT the same: {} error{}\n", errors,
                                                              errors == 1 ? "" : "s")));
}

}  // namespace pinfold
