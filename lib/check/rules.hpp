// Rules: the stable name of everything a check can find, why it matters, and who says so.
#pragma once

#include <span>
#include <string_view>

#include "base/finding.hpp"

namespace pinfold {

/// One rule, as `pinfold explain` prints it.
struct Rule {
    std::string_view name;
    Severity severity;         ///< the one it is found at
    std::string_view summary;  ///< one sentence, what is found
    std::string_view why;      ///< why it matters on the bench
    std::string_view source;   ///< a standard or handbook, or `common practice`
};

/// All rules, in the order a person wants to read the findings.
std::span<const Rule> all_rules();

/// Nothing for a name no rule has.
const Rule* find_rule(std::string_view name);

/// The families of names by which an unusable input is refused.
std::span<const Rule> all_refusals();

/// The family a name belongs to by which an unusable input is refused; a family's name ends in `-`,
/// unless it has one member. Nothing for a name of no family.
const Rule* find_refusal(std::string_view name);

}  // namespace pinfold
