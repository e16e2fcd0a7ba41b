#include "order/ordering.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <stdexcept>

#include "design/promise.hpp"
#include "design/read.hpp"
#include "order/alone.hpp"
#include "order/field_coupling.hpp"

namespace pinfold {
namespace {

/// The ports at a ribbon's ends whose order is open, with the end they are at.
std::vector<std::pair<PortRef, End>> open_ports(const Design& design, std::size_t ribbon) {
    std::vector<std::pair<PortRef, End>> open;
    for (const Seat& seat : design.seats) {
        if (seat.ribbon == ribbon && design.port(seat.port).best) {
            open.emplace_back(seat.port, seat.end);
        }
    }
    return open;
}

/// The list of a port from what lies on each conductor; contacts that meet none stay open.
PortList list_of(const Design& design, std::size_t ribbon, PortRef port, End end,
                 const std::vector<std::array<std::string, 2>>& conductors) {
    PortList list{port, std::vector<std::string>(design.port(port).contacts.size(), "open")};
    const Wiring wiring = trace(design);
    for (std::size_t c = 0; c < conductors.size(); ++c) {
        const ConductorNumber number(static_cast<int>(c) + 1);
        const auto contact = wiring.contact_of(design, ribbon, end, number);
        if (!contact) continue;
        list.names[contact->contact] = conductors[c][end == End::a ? 0 : 1];
    }
    return list;
}

/// What lies on each conductor before anybody has chosen: the cargo in its own order.
std::vector<std::array<std::string, 2>> laid_down(const Cargo& cargo) {
    std::vector<std::array<std::string, 2>> conductors;
    for (const CargoNet& net : cargo.nets) {
        for (int n = 0; n < net.conductors; ++n) conductors.push_back(net.on_board);
    }
    for (int n = 0; n < cargo.open; ++n) conductors.push_back({"open", "open"});
    return conductors;
}

/// The far board has its list already: each conductor takes what that board has there.
std::optional<std::vector<std::array<std::string, 2>>> as_given(const Design& design,
                                                                std::size_t ribbon, End given,
                                                                const Cargo& cargo) {
    const Wiring wiring = trace(design);
    std::vector<std::array<std::string, 2>> conductors;
    for (int c = 1; c <= design.ribbons[ribbon].conductors; ++c) {
        std::array<std::string, 2> here{"open", "open"};
        const auto contact = wiring.contact_of(design, ribbon, given, ConductorNumber(c));
        if (contact) {
            const PortContact& there = design.contact(*contact);
            const Board& board = design.boards[contact->port.board];
            const bool ground = there.net ? board.nets[*there.net].ground
                                          : design.signal_of(*contact) != nullptr &&
                                                is_ground(design.signal_of(*contact)->role);
            const std::string name = ground ? "GND" : there.name;
            const std::size_t side = given == End::a ? 0 : 1;
            for (const CargoNet& net : cargo.nets) {
                if (plain_name(net.on_board[side]) == plain_name(name)) here = net.on_board;
            }
        }
        conductors.push_back(here);
    }
    return conductors;
}

class DesignOrder {
public:
    DesignOrder(const std::shared_ptr<const Source>& source, std::filesystem::path folder,
                Library& library, const TimeLimit& limit, std::string result)
        : source_(source),
          folder_(std::move(folder)),
          library_(library),
          limit_(limit),
          result_(result.empty() ? source->name : std::move(result)),
          written_(read_design(source, folder_, library)) {}

    Ordering run() {
        draft();
        ordering_.design = written_;
        if (ordering_.has_order()) choose();
        ordering_.written = std::move(written_);
        return std::move(ordering_);
    }

private:
    void choose() {
        for (std::size_t r = 0; r < written_.ribbons.size(); ++r) solve(read_with(lists_), r);
        Design design = read_with(lists_);
        if (ordering_.has_order()) require_as_claimed(design);
        ordering_.design = std::move(design);
        ordering_.verdict = check_design(ordering_.design);
    }

    Design read_with(const std::vector<PortList>& lists) {
        if (lists.empty()) return written_;
        ordering_.text = with_lists(written_, *source_, lists);
        const auto text = std::make_shared<const Source>(Source{result_, ordering_.text});
        Design design = read_design(text, folder_, library_);
        design.file = written_.file;
        // What the user wishes is told in the lines of the user's own file.
        for (std::size_t r = 0; r < design.ribbons.size(); ++r) {
            design.ribbons[r].wishes = written_.ribbons[r].wishes;
        }
        return design;
    }

    /// Gives every open port some list, so that the design can be traced.
    void draft() {
        for (std::size_t r = 0; r < written_.ribbons.size(); ++r) {
            const auto open = open_ports(written_, r);
            if (open.empty()) continue;
            RibbonOrder order;
            order.ribbon = written_.ribbons[r].name;
            order.chosen = open.size() == 2;
            auto cargo = cargo_of(written_, r);
            if (NoOrder* none = std::get_if<NoOrder>(&cargo)) {
                order.rules = none->rules;
                ordering_.ribbons.push_back(std::move(order));
                continue;
            }
            order.cargo = std::move(std::get<Cargo>(cargo));
            auto conductors = laid_down(order.cargo);
            if (open.size() == 1) {
                const End given = open.front().second == End::a ? End::b : End::a;
                if (auto fixed = as_given(written_, r, given, order.cargo)) conductors = *fixed;
            }
            for (const auto& [port, end] : open) {
                lists_.push_back(list_of(written_, r, port, end, conductors));
            }
            ordering_.ribbons.push_back(std::move(order));
        }
    }

    /// The finished design, traced, must have the figures that were promised.
    void require_as_claimed(const Design& design) const {
        const Wiring wiring = trace(design);
        for (std::size_t r = 0; r < design.ribbons.size(); ++r) {
            for (const RibbonOrder& order : ordering_.ribbons) {
                if (!order.chosen || order.ribbon != design.ribbons[r].name) continue;
                OrderQuestion question = order_question(design, wiring, r, undecided_after(r));
                question.problem.coupling = order.problem.coupling;
                if (figures_of(question.problem, question.as_drawn) == order.best.cost) continue;
                throw std::logic_error("the traced order of " + order.ribbon +
                                       " is not the one that was chosen");
            }
        }
    }

    /// The open ports of ribbons that come after this one.
    std::set<PortRef> undecided_after(std::size_t ribbon) const {
        std::set<PortRef> ports;
        for (std::size_t r = ribbon + 1; r < written_.ribbons.size(); ++r) {
            for (const auto& [port, end] : open_ports(written_, r)) ports.insert(port);
        }
        return ports;
    }

    RibbonOrder& order_of(const std::string& ribbon) {
        const auto known = std::ranges::find(ordering_.ribbons, ribbon, &RibbonOrder::ribbon);
        if (known != ordering_.ribbons.end()) return *known;
        RibbonOrder fresh;
        fresh.ribbon = ribbon;
        ordering_.ribbons.push_back(std::move(fresh));
        return ordering_.ribbons.back();
    }

    void solve(const Design& design, std::size_t r) {
        const Wiring wiring = trace(design);
        const RibbonEnds& ends = wiring.ends_of(r);
        if (!ends.a || !ends.b) return;
        const double began = limit_.now();
        const std::set<PortRef> undecided = undecided_after(r);
        OrderQuestion question = order_question(design, wiring, r, undecided);
        question.problem.coupling = coupling_of(design, design.ribbons[r]);
        RibbonOrder& order = order_of(design.ribbons[r].name);
        const Stop stop = [this] { return limit_.now() > limit_.seconds; };
        OrderAnswer answer = best_order(question.problem, stop);
        if (NoOrder* none = std::get_if<NoOrder>(&answer)) {
            order.rules = none->rules;
            return;
        }
        order.best = std::move(std::get<BestOrder>(answer));
        for (const PortRef port : undecided) {
            const bool meets = port.board == design.seats[*ends.a].port.board ||
                               port.board == design.seats[*ends.b].port.board;
            if (meets) order.counted_later.push_back(port);
        }
        order.seconds = limit_.now() - began;
        if (!order.chosen) {
            order.split = question.split;
            order.drawn = figures_of(question.problem, question.as_drawn);
        }
        const ConductorOrder& shown = order.chosen ? order.best.order : question.as_drawn;
        for (const Laid& laid : shown) {
            order.conductors.push_back(
                question.problem.items[laid.item].names[static_cast<std::size_t>(laid.half)]);
        }
        find_alone(question.problem, order, stop);
        order.problem = std::move(question.problem);
        put_in_place(design, wiring, r, order, question.as_drawn);
    }

    /// What each aim would reach if it came first.
    static void find_alone(const OrderProblem& problem, RibbonOrder& order, const Stop& stop) {
        for (const Aim aim : all_aims) {
            // Mismatch alone is an assignment of every pair to every place: left out, it says
            // little beside the crossings.
            if (aim == Aim::mismatch || stop()) continue;
            order.alone[static_cast<std::size_t>(aim)] = least_alone(problem, aim, stop);
        }
    }

    /// Puts the chosen order into the lists: each conductor takes the words of the draft's
    /// conductor that carries the same.
    void put_in_place(const Design& draft, const Wiring& wiring, std::size_t r, RibbonOrder& order,
                      const ConductorOrder& as_drawn) {
        for (PortList& list : lists_) {
            for (const auto& [port, end] : open_ports(written_, r)) {
                if (port != list.port) continue;
                if (order.chosen) rearrange(draft, wiring, r, end, as_drawn, order, list);
                order.lists.push_back(list);
            }
        }
    }

    static void rearrange(const Design& draft, const Wiring& wiring, std::size_t r, End end,
                          const ConductorOrder& as_drawn, const RibbonOrder& order,
                          PortList& list) {
        const std::vector<std::string> before = list.names;
        const auto place = [&](std::size_t conductor) {
            return wiring.contact_of(draft, r, end,
                                     ConductorNumber(static_cast<int>(conductor) + 1));
        };
        for (std::size_t c = 0; c < as_drawn.size(); ++c) {
            const auto drawn = std::ranges::find(as_drawn, order.best.order[c]);
            const auto from = place(static_cast<std::size_t>(drawn - as_drawn.begin()));
            const auto to = place(c);
            if (from && to) list.names[to->contact] = before[from->contact];
        }
    }

    std::shared_ptr<const Source> source_;
    std::filesystem::path folder_;
    Library& library_;
    TimeLimit limit_;
    std::string result_;
    Design written_;
    std::vector<PortList> lists_;
    Ordering ordering_;
};

}  // namespace

bool Ordering::has_order() const {
    return std::ranges::all_of(ribbons, [](const RibbonOrder& any) { return any.rules.empty(); });
}

bool Ordering::all_proved() const {
    return std::ranges::all_of(ribbons, [](const RibbonOrder& any) { return any.best.proved; });
}

Ordering order_design(const std::shared_ptr<const Source>& source,
                      const std::filesystem::path& folder, Library& library, const TimeLimit& limit,
                      std::string result) {
    return DesignOrder(source, folder, library, limit, std::move(result)).run();
}

}  // namespace pinfold
