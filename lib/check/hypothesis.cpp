#include "check/hypothesis.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "design/promise.hpp"

namespace pinfold {
namespace {

constexpr std::size_t no_contact = static_cast<std::size_t>(-1);

/// The place in `row` of the contact that bears `signal` for the n-th time; for a ground, of any
/// ground if there is none of its name.
std::size_t place_bearing(const std::vector<Contact>& row, const Interface& interface,
                          std::size_t signal, std::size_t n) {
    std::size_t last = no_contact;
    std::size_t any_ground = no_contact;
    for (std::size_t i = 0; i < row.size(); ++i) {
        if (!row[i].signal) continue;
        if (is_ground(interface.signals[*row[i].signal].role)) any_ground = i;
        if (*row[i].signal != signal) continue;
        last = i;
        if (n-- == 0) return i;
    }
    if (last != no_contact) return last;
    return is_ground(interface.signals[signal].role) ? any_ground : no_contact;
}

/// The rewiring that turns a row wired in the order of `written` into one in the order of `meant`.
std::vector<std::size_t> reordering(const std::vector<Contact>& written,
                                    const std::vector<Contact>& meant, const Interface& interface) {
    std::vector<std::size_t> order;
    std::vector<std::size_t> seen(interface.signals.size(), 0);
    for (const Contact& contact : meant) {
        order.push_back(contact.signal ? place_bearing(written, interface, *contact.signal,
                                                       seen[*contact.signal]++)
                                       : no_contact);
    }
    return order;
}

class Guesses {
public:
    Guesses(const Design& design, const Wiring& wiring) : design_(design), wiring_(wiring) {}

    std::vector<Hypothesis> all() {
        for (std::size_t r = 0; r < design_.ribbons.size(); ++r) {
            if (!wiring_.ends_of(r).a || !wiring_.ends_of(r).b) continue;
            guess_mirrored(r);
            for (const int shift : {1, -1, 2, -2}) guess_shifted(r, shift);
            guess_header_rows(*wiring_.ends_of(r).a);
            guess_header_rows(*wiring_.ends_of(r).b);
        }
        for (std::size_t j = 0; j < design_.joins.size(); ++j) {
            const PortJoin& join = design_.joins[j];
            guess_connector(join.a, join.b);
            guess_connector(join.b, join.a);
        }
        return std::move(guesses_);
    }

private:
    bool is_board(PortRef port) const { return !design_.boards[port.board].is_device; }

    void add(const char* rule, std::string text, const Mark& at, std::vector<Note> notes,
             std::vector<std::string> places, Edit undo, std::vector<Edit> repairs) {
        guesses_.push_back(
            {{Severity::error, rule, std::move(text), at, std::move(notes), std::move(places), {}},
             std::move(undo),
             std::move(repairs)});
    }

    std::vector<Note> end_notes(std::size_t r) const {
        const RibbonEnds& ends = wiring_.ends_of(r);
        return {{design_.port(design_.seats[*ends.a].port).at, "end a goes in here"},
                {design_.port(design_.seats[*ends.b].port).at, "end b goes in here"}};
    }

    std::vector<std::string> end_places(std::size_t r) const {
        const RibbonEnds& ends = wiring_.ends_of(r);
        return {design_.ribbons[r].name, name_of(design_, design_.seats[*ends.a].port),
                name_of(design_, design_.seats[*ends.b].port)};
    }

    void guess_mirrored(std::size_t r) {
        const Ribbon& ribbon = design_.ribbons[r];
        const std::vector<std::string> places = end_places(r);
        const std::optional<Seating>& seating = wiring_.seating_of(r);
        const bool mirrored = seating && seating->order == Order::mirrored;
        const Edit undo{"", [r](Design& copy) {
                            Ribbon& there = copy.ribbons[r];
                            there.lay.reset();
                            there.turned_socket = !there.turned_socket;
                            there.copper = there.copper == Copper::same_side ? Copper::opposite_side
                                                                             : Copper::same_side;
                        }};
        add("order-mirrored",
            fmt::format("{} joins contact 1 of {} to contact {} of {}, but the lists of the boards "
                        "agree only if it meets contact {}: the order is the wrong way round",
                        places[0], places[1], mirrored ? ribbon.conductors : 1, places[2],
                        mirrored ? 1 : ribbon.conductors),
            ribbon.at, end_notes(r), places, undo, ribbon_edits(design_, r, wiring_.ends_of(r)));
    }

    void guess_shifted(std::size_t r, int shift) {
        const std::size_t seat = *wiring_.ends_of(r).b;
        const Edit undo{"", [seat, shift](Design& copy) { copy.seats[seat].slip += shift; }};
        const std::vector<std::string> places = end_places(r);
        const int places_off = shift < 0 ? -shift : shift;
        add("order-shifted",
            fmt::format(
                "the contact lists of {} and {} are {} apart: every signal of {} arrives "
                "beside its own contact",
                places[1], places[2],
                places_off == 1 ? std::string("one place") : fmt::format("{} places", places_off),
                places[0]),
            design_.ribbons[r].at, end_notes(r), places, undo,
            ribbon_edits(design_, r, wiring_.ends_of(r)));
    }

    /// What a board's connector may be wired as, given the port it goes into.
    void guess_connector(PortRef ours, PortRef theirs) {
        const Port& port = design_.port(ours);
        const Port& other = design_.port(theirs);
        if (!is_board(ours) || other.connector.empty() || port.connector.empty()) return;
        const Connector& meant = design_.connectors.at(other.connector);
        const Interface& interface = design_.interfaces.at(meant.interface);
        if (port.contacts.size() != other.contacts.size()) return;
        if (port.by_table && port.connector == meant.id) return;
        for (const auto& [id, written] : design_.connectors) {
            if (written.interface != meant.interface || id == meant.id) continue;
            if (written.contacts.size() != meant.contacts.size()) continue;
            guess_order(ours, theirs, written, meant, interface);
        }
        if (!port.by_table) guess_list(ours, theirs);
        if (meant.flippable) {
            guess_rows(ours, flipped_order(port));
        } else if (meant.face && meant.face->rows.size() == 2) {
            guess_rows(ours, rows_exchanged_order(port.contacts.size()));
        }
    }

    Edit rewiring(PortRef at, std::vector<std::size_t> order, std::string text) const {
        return {std::move(text),
                [at, order](Design& copy) { rewire(copy.boards[at.board].ports[at.port], order); }};
    }

    void guess_order(PortRef ours, PortRef theirs, const Connector& written, const Connector& meant,
                     const Interface& interface) {
        const std::string name = name_of(design_, ours);
        const Edit undo =
            rewiring(ours, reordering(written.contacts, meant.contacts, interface),
                     fmt::format("wire {} in the contact order of {}", name, meant.id));
        add("connector-order",
            fmt::format("{} is wired in the contact order of {}, but it goes into {}, which is {}",
                        name, written.id, name_of(design_, theirs), meant.id),
            design_.port(ours).at, {{design_.port(theirs).at, "it goes in here"}},
            {name, design_.boards[ours.board].name}, undo, {undo});
    }

    /// A connector's list that is one place off or runs the other way.
    void guess_list(PortRef ours, PortRef theirs) {
        const std::string name = name_of(design_, ours);
        const std::size_t count = design_.port(ours).contacts.size();
        const auto guess = [&](std::vector<std::size_t> order, const char* what, std::string mend) {
            const Edit undo = rewiring(ours, std::move(order), std::move(mend));
            add("connector-order",
                fmt::format("the list of {} {} the contact order of {}, which it goes into", name,
                            what, name_of(design_, theirs)),
                design_.port(ours).at, {{design_.port(theirs).at, "it goes in here"}},
                {name, design_.boards[ours.board].name}, undo, {undo});
        };
        for (const int shift : {1, -1}) {
            guess(shifted_order(count, shift), "is one place off", move_text(name, shift));
        }
        guess(reversed_order(count), "runs against", reverse_text(name));
    }

    /// Row A where row B should be.
    static std::vector<std::size_t> flipped_order(const Port& port) {
        std::vector<std::size_t> order;
        for (const PortContact& contact : port.contacts) {
            const auto twin =
                std::ranges::find(port.contacts, flipped_label(contact.label), &PortContact::label);
            order.push_back(static_cast<std::size_t>(twin - port.contacts.begin()));
        }
        return order;
    }

    /// A ribbon's header with two rows, wired as if it stood on the other side of the board.
    void guess_header_rows(std::size_t seat) {
        const PortRef at = design_.seats[seat].port;
        const Port& port = design_.port(at);
        if (!is_board(at) || !port.ribbon) return;
        if (design_.receptacle_types.at(port.ribbon->receptacle).rows != 2) return;
        guess_rows(at, rows_exchanged_order(port.contacts.size()));
    }

    void guess_rows(PortRef ours, std::vector<std::size_t> order) {
        const std::string name = name_of(design_, ours);
        const bool zigzag = order.size() > 1 && order[0] == 1;
        const Edit undo = rewiring(
            ours, std::move(order),
            fmt::format("exchange {} contacts of {}", zigzag ? "odd and even" : "A and B", name));
        add("rows-exchanged",
            fmt::format("the two rows of {} are exchanged: {} contacts have changed places", name,
                        zigzag ? "odd and even" : "A and B"),
            design_.port(ours).at, {}, {name, design_.boards[ours.board].name}, undo, {undo});
    }

    const Design& design_;
    const Wiring& wiring_;
    std::vector<Hypothesis> guesses_;
};

}  // namespace

std::set<PassKey> failing(const Wiring& wiring) {
    std::set<PassKey> keys;
    for (const Pass& pass : wiring.passes()) {
        if (pass.state != State::good) keys.insert({pass.carry, pass.from});
    }
    return keys;
}

std::vector<Hypothesis> hypotheses(const Design& design, const Wiring& wiring) {
    return Guesses(design, wiring).all();
}

}  // namespace pinfold
