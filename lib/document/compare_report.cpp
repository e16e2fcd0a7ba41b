#include "document/compare_report.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace pinfold {
namespace {

/// A reference may be any text; nothing of it may reach the terminal as a command.
std::string shown(std::string text) {
    std::ranges::replace_if(
        text,
        [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == '\x7f' || c == '\xC2'; },
        '?');
    return text;
}

}  // namespace

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
    return report + (comparison.same ? "same\n"
                                     : fmt::format("NOT the same: {} error{}\n", errors,
                                                   errors == 1 ? "" : "s"));
}

}  // namespace pinfold
