#include "order/cargo.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "base/fields.hpp"
#include "base/spelling.hpp"
#include "design/promise.hpp"
#include "order/chain.hpp"
#include "order/end_names.hpp"
#include "order/leave_out.hpp"
#include "order/too_many.hpp"

namespace pinfold {
namespace {

/// The design with ribbons taken out of their receptacles.
Design without(const Design& design, const std::set<std::size_t>& ribbons) {
    Design copy = design;
    std::erase_if(copy.seats, [&](const Seat& seat) { return ribbons.contains(seat.ribbon); });
    return copy;
}

class CargoReader {
public:
    CargoReader(const Design& design, std::size_t ribbon)
        : design_(design),
          ribbon_(ribbon),
          cut_(design.ribbons[ribbon]),
          ends_(ribbon_ends(design)[ribbon]) {}

    std::variant<Cargo, NoOrder> read() {
        require_ends();
        const Chain chain = chain_of(design_, ribbon_);
        mouths_ = chain.mouths;
        const Design bare = without(design_, chain.ribbons);
        wiring_ = trace(bare);
        names_ = {names_at(bare, wiring_, mouths_[0]), names_at(bare, wiring_, mouths_[1])};
        for (std::size_t c = 0; c < design_.carries.size(); ++c) {
            for (const Promise& promise : promises_of(design_, c)) take(c, promise);
        }
        require_cargo();
        require_one_ground();
        count_supplies();
        std::variant<Cargo, NoOrder> cargo = share_out();
        if (Cargo* known = std::get_if<Cargo>(&cargo)) name_what_leads_on(*known);
        return cargo;
    }

private:
    void require_ends() const {
        if (!ends_.a || !ends_.b) {
            refuse("order-ends",
                   fmt::format("{} is not joined at both ends, so there is no order to choose",
                               cut_.name),
                   cut_.at);
        }
        const auto seating = seating_of(design_, ribbon_, ends_);
        if (!seating || seating->order == Order::either) {
            refuse("order-ends",
                   fmt::format("how {} comes out is up to the assembler: say with 'touches' which "
                               "row of the both-sided receptacle it meets",
                               cut_.name),
                   cut_.at);
        }
    }

    void take(std::size_t carry, const Promise& promise) {
        const std::uint32_t from = wiring_.piece_of(wiring_.point_of(promise.from));
        const std::uint32_t to = wiring_.piece_of(wiring_.point_of(promise.to));
        if (from == to) return;
        const bool forth = names_[0].contains(from) && names_[1].contains(to);
        const bool back = names_[1].contains(from) && names_[0].contains(to);
        if (!forth && !back) return;
        const std::pair pieces = forth ? std::pair(as_one(0, from), as_one(1, to))
                                       : std::pair(as_one(0, to), as_one(1, from));
        if (is_ground(promise.role)) {
            grounds_.insert(pieces);
            return;
        }
        const auto [known, is_new] = places_.try_emplace(pieces, cargo_.nets.size());
        if (is_new) {
            const Interface& near = *design_.interface_of(design_.port(promise.from.port));
            cargo_.nets.push_back({near.signals[promise.signal].name,
                                   {names_[0].at(pieces.first), names_[1].at(pieces.second)},
                                   promise.role,
                                   1,
                                   {}});
            first_.push_back({carry, promise});
        }
        if (promise.role == Role::supply) {
            ++near_contacts_[known->second][promise.from.contact];
            ++far_contacts_[known->second][promise.to.contact];
        }
    }

    /// A device joins contacts of one name inside: the first piece stands for them all.
    std::uint32_t as_one(std::size_t end, std::uint32_t piece) const {
        if (!design_.boards[mouths_[end].board].is_device) return piece;
        const std::string& name = names_[end].at(piece);
        return std::ranges::find(names_[end], name,
                                 [](const auto& any) -> const std::string& { return any.second; })
            ->first;
    }

    void require_cargo() const {
        if (!cargo_.nets.empty() || !grounds_.empty()) return;
        refuse("order-nothing",
               fmt::format("nothing that is promised would run over {}: the boards at its ends say "
                           "too little of what they are to carry",
                           cut_.name),
               cut_.at);
    }

    /// A board that only leads on has no names of its own: nets get those of their promises, a
    /// second of one name its number too.
    void name_what_leads_on(Cargo& cargo) const {
        for (std::size_t end = 0; end < 2; ++end) {
            const std::size_t seat = end == 0 ? *ends_.a : *ends_.b;
            if (!leads_on(design_.boards[design_.seats[seat].port.board])) continue;
            std::map<std::string, int> used;
            for (CargoNet& net : cargo.nets) {
                const int number = ++used[net.name];
                net.on_board[end] = number == 1 ? net.name : fmt::format("{}_{}", net.name, number);
            }
        }
    }

    void require_one_ground() const {
        if (grounds_.size() < 2) return;
        refuse("order-grounds",
               fmt::format("the boards at {} keep {} grounds apart; the best order is chosen for "
                           "boards with one ground",
                           cut_.name, grounds_.size()),
               cut_.at);
    }

    /// What one conductor may carry with every contact loaded.
    double rating() const {
        constexpr double usual_all_loaded = 0.7;  // as the check of ratings takes it
        double least = 1e9;
        if (const auto current = design_.ribbon_types.at(cut_.type).current) {
            least = current->value() * usual_all_loaded;
        }
        for (const std::size_t seat : {*ends_.a, *ends_.b}) {
            const Port& port = design_.port(design_.seats[seat].port);
            if (!port.ribbon) continue;
            const ReceptacleType& type = design_.receptacle_types.at(port.ribbon->receptacle);
            if (!type.current) continue;
            const double share =
                type.all_loaded ? type.all_loaded->value() / 100.0 : usual_all_loaded;
            least = std::min(least, type.current->value() * share);
        }
        return least;
    }

    std::optional<double> current_of(std::size_t net) const {
        const Carry& carry = design_.carries[first_[net].carry];
        if (carry.current) return carry.current->value();
        const Interface& near = *design_.interface_of(design_.port(carry.from));
        const Supply* window = near.supply_of(first_[net].promise.signal);
        if (window && window->current) return window->current->value();
        return std::nullopt;
    }

    void count_supplies() {
        for (std::size_t n = 0; n < cargo_.nets.size(); ++n) {
            CargoNet& net = cargo_.nets[n];
            if (net.role != Role::supply) continue;
            const double each = rating();
            if (const auto current = current_of(n)) {
                net.conductors = std::max(1, static_cast<int>(std::ceil(*current / each - 1e-9)));
                net.why = fmt::format("{:g} A at {:.2f} A a conductor", *current, each);
                returning_ += *current;
            } else {
                net.conductors =
                    static_cast<int>(std::min(near_contacts_[n].size(), far_contacts_[n].size()));
                net.why = "as many as the narrower port has contacts; nobody states a current";
            }
            wish_supply(net);
        }
        for (const auto& [written, count] : cut_.wishes.supplies) {
            const std::string wished = plain_name(written.text);
            const bool used = std::ranges::any_of(cargo_.nets, [&](const CargoNet& net) {
                return net.role == Role::supply && plain_name(net.name) == wished;
            });
            if (!used) {
                refuse("signal-unknown",
                       fmt::format("{} carries no supply '{}'", cut_.name, written.text),
                       written.at);
            }
        }
    }

    void wish_supply(CargoNet& net) const {
        for (const auto& [written, count] : cut_.wishes.supplies) {
            if (plain_name(written.text) != plain_name(net.name)) continue;
            net.conductors = count;
            net.why = "as the file says";
        }
    }

    /// Conductors that the file wants open: `fixed: {2: open}`.
    int kept_open() const {
        return static_cast<int>(std::ranges::count_if(cut_.wishes.fixed, [](const auto& fixed) {
            return plain_name(fixed.second.text) == plain_name("open");
        }));
    }

    std::variant<Cargo, NoOrder> share_out() {
        int needed = 0;
        for (const CargoNet& net : cargo_.nets) needed += net.conductors;
        int grounds = 0;
        std::string why;
        if (!grounds_.empty()) {
            const int for_return = static_cast<int>(std::ceil(returning_ / rating() - 1e-9));
            grounds = std::max(1, for_return);
            why = for_return > 1 ? fmt::format("the return of {:g} A", returning_) : "one at least";
        }
        const auto& wished = cut_.wishes.grounds;
        if (wished && *wished > grounds) {
            grounds = *wished;
            why = "as the file says";
        }
        const int open = kept_open();
        needed -= leave_out(cut_, needed + grounds + open - cut_.conductors, cargo_);
        const int left = cut_.conductors - needed - grounds - open;
        if (left < 0) return too_many(cut_, cargo_.nets, {grounds, why, open});
        cargo_.open = open;
        if (grounds > 0 && !wished) {
            grounds += left;
            if (left > 0) why = "all that is left over";
        } else {
            cargo_.open += left;
        }
        if (grounds > 0) {
            cargo_.nets.push_back(
                {"GND",
                 {names_[0].at(grounds_.begin()->first), names_[1].at(grounds_.begin()->second)},
                 Role::ground,
                 grounds,
                 why});
        }
        return std::move(cargo_);
    }

    struct First {
        std::size_t carry;
        Promise promise;
    };

    const Design& design_;
    std::size_t ribbon_;
    const Ribbon& cut_;
    RibbonEnds ends_;
    std::array<PortRef, 2> mouths_;
    Wiring wiring_;
    std::array<EndNames, 2> names_;
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::size_t> places_;
    std::set<std::pair<std::uint32_t, std::uint32_t>> grounds_;
    std::vector<First> first_;  ///< by net: the promise that brought it
    std::map<std::size_t, std::map<std::size_t, int>> near_contacts_, far_contacts_;
    double returning_ = 0.0;
    Cargo cargo_;
};

}  // namespace

std::variant<Cargo, NoOrder> cargo_of(const Design& design, std::size_t ribbon) {
    return CargoReader(design, ribbon).read();
}

}  // namespace pinfold
