// What laying one more class on the next conductors costs by one aim.
#pragma once

#include "order/level.hpp"

namespace pinfold {

/// Costs of one aim, conductor by conductor. A window holds the classes last laid, nearest first,
/// plus one; 0 is the ribbon's edge or something that makes no difference.
class StepCost {
public:
    StepCost(const OrderProblem& problem, const Classes& classes, Aim aim);

    using Window = std::array<std::uint8_t, 3>;
    /// Of the next conductor; `second` if it is the other half of the pair just begun.
    int of_conductor(const Window& window, std::size_t item_class, bool second) const;
    /// Of the edge behind the last conductor.
    int of_end(const Window& window) const;
    /// The window with a class laid, and all that makes no difference any more forgotten.
    Window after(const Window& window, std::size_t item_class) const;

    /// Of an item of known name beside all that is still to come, over the least it could be.
    int of_item(const Node& node, const Level& level, std::size_t item, bool flipped) const;
    /// Items that an item must wait for: laying them later cannot be better.
    const std::array<std::uint64_t, 2>& waits_for(std::size_t item) const {
        return waits_for_[item];
    }
    /// What all orders pay.
    std::int64_t base() const { return base_; }

private:
    const ItemClass* at(const Window& window, std::size_t slot) const {
        return window[slot] == 0 ? nullptr : &classes_.all[window[slot] - 1U];
    }
    void settle_crossings();
    void settle_waits();
    bool is_quiet(const ItemClass* item_class) const {
        return !item_class || (item_class->strength == 0 && item_class->sensitivity == 0);
    }
    Window without_silence(Window window) const;

    const OrderProblem& problem_;
    const Classes& classes_;
    Aim aim_;
    std::array<std::vector<std::uint8_t>, 3> stand_in_;  ///< by slot and class: the first one alike
    std::vector<std::vector<int>> excess_;               ///< by item and item
    std::vector<std::array<int, 2>> excess_within_;      ///< by item and way round
    std::vector<std::array<std::uint64_t, 2>> waits_for_;
    std::int64_t base_ = 0;
};

}  // namespace pinfold
