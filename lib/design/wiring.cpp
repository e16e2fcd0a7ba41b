#include "design/wiring.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace pinfold {

std::string_view name_of(State state) {
    switch (state) {
        case State::good: return "good";
        case State::open: return "open";
        case State::wrong: return "wrong";
        case State::shorted: return "shorted";
        case State::swapped: return "swapped";
    }
    return "";
}

Point Wiring::point_of(const ContactRef& contact) const {
    return first_of_port_[contact.port.board][contact.port.port] +
           static_cast<Point>(contact.contact);
}

Point Wiring::point_of(std::size_t ribbon, End end, ConductorNumber conductor) const {
    const Point first = first_of_ribbon_[ribbon] + static_cast<Point>(conductor.index());
    return end == End::a ? first : first + static_cast<Point>(conductors_[ribbon]);
}

std::optional<ContactRef> Wiring::contact_at(Point point) const {
    const Point contacts = first_of_ribbon_.empty() ? first_net_ : first_of_ribbon_.front();
    if (point >= contacts) return std::nullopt;
    const auto after = std::ranges::upper_bound(port_points_, point);
    // A port without contacts shares its first point with the next port, which is the right one.
    const auto place = static_cast<std::size_t>(after - port_points_.begin()) - 1;
    return ContactRef{ports_[place], point - port_points_[place]};
}

std::size_t Wiring::ribbon_at(Point point) const {
    const auto after = std::ranges::upper_bound(first_of_ribbon_, point);
    return static_cast<std::size_t>(after - first_of_ribbon_.begin()) - 1;
}

std::string Wiring::name_of(Point point, const Design& design) const {
    if (const auto contact = contact_at(point)) return pinfold::name_of(design, *contact);
    if (point >= first_net_) return {};
    const std::size_t ribbon = ribbon_at(point);
    const Point place = point - first_of_ribbon_[ribbon];
    const auto count = static_cast<Point>(conductors_[ribbon]);
    return fmt::format("{}.{}.{}", design.ribbons[ribbon].name,
                       pinfold::name_of(place < count ? End::a : End::b), place % count + 1);
}

std::optional<ContactRef> Wiring::contact_of(const Design& design, std::size_t ribbon, End end,
                                             ConductorNumber conductor) const {
    const std::optional<Seating>& seating = seatings_[ribbon];
    if (!seating || !(end == End::a ? seating->touch_a : seating->touch_b)) return std::nullopt;
    const Order order = seating->order == Order::either ? Order::straight : seating->order;
    const ContactNumber contact = end == End::a
                                      ? contact_at_a(conductor)
                                      : contact_at_b(conductor, conductors_[ribbon], order);
    const Seat& seat = design.seats[end == End::a ? *ends_[ribbon].a : *ends_[ribbon].b];
    const auto place = static_cast<std::ptrdiff_t>(contact.index()) + seat.slip;
    const auto contacts = static_cast<std::ptrdiff_t>(design.port(seat.port).contacts.size());
    if (place < 0 || place >= contacts) return std::nullopt;
    return ContactRef{seat.port, static_cast<std::size_t>(place)};
}

std::span<const Pass> Wiring::passes_of(std::size_t carry) const {
    const auto first = std::ranges::lower_bound(passes_, carry, {}, &Pass::carry);
    const auto last = std::ranges::upper_bound(passes_, carry, {}, &Pass::carry);
    return {first, last};
}

std::optional<Wire> Wiring::wire_in(std::uint32_t piece) const { return wires_[piece]; }

std::optional<Wire> Wiring::wire_of(std::size_t ribbon, ConductorNumber conductor) const {
    return wires_[piece_[point_of(ribbon, End::a, conductor)]];
}

std::span<const ContactRef> Wiring::device_contacts(std::uint32_t piece) const {
    return {device_contacts_.data() + device_first_[piece],
            device_first_[piece + 1] - device_first_[piece]};
}

}  // namespace pinfold
