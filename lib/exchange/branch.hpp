// Branches: the tree both forms of a KiCad netlist are read into and written from.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/finding.hpp"

namespace pinfold {

/// One `(word "text" branches...)`, which the XML form writes as an element or an attribute.
struct Branch {
    std::string word;
    std::optional<std::string> text;
    std::vector<Branch> branches = {};
    Mark at = {};

    const Branch* find(std::string_view child) const;
    std::string text_of(std::string_view child) const;  ///< of the child; empty if it is missing
};

constexpr std::size_t deepest_branch = 64;  ///< the deepest in real files is 8
constexpr std::size_t most_branches = 2'000'000;
constexpr std::size_t longest_text = std::size_t{64} << 10;

/// A branch with a text that any reader can be given.
///
/// Throws InputError for a text longer than `longest_text`, or with control characters other than
/// tab and line ends.
Branch leaf(std::string word, std::string text, const Mark& at);

/// Grows the tree while a file is read, without recursion. Throws InputError for more than
/// `most_branches`, for one deeper than `deepest_branch`, and for a text `leaf` would refuse.
class TreeGrower {
public:
    void open(std::string word, Mark at);
    /// The word of a branch that has none yet, else its text; later texts are passed over.
    void put_atom(std::string text, const Mark& at);
    /// The text of a branch, unless it has one.
    void put_text(std::string text, const Mark& at);
    void close();

    std::size_t depth() const { return path_.size(); }
    const Mark& opened_at() const { return path_.back()->at; }
    bool has_root() const { return root_.has_value(); }
    Branch take() { return std::move(*root_); }

private:
    std::optional<Branch> root_;
    std::vector<Branch*> path_;  ///< each the last branch of the one before it
    std::size_t count_ = 0;
};

}  // namespace pinfold
