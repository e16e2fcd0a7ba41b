#include <fmt/format.h>

#include "bringup/fault_desk.hpp"

namespace pinfold {
namespace {

/// Thinks of what may be wrong with one ribbon as a whole.
class RibbonThinker {
public:
    RibbonThinker(FaultDesk& desk, std::size_t ribbon)
        : desk_(desk),
          ribbon_(ribbon),
          cut_(desk.design.ribbons[ribbon]),
          is_flat_(desk.design.ribbon_types.at(cut_.type).kind == RibbonKind::flat) {}

    void think() {
        for (const End end : {End::a, End::b}) think_of_reversed(end);
        if (is_flat_) think_of_other_copper();
        for (const End end : {End::a, End::b}) {
            think_of_away(end);
            for (const int slip : {1, -1}) think_of_shifted(end, slip);
        }
    }

private:
    std::string place_of(End end) const { return fmt::format("{}.{}", cut_.name, name_of(end)); }

    std::string port_at(End end) const {
        const RibbonEnds& ends = desk_.wiring.ends_of(ribbon_);
        return name_of(desk_.design, desk_.design.seats[end == End::a ? *ends.a : *ends.b].port);
    }

    /// Every conductor of an end on the contact `meets` gives it; nothing leaves it loose.
    template <class Meets>
    Change seated(End end, const Meets& meets) const {
        Change change;
        for (int n = 1; n <= cut_.conductors; ++n) {
            const ConductorNumber conductor(n);
            const auto link = desk_.seats_at(ribbon_, end)[conductor.index()];
            if (link) change.cut.push_back(*link);
            const std::optional<ContactRef> contact = meets(conductor);
            if (contact) {
                change.added.emplace_back(desk_.wiring.point_of(*contact),
                                          desk_.wiring.point_of(ribbon_, end, conductor));
            }
        }
        return change;
    }

    std::optional<ContactRef> contact_at(End end, int conductor) const {
        return desk_.wiring.contact_of(desk_.design, ribbon_, end, ConductorNumber(conductor));
    }

    Change reversed(End end) const {
        return seated(end, [&](ConductorNumber conductor) {
            return contact_at(end, cut_.conductors + 1 - conductor.number());
        });
    }

    void think_of_reversed(End end) {
        const std::string port = port_at(end);
        desk_.faults.push_back(
            {FaultKind::order, "ribbon-reversed", place_of(end),
             fmt::format("{} lies the wrong way round in {}: its conductor 1 is where conductor {} "
                         "belongs",
                         cut_.name, port, cut_.conductors),
             is_flat_ ? fmt::format("take {} out and put it in by its marked edge; look at the "
                                    "contacts of {} and at the bared copper before you do",
                                    cut_.name, port)
                      : fmt::format("turn the socket of {} at {} round, or crimp it anew with "
                                    "contact 1 on the marked edge",
                                    cut_.name, port),
             reversed(end)});
    }

    void think_of_other_copper() {
        const bool same = cut_.copper == Copper::same_side;
        desk_.faults.push_back(
            {FaultKind::order, "copper-other-side", cut_.name,
             fmt::format("{} is a ribbon with {} copper where {} was wanted: its order is the "
                         "wrong way round",
                         cut_.name, name_of(same ? Copper::opposite_side : Copper::same_side),
                         name_of(cut_.copper)),
             fmt::format("look on which faces the bared ends of {} show; fit one with {} copper",
                         cut_.name, name_of(cut_.copper)),
             reversed(End::b)});
    }

    void think_of_away(End end) {
        desk_.faults.push_back(
            {FaultKind::away, is_flat_ ? "copper-away" : "socket-off", place_of(end),
             fmt::format(
                 "no contact of {} touches {}: its copper faces the plastic, the receptacle "
                 "is not closed, or the end is out",
                 port_at(end), cut_.name),
             fmt::format("look at end {} of {}: which way its copper looks, whether it is in all "
                         "the way and the actuator closed",
                         name_of(end), cut_.name),
             seated(end, [](ConductorNumber) { return std::optional<ContactRef>{}; })});
    }

    void think_of_shifted(End end, int slip) {
        const auto meets = [&](ConductorNumber conductor) -> std::optional<ContactRef> {
            std::optional<ContactRef> contact = contact_at(end, conductor.number());
            if (!contact) return std::nullopt;
            const std::size_t count = desk_.design.port(contact->port).contacts.size();
            contact->contact += static_cast<std::size_t>(slip);  // wraps to beyond the row below 0
            return contact->contact < count ? contact : std::nullopt;
        };
        const std::string port = port_at(end);
        desk_.faults.push_back(
            {FaultKind::shift, "ribbon-shifted", place_of(end),
             fmt::format("{} sits one place off in {}, towards its {} contact", cut_.name, port,
                         slip > 0 ? "last" : "first"),
             fmt::format("take {} out of {} and put it in square, its edges between the walls",
                         cut_.name, port),
             seated(end, meets)});
    }

    FaultDesk& desk_;
    std::size_t ribbon_;
    const Ribbon& cut_;
    bool is_flat_;
};

}  // namespace

void think_of_ribbon_faults(FaultDesk& desk) {
    for (std::size_t r = 0; r < desk.design.ribbons.size(); ++r) {
        if (desk.both_ends_sit(r)) RibbonThinker(desk, r).think();
    }
}

}  // namespace pinfold
