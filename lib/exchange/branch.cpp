#include "exchange/branch.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "exchange/place_finder.hpp"

namespace pinfold {
namespace {

[[noreturn]] void refuse(const char* rule, std::string text, const Mark& at) {
    throw InputError({{Severity::error, rule, std::move(text), at}});
}

/// What is wrong with a text no reader can be given; empty if nothing is.
std::string fault_of(std::string_view text) {
    if (text.size() > longest_text) {
        return fmt::format("is longer than the {} KiB a netlist can hold", longest_text >> 10);
    }
    return is_plain_text(text) ? std::string{}
                               : "holds a control character or is not UTF-8, which a netlist "
                                 "cannot hold";
}

}  // namespace

const Branch* Branch::find(std::string_view child) const {
    const auto found = std::ranges::find(branches, child, &Branch::word);
    return found == branches.end() ? nullptr : &*found;
}

std::string Branch::text_of(std::string_view child) const {
    const Branch* found = find(child);
    return found && found->text ? *found->text : std::string{};
}

Branch leaf(std::string word, std::string text, const Mark& at) {
    const std::string fault = fault_of(text);
    if (!fault.empty()) refuse("netlist-text", fmt::format("the text of '{}' {}", word, fault), at);
    return {std::move(word), std::move(text), {}, at};
}

void TreeGrower::open(std::string word, Mark at) {
    if (path_.size() >= deepest_branch) {
        refuse("netlist-depth",
               fmt::format("more than {} levels, one inside the other", deepest_branch), at);
    }
    if (++count_ > most_branches) {
        refuse("netlist-size", fmt::format("more than {} parts in one netlist", most_branches), at);
    }
    Branch made{std::move(word), std::nullopt, {}, std::move(at)};
    if (path_.empty()) {
        root_ = std::move(made);
        path_.push_back(&*root_);
    } else {
        std::vector<Branch>& siblings = path_.back()->branches;
        siblings.push_back(std::move(made));
        path_.push_back(&siblings.back());
    }
}

void TreeGrower::put_atom(std::string text, const Mark& at) {
    Branch& here = *path_.back();
    const bool is_word = here.word.empty() && here.branches.empty() && !here.text;
    if (!is_word) return put_text(std::move(text), at);
    here.word = std::move(text);
}

void TreeGrower::put_text(std::string text, const Mark& at) {
    const std::string fault = fault_of(text);
    if (!fault.empty()) refuse("netlist-text", "this text " + fault, at);
    if (!path_.back()->text) path_.back()->text = std::move(text);
}

void TreeGrower::close() { path_.pop_back(); }

}  // namespace pinfold
