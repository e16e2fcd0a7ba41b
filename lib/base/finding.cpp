#include "base/finding.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/shown.hpp"
#include "base/utf8.hpp"

namespace pinfold {
namespace {

constexpr std::size_t longest_quote = 160;

std::string_view line_of(const Mark& at) {
    std::string_view rest = at.source->text;
    rest.remove_prefix(std::min(at.line_begins, rest.size()));
    if (rest.starts_with(byte_order_mark)) rest.remove_prefix(byte_order_mark.size());
    for (int i = 1; at.line_begins == 0 && i < at.line && !rest.empty(); ++i) {
        const std::size_t end = rest.find('\n');
        rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
    }
    rest = rest.substr(0, rest.find('\n'));
    if (rest.ends_with('\r')) rest.remove_suffix(1);
    return rest;
}

/// The line and its caret; nothing for a line too long to be read in a message.
std::string quoted(const Mark& at) {
    const std::string_view line = line_of(at);
    if (line.empty() || line.size() > longest_quote) return {};
    return fmt::format("    {}\n    {:>{}}\n", shown(line), "^", at.column);
}

std::string located(const Mark& at, std::string_view kind, std::string_view text) {
    const std::string clean = shown(text);
    if (!at.source) return fmt::format("{}: {}\n", kind, clean);
    return fmt::format("{}:{}:{}: {}: {}\n{}", shown(at.source->name), at.line, at.column, kind,
                       clean, quoted(at));
}

}  // namespace

std::string_view name_of(Severity severity) {
    switch (severity) {
        case Severity::note: return "note";
        case Severity::warning: return "warning";
        case Severity::error: return "error";
    }
    return "error";
}

bool has_errors(const Findings& findings) {
    return std::ranges::any_of(findings,
                               [](const Finding& f) { return f.severity == Severity::error; });
}

void sort_by_severity(Findings& findings) {
    std::ranges::stable_sort(findings, std::ranges::greater{}, &Finding::severity);
}

std::string to_text(const Finding& finding) {
    std::string text = located(finding.at, name_of(finding.severity),
                               fmt::format("{} [{}]", finding.text, finding.rule));
    for (const Note& note : finding.notes) text += located(note.at, "note", note.text);
    for (const std::string& repair : finding.repairs) {
        text += fmt::format("    repair, tried: {}\n", shown(repair));
    }
    return text;
}

InputError::InputError(Findings findings)
    : std::runtime_error(findings.empty() ? "unusable input" : findings.front().text),
      findings_(std::move(findings)) {}

void refuse(std::string rule, std::string text, Mark at) {
    throw InputError({{Severity::error, std::move(rule), std::move(text), std::move(at)}});
}

}  // namespace pinfold
