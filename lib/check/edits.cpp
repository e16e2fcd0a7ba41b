#include "check/edits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

namespace pinfold {
namespace {

/// Changes at one end: another receptacle, or the board's list written differently. A device's own
/// port cannot be changed.
void add_end_edits(const Design& design, std::size_t seat_place, std::vector<Edit>& edits) {
    const Seat& seat = design.seats[seat_place];
    const Port& port = design.port(seat.port);
    if (design.boards[seat.port.board].is_device || !port.ribbon) return;
    const std::string name = name_of(design, seat.port);
    const PortRef at = seat.port;
    const auto port_in = [at](Design& copy) -> Port& {
        return copy.boards[at.board].ports[at.port];
    };

    const ReceptacleType& type = design.receptacle_types.at(port.ribbon->receptacle);
    if (port.ribbon->mouth.side != ContactSide::both && type.entry == Entry::right_angle) {
        const bool bottom = port.ribbon->mouth.side == ContactSide::bottom;
        const ContactSide other = bottom ? ContactSide::top : ContactSide::bottom;
        edits.push_back(
            {fmt::format("take a receptacle with {} contacts at {}", name_of(other), name),
             [=](Design& copy) { port_in(copy).ribbon->mouth.side = other; }});
    }
    const std::size_t contacts = port.contacts.size();
    edits.push_back({reverse_text(name),
                     [=](Design& copy) { rewire(port_in(copy), reversed_order(contacts)); }});
    for (const int shift : {1, -1}) {
        edits.push_back({move_text(name, shift), [=](Design& copy) {
                             rewire(port_in(copy), shifted_order(contacts, shift));
                         }});
    }
}

void add_lay_edits(const Ribbon& ribbon, std::size_t place, std::vector<Edit>& edits) {
    if (!ribbon.lay) return;
    edits.push_back({fmt::format("give {} a half twist", ribbon.name), [place](Design& copy) {
                         copy.ribbons[place].lay->turns.push_back(Turn::half_twist);
                     }});
    const auto opposite = [](Facing facing) {
        switch (facing) {
            case Facing::up: return Facing::down;
            case Facing::down: return Facing::up;
            case Facing::left: return Facing::right;
            case Facing::right: return Facing::left;
            case Facing::forward: return Facing::back;
            default: return Facing::forward;
        }
    };
    const Facing over = opposite(ribbon.lay->face_b);
    edits.push_back(
        {fmt::format("turn the board at {}.b over (faces: b: {})", ribbon.name, name_of(over)),
         [=](Design& copy) { copy.ribbons[place].lay->face_b = over; }});
}

std::optional<std::size_t> place_on(const Wiring& wiring, const Pass& pass, PortRef port) {
    for (const Point point : pass.hops) {
        const auto contact = wiring.contact_at(point);
        if (contact && contact->port == port) return contact->contact;
    }
    return std::nullopt;
}

Edit exchange_edit(PortRef at, std::vector<std::size_t> order, std::string text) {
    return {std::move(text), [at, order = std::move(order)](Design& copy) {
                rewire(copy.boards[at.board].ports[at.port], order);
            }};
}

}  // namespace

std::size_t worthwhile_trials(const Design& design) {
    constexpr std::size_t most_trials = 400;
    constexpr std::size_t most_contacts_traced = 4'000'000;
    std::size_t contacts = 1;
    for (const Board& board : design.boards) {
        for (const Port& port : board.ports) contacts += port.contacts.size();
    }
    return std::min(most_trials, most_contacts_traced / contacts);
}

std::string move_text(const std::string& port, int shift) {
    return fmt::format("move the list of {} one place towards the {} contact", port,
                       shift > 0 ? "last" : "first");
}

std::string reverse_text(const std::string& port) {
    return fmt::format("write the list of {} the other way round, last contact first", port);
}

Design edited(const Design& design, const Edit& edit) {
    Design copy = design;
    edit.apply(copy);
    return copy;
}

void rewire(Port& port, const std::vector<std::size_t>& from) {
    const std::vector<PortContact> before = port.contacts;
    for (std::size_t i = 0; i < port.contacts.size(); ++i) {
        const bool open = from[i] >= before.size();
        port.contacts[i].net = open ? std::nullopt : before[from[i]].net;
        port.contacts[i].name = open ? std::string{} : before[from[i]].name;
    }
}

std::vector<Edit> exchange_edits(const Design& design, const Wiring& wiring, PortRef port,
                                 const std::vector<const Pass*>& passes, const std::string& what) {
    std::vector<std::size_t> towards_far;   // the port's copper leads on to the far end
    std::vector<std::size_t> towards_near;  // its copper comes from the near end
    for (std::size_t i = 0; i < design.port(port).contacts.size(); ++i) towards_far.push_back(i);
    towards_near = towards_far;
    for (const Pass* pass : passes) {
        const auto here = place_on(wiring, *pass, port);
        const auto instead = std::ranges::find_if(
            passes, [&](const Pass* other) { return other->reached == pass->to; });
        const auto there = instead == passes.end() ? here : place_on(wiring, **instead, port);
        if (!here || !there) return {};
        towards_far[*here] = *there;
        towards_near[*there] = *here;
    }
    const std::string text =
        fmt::format("exchange {} in the list of {}", what, name_of(design, port));
    std::vector<Edit> edits{exchange_edit(port, towards_far, text)};
    if (towards_near != towards_far) edits.push_back(exchange_edit(port, towards_near, text));
    return edits;
}

std::vector<Edit> exchanges_of(const Design& design, const ContactRef& contact) {
    const Port& port = design.port(contact.port);
    std::vector<Edit> edits;
    for (std::size_t i = 0; i < port.contacts.size(); ++i) {
        if (port.contacts[i].net == port.contacts[contact.contact].net) continue;
        const auto [low, high] = std::minmax(i, contact.contact);
        std::vector<std::size_t> order(port.contacts.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::swap(order[low], order[high]);
        edits.push_back(exchange_edit(
            contact.port, std::move(order),
            fmt::format("exchange contacts {} and {} in the list of {}", port.contacts[low].label,
                        port.contacts[high].label, name_of(design, contact.port))));
    }
    return edits;
}

std::vector<std::size_t> reversed_order(std::size_t contacts) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < contacts; ++i) order.push_back(contacts - 1 - i);
    return order;
}

std::vector<std::size_t> shifted_order(std::size_t contacts, int shift) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < contacts; ++i) {
        const auto from = static_cast<std::ptrdiff_t>(i) - shift;
        order.push_back(from < 0 ? contacts : static_cast<std::size_t>(from));
    }
    return order;
}

std::vector<std::size_t> rows_exchanged_order(std::size_t contacts) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < contacts; ++i) order.push_back(i % 2 == 0 ? i + 1 : i - 1);
    if (contacts % 2 == 1) order.back() = contacts - 1;  // the last one has no partner
    return order;
}

std::vector<Edit> ribbon_edits(const Design& design, std::size_t ribbon, const RibbonEnds& ends) {
    std::vector<Edit> edits;
    const Ribbon& cut = design.ribbons[ribbon];
    if (design.ribbon_types.at(cut.type).kind == RibbonKind::round) {
        edits.push_back({fmt::format("crimp the sockets of {} with contact 1 on {}", cut.name,
                                     cut.turned_socket ? "the same edge" : "opposite edges"),
                         [ribbon](Design& copy) {
                             bool& turned = copy.ribbons[ribbon].turned_socket;
                             turned = !turned;
                         }});
    } else {
        const Copper other =
            cut.copper == Copper::same_side ? Copper::opposite_side : Copper::same_side;
        edits.push_back(
            {fmt::format("take a ribbon with {} copper for {}", name_of(other), cut.name),
             [=](Design& copy) { copy.ribbons[ribbon].copper = other; }});
        add_lay_edits(cut, ribbon, edits);
    }
    if (ends.a) add_end_edits(design, *ends.a, edits);
    if (ends.b) add_end_edits(design, *ends.b, edits);
    return edits;
}

}  // namespace pinfold
