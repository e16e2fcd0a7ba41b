#include "document/report.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/shown.hpp"
#include "document/table_words.hpp"

namespace pinfold {
namespace {

/// One line per promise: "hdmi logger.video to screen.video: 19 of 19 signals arrive".
std::string promise_lines(const Design& design, const Verdict& verdict) {
    std::vector<std::size_t> promised(design.carries.size());
    std::vector<std::size_t> good(design.carries.size());
    for (const Pass& pass : verdict.wiring.passes()) {
        ++promised[pass.carry];
        if (pass.state == State::good) ++good[pass.carry];
    }
    std::string lines;
    for (std::size_t c = 0; c < design.carries.size(); ++c) {
        lines += fmt::format("{}: {} of {} signals arrive{}\n", design.carries[c].name, good[c],
                             promised[c], good[c] == promised[c] ? "" : "  <-- not all");
    }
    return lines;
}

std::string verdict_line(const Verdict& verdict) {
    const auto count = [&](Severity severity, const char* noun) {
        const auto found = std::ranges::count(verdict.findings, severity, &Finding::severity);
        return counted(static_cast<std::size_t>(found), noun);
    };
    return fmt::format("{}: {}, {}, {}\n", verdict.clean() ? "clean" : "NOT clean",
                       count(Severity::error, "error"), count(Severity::warning, "warning"),
                       count(Severity::note, "note"));
}

}  // namespace

std::string check_report(const Design& design, const Verdict& verdict) {
    std::string report;
    for (const Finding& finding : verdict.findings) report += to_text(finding);
    if (!verdict.findings.empty()) report += '\n';
    report += promise_lines(design, verdict);
    if (design.carries.empty()) report += "nothing is promised: add 'carry' to have it proved\n";
    return shown_page(report + verdict_line(verdict));
}

}  // namespace pinfold
