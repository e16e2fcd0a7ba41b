#include "order/classes.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace pinfold {

bool ItemClass::harms(const ItemClass& met) const {
    if (supply < 0 || met.kind == OrderItem::Kind::open || met.supply == supply) return false;
    return (met.withstands >> supply & 1U) == 0;
}

Classes classes_of(const OrderProblem& problem) {
    const std::vector<std::size_t> supplies = supplies_of(problem);
    Classes classes;
    std::map<std::tuple<OrderItem::Kind, bool, int, std::uint32_t, int, int, int>, std::size_t>
        known;
    for (std::size_t i = 0; i < problem.items.size(); ++i) {
        const OrderItem& item = problem.items[i];
        ItemClass made{item.kind, item.fast, -1, item.withstands, item.strength, item.sensitivity,
                       false,     {},        0};
        if (made.is_supply()) {
            made.supply = static_cast<int>(std::ranges::find(supplies, i) - supplies.begin());
        }
        made.pinned = made.has_names() && std::ranges::any_of(problem.fixed, [&](const auto& f) {
                          return f.item == i;
                      });
        const int own = made.pinned ? static_cast<int>(i) : -1;
        const auto [place, is_new] =
            known.try_emplace({made.kind, made.fast, made.supply, made.withstands, made.strength,
                               made.sensitivity, own},
                              classes.all.size());
        if (is_new) classes.all.push_back(made);
        ItemClass& here = classes.all[place->second];
        here.items.push_back(i);
        here.count += item.kind == OrderItem::Kind::pair ? 1 : item.copies;
        classes.class_of.push_back(place->second);
    }
    classes.pin.resize(static_cast<std::size_t>(problem.conductors));
    for (const FixedPlace& fixed : problem.fixed) {
        classes.pin[static_cast<std::size_t>(fixed.conductor)] = classes.class_of[fixed.item];
    }
    return classes;
}

bool may_begin(const OrderProblem& problem, const Classes& classes, std::size_t item_class,
               int conductor) {
    const ItemClass& here = classes.all[item_class];
    if (conductor + here.width() > problem.conductors) return false;
    for (int at = conductor; at < conductor + here.width(); ++at) {
        const auto& pin = classes.pin[static_cast<std::size_t>(at)];
        if (pin && *pin != item_class) return false;
    }
    if (!here.pinned) return true;
    return may_lie(problem, here.items.front(), conductor, false) ||
           may_lie(problem, here.items.front(), conductor, true);
}

bool may_lie(const OrderProblem& problem, std::size_t item, int conductor, bool flipped) {
    const OrderItem::Kind kind = problem.items[item].kind;
    if (flipped && kind != OrderItem::Kind::pair) return false;
    if (kind != OrderItem::Kind::pair && kind != OrderItem::Kind::single) return true;
    return std::ranges::all_of(problem.fixed, [&](const FixedPlace& fixed) {
        return fixed.item != item ||
               fixed.conductor == conductor + ((fixed.half == 1) != flipped ? 1 : 0);
    });
}

std::vector<int> attributes_for(const Classes& classes, std::size_t item_class,
                                const std::vector<Aim>& aims) {
    const ItemClass& here = classes.all[item_class];
    std::vector<int> attributes{here.width(), here.pinned ? static_cast<int>(item_class) : -1};
    for (const Aim aim : aims) {
        switch (aim) {
            case Aim::guards:
                attributes.insert(attributes.end(), {here.fast, here.is_ground()});
                break;
            case Aim::hazards:
                attributes.insert(attributes.end(), {here.supply, static_cast<int>(here.withstands),
                                                     here.kind == OrderItem::Kind::open});
                break;
            case Aim::noise:
                attributes.insert(attributes.end(),
                                  {here.strength, here.sensitivity, here.is_ground()});
                break;
            case Aim::returns:
                attributes.insert(attributes.end(), {here.is_supply(), here.is_ground()});
                break;
            case Aim::crossings:
            case Aim::mismatch: attributes.push_back(static_cast<int>(item_class)); break;
        }
    }
    return attributes;
}

}  // namespace pinfold
