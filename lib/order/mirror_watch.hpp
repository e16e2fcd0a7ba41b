// The watch on mirror places: what the second half of an order owes the first, were it reversed.
#pragma once

#include <map>
#include <vector>

#include "order/level.hpp"

namespace pinfold {

constexpr int guess_mark = 16;  ///< an obligation to hold a supply, not to stand one

/// Obligations of one level, by number; a number stands for what mirror places still owe.
class MirrorWatch {
public:
    MirrorWatch(const Ground& ground, Level& level) : ground_(ground), level_(level) {}

    void restart();
    /// Whether enough of a supply is left to lie opposite one more conductor.
    bool may_guess(const Node& node, const ItemClass& supply) const;
    /// Obligations with one more: what lies, or was guessed, on a conductor.
    std::uint32_t with(std::uint32_t obligations, int conductor, int what);
    /// Settles what the conductor opposite owes; not if a supply was guessed and is not laid, or
    /// one is laid and was not guessed, or what is laid is harmed and nothing must be.
    bool pay(Node& child, const ItemClass& here, int opposite);
    /// Harm that cannot be escaped any more, one place off or reversed.
    std::int32_t harm_ahead(const Node& node) const;
    /// Harm that the supplies laid so far cannot escape once the ribbon is reversed: more of them
    /// wait for a mate opposite than there are mates left.
    std::int32_t harm_reversed(const Node& node) const;

private:
    std::size_t class_of_supply(int supply) const;
    int left_of_supply(const Node& node, int supply) const;
    int mates_left(const Node& node) const;
    std::int32_t harm_beside(const Node& node) const;
    std::uint32_t number(std::vector<int> pending);

    const Ground& ground_;
    Level& level_;
    std::map<std::vector<int>, std::uint32_t> numbers_;
};

}  // namespace pinfold
