#include "design/words.hpp"

namespace pinfold {

const Words<Copper>& copper_words() {
    static const Words<Copper> words{{"same-side", Copper::same_side},
                                     {"opposite-side", Copper::opposite_side}};
    return words;
}

const Words<bool>& socket_words() {
    static const Words<bool> words{{"same-edge", false}, {"opposite-edge", true}};
    return words;
}

const Words<Turn>& turn_words() {
    static const Words<Turn> words{
        {"straight", Turn::straight},     {"bend-up", Turn::bend_up},
        {"bend-down", Turn::bend_down},   {"fold-left", Turn::fold_left},
        {"fold-right", Turn::fold_right}, {"half-twist", Turn::half_twist}};
    return words;
}

const Words<Facing>& facing_words() {
    static const Words<Facing> words{{"up", Facing::up},           {"down", Facing::down},
                                     {"left", Facing::left},       {"right", Facing::right},
                                     {"forward", Facing::forward}, {"back", Facing::back}};
    return words;
}

const Words<Facing>& level_words() {
    static const Words<Facing> words{{"up", Facing::up}, {"down", Facing::down}};
    return words;
}

const Words<ContactSide>& row_words() {
    static const Words<ContactSide> words{{"top", ContactSide::top},
                                          {"bottom", ContactSide::bottom}};
    return words;
}

}  // namespace pinfold
