// Findings: all that pinfold has to say about a file, from a typing slip to a split pair.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "base/mark.hpp"

namespace pinfold {

enum class Severity { note, warning, error };

std::string_view name_of(Severity severity);

/// A second place that explains the first: "the other half of the pair is here".
struct Note {
    Mark at;
    std::string text;
};

/// One thing found. `rule` is the stable name users accept and tests ask for.
struct Finding {
    Severity severity = Severity::error;
    std::string rule;
    std::string text;
    Mark at;
    std::vector<Note> notes = {};
    std::vector<std::string> places =
        {};  ///< names in the design, widest first: `strap`, `strap.5`
    std::vector<std::string> repairs = {};  ///< single changes, each of which was tried and traced
};

using Findings = std::vector<Finding>;

bool has_errors(const Findings& findings);

/// Errors first, each kind in the order it was found.
void sort_by_severity(Findings& findings);

/// The finding as the user reads it: `file:line:column: error: text [rule]`, the line quoted,
/// a caret under the column, the same for each note, and one line for each repair.
///
/// Control characters of the user's file are shown as `?`, so they cannot reach a terminal.
std::string to_text(const Finding& finding);

/// An input file that cannot be used. Carries every fault found in it, not only the first.
class InputError : public std::runtime_error {
public:
    explicit InputError(Findings findings);
    const Findings& findings() const { return findings_; }

private:
    Findings findings_;
};

/// Throws InputError for one fault.
[[noreturn]] void refuse(std::string rule, std::string text, Mark at = {});

}  // namespace pinfold
