// Classes: items of an order that are alike to every aim that does not ask for their names.
#pragma once

#include <optional>
#include <vector>

#include "order/problem.hpp"

namespace pinfold {

/// Items that may be exchanged without changing any figure but crossings and mismatch.
struct ItemClass {
    OrderItem::Kind kind = OrderItem::Kind::single;
    bool fast = false;
    int supply = -1;  ///< which of the supplies; -1 for all else
    std::uint32_t withstands = 0;
    int strength = 0;
    int sensitivity = 0;
    bool pinned = false;             ///< one item with a fixed place of its own
    std::vector<std::size_t> items;  ///< of the problem, in order
    int count = 0;                   ///< of placements: items, or copies

    int width() const { return kind == OrderItem::Kind::pair ? 2 : 1; }
    bool is_ground() const { return kind == OrderItem::Kind::ground; }
    bool is_supply() const { return kind == OrderItem::Kind::supply; }
    bool has_names() const {
        return kind == OrderItem::Kind::pair || kind == OrderItem::Kind::single;
    }
    bool harms(const ItemClass& met) const;  ///< if this is a supply that cannot be stood
};

/// The classes of a problem, and who must come before whom.
struct Classes {
    std::vector<ItemClass> all;
    std::vector<std::size_t> class_of;            ///< by item
    std::vector<std::optional<std::size_t>> pin;  ///< by conductor: the class that must lie there
};

Classes classes_of(const OrderProblem& problem);

/// Whether a class may begin at a conductor as far as fixed places go.
bool may_begin(const OrderProblem& problem, const Classes& classes, std::size_t item_class,
               int conductor);

/// Whether an item may begin at a conductor this way round as far as its fixed places go.
bool may_lie(const OrderProblem& problem, std::size_t item, int conductor, bool flipped);

/// The attributes of a class that the aims so far ask for: classes with equal ones are one group.
std::vector<int> attributes_for(const Classes& classes, std::size_t item_class,
                                const std::vector<Aim>& aims);

}  // namespace pinfold
