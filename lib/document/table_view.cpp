#include <algorithm>
#include <array>

#include "document/table_ribbon.hpp"
#include "document/table_words.hpp"

namespace pinfold {
namespace {

std::vector<ContactSide> rows_of(ContactSide side) {
    if (side != ContactSide::both) return {side};
    return {ContactSide::bottom, ContactSide::top};
}

Hand first_hand(const Design& design, std::size_t seat) {
    return design.port(design.seats[seat].port).ribbon->mouth.first;
}

/// Which way the copper of end a looks while conductor 1 is at the upper edge: +1 up, -1 down.
int copper_at_a(const Design& design, const RibbonEnds& ends,
                const std::optional<Seating>& seating) {
    if (!seating || !ends.a || seating->side_a == ContactSide::both) return 1;
    return handedness(seating->side_a, first_hand(design, *ends.a));
}

EndView end_view(const Design& design, std::size_t ribbon, const std::optional<std::size_t>& seat,
                 const std::optional<Seating>& seating) {
    EndView view;
    if (!seat) {
        view.place = "not joined";
        return view;
    }
    const Ribbon& cut = design.ribbons[ribbon];
    const Seat& there = design.seats[*seat];
    view.place = one_line(name_of(design, there.port));
    const auto first = contact_under(design, cut, there, ConductorNumber(1), seating);
    const auto last = contact_under(design, cut, there, ConductorNumber(cut.conductors), seating);
    if (first) view.at_first = one_line(design.contact(*first).label);
    if (last) view.at_last = one_line(design.contact(*last).label);
    view.one_at_first = first && first->contact == 0;
    view.one_at_last = last && last->contact == 0 && !view.one_at_first;
    return view;
}

}  // namespace

std::optional<Seating> settled_seating(const Design& design, std::size_t ribbon,
                                       const RibbonEnds& ends) {
    std::optional<Seating> seating = seating_of(design, ribbon, ends);
    if (!seating || seating->order != Order::either) return seating;
    const Ribbon& cut = design.ribbons[ribbon];
    const Hand hand_a = first_hand(design, *ends.a);
    const Hand hand_b = first_hand(design, *ends.b);
    const Seating open = *seating;
    for (const ContactSide a : rows_of(open.side_a)) {
        for (const ContactSide b : rows_of(open.side_b)) {
            const bool touches = !cut.lay || copper_that_touches(*cut.lay, a, b) == cut.copper;
            const Order order = order_of(handedness(a, hand_a), handedness(b, hand_b), cut.copper);
            if (touches && order == Order::straight) {
                return Seating{true, true, Order::straight, a, b};
            }
        }
    }
    return seating;
}

RibbonView view_of(const Design& design, std::size_t ribbon, const RibbonEnds& ends) {
    const Ribbon& cut = design.ribbons[ribbon];
    const std::optional<Seating> seating = settled_seating(design, ribbon, ends);
    RibbonView view{cut.name, cut.conductors, end_view(design, ribbon, ends.a, seating),
                    end_view(design, ribbon, ends.b, seating)};
    if (design.ribbon_types.at(cut.type).kind == RibbonKind::round) {
        view.a.copper = view.b.copper = CopperView::sockets;
        return view;
    }
    const int up_at_a = copper_at_a(design, ends, seating);
    const int up_at_b = cut.copper == Copper::same_side ? up_at_a : -up_at_a;
    view.a.copper = up_at_a > 0 ? CopperView::towards_you : CopperView::below;
    view.b.copper = up_at_b > 0 ? CopperView::towards_you : CopperView::below;
    return view;
}

}  // namespace pinfold
