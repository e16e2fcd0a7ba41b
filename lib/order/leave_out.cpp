#include "order/leave_out.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/spelling.hpp"

namespace pinfold {
namespace {

std::vector<CargoNet>::iterator net_called(Cargo& cargo, const Written& written) {
    return std::ranges::find_if(cargo.nets, [&](const CargoNet& any) {
        return plain_name(any.name) == plain_name(written.text);
    });
}

/// What may be given up must be carried, be a single, and stand in the list once.
void require_singles(const Ribbon& ribbon, Cargo& cargo) {
    std::set<std::string> named;
    for (const Written& written : ribbon.wishes.may_leave_out) {
        const auto net = net_called(cargo, written);
        if (net == cargo.nets.end()) {
            refuse("signal-unknown", fmt::format("{} carries no '{}'", ribbon.name, written.text),
                   written.at);
        }
        if (net->role == Role::pair_half) {
            refuse(
                "order-leave-out",
                fmt::format("{} is a half of a pair; only singles may be left out", written.text),
                written.at);
        }
        if (!named.insert(plain_name(written.text)).second) {
            refuse("order-leave-out", fmt::format("{} stands twice in this list", written.text),
                   written.at);
        }
    }
}

}  // namespace

int leave_out(const Ribbon& ribbon, int over, Cargo& cargo) {
    require_singles(ribbon, cargo);
    int saved = 0;
    for (const Written& written : ribbon.wishes.may_leave_out) {
        if (saved >= over) break;
        const auto net = net_called(cargo, written);
        saved += net->conductors;
        cargo.left_out.push_back(net->name);
        cargo.nets.erase(net);
    }
    return saved;
}

}  // namespace pinfold
