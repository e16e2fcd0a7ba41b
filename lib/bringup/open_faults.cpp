#include <fmt/format.h>

#include "bringup/fault_desk.hpp"

namespace pinfold {
namespace {

Change cutting(std::uint32_t link) { return {{link}, {}}; }

void think_of_joints(FaultDesk& desk) {
    for (std::uint32_t i = 0; i < desk.wiring.links().size(); ++i) {
        const Link& link = desk.wiring.links()[i];
        if (link.kind != LinkKind::copper || desk.contacts_on(link.other) < 2) continue;
        const ContactRef contact = *desk.wiring.contact_at(link.one);
        const std::string place = name_of(desk.design, contact);
        desk.faults.push_back(
            {FaultKind::open, "open-joint", place,
             fmt::format("the solder joint or the trace at {} is open",
                         spoken(desk.design, contact)),
             fmt::format("look at the joint of {} under a lens and reflow it", place), cutting(i)});
    }
}

void think_of_seat(FaultDesk& desk, std::size_t ribbon, End end, ConductorNumber conductor) {
    const auto link = desk.seats_at(ribbon, end)[conductor.index()];
    if (!link) return;
    const ContactRef contact = *desk.wiring.contact_at(desk.wiring.links()[*link].one);
    const std::string place = name_of(desk.design, contact);
    const std::string& name = desk.design.ribbons[ribbon].name;
    desk.faults.push_back(
        {FaultKind::open, "open-contact", place,
         fmt::format("{} does not touch conductor {} of {}", spoken(desk.design, contact),
                     conductor.number(), name),
         fmt::format("take {} out at {}, clean its end and put it in again; look for a bent "
                     "contact",
                     name, place),
         cutting(*link)});
}

void think_of_conductors(FaultDesk& desk) {
    for (std::size_t r = 0; r < desk.design.ribbons.size(); ++r) {
        for (int n = 1; n <= desk.design.ribbons[r].conductors; ++n) {
            const ConductorNumber conductor(n);
            think_of_seat(desk, r, End::a, conductor);
            desk.faults.push_back({FaultKind::open, "open-conductor", desk.place_of(r, conductor),
                                   fmt::format("{} is broken", desk.spoken(r, conductor)),
                                   fmt::format("look for a crease in {}; fit another one",
                                               desk.design.ribbons[r].name),
                                   cutting(desk.conductor_at(r, conductor))});
            think_of_seat(desk, r, End::b, conductor);
        }
    }
}

void think_of_join(FaultDesk& desk, std::uint32_t place) {
    const Link& link = desk.wiring.links()[place];
    const PortJoin& join = desk.design.joins[link.place];
    const ContactRef one = *desk.wiring.contact_at(link.one);
    const ContactRef other = *desk.wiring.contact_at(link.other);
    const auto is_device = [&](PortRef port) { return desk.design.boards[port.board].is_device; };
    Fault fault{
        FaultKind::open,
        "open-contact",
        name_of(desk.design, is_device(join.a) ? other : one),
        fmt::format("{} does not touch {}", spoken(desk.design, one), spoken(desk.design, other)),
        fmt::format("unplug {}, look for a bent or dirty contact, plug it in all the way",
                    name_of(desk.design, one.port)),
        cutting(place)};
    fault.at_device = is_device(join.a) != is_device(join.b);
    desk.faults.push_back(std::move(fault));
}

void think_of_plugs_and_leads(FaultDesk& desk) {
    for (std::uint32_t i = 0; i < desk.wiring.links().size(); ++i) {
        const Link& link = desk.wiring.links()[i];
        if (link.kind == LinkKind::join) think_of_join(desk, i);
        if (link.kind != LinkKind::lead) continue;
        const std::string& name = desk.design.leads[link.place].name;
        desk.faults.push_back({FaultKind::open, "open-lead", name,
                               fmt::format("lead {} is broken or off at one end", name),
                               fmt::format("pull gently at both ends of {}; solder or crimp it "
                                           "anew",
                                           name),
                               cutting(i)});
    }
}

}  // namespace

void think_of_opens(FaultDesk& desk) {
    think_of_joints(desk);
    think_of_conductors(desk);
    think_of_plugs_and_leads(desk);
}

}  // namespace pinfold
