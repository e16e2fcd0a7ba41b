// Branches: the tree both forms of a KiCad netlist are written from.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/finding.hpp"

namespace pinfold {

/// One `(word "text" branches...)`, which the XML form writes as an element or an attribute.
struct Branch {
    std::string word;
    std::optional<std::string> text;
    std::vector<Branch> branches = {};
    Mark at = {};
};

/// A branch with a text that any reader can be given.
///
/// Throws InputError for a text that `text_fault` finds fault with.
Branch leaf(std::string word, std::string text, const Mark& at);

}  // namespace pinfold
