// Cargo: what must go over a ribbon whose order is left open, and on how many conductors.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "design/wiring.hpp"
#include "order/search.hpp"

namespace pinfold {

/// One net that goes over, and what the boards at the two ends call it; empty for a device's end.
struct CargoNet {
    std::string name;  ///< what the near port of its promise calls it
    std::array<std::string, 2> on_board;
    Role role = Role::low_speed;
    int conductors = 1;
    std::string why;  ///< of several conductors: where the number comes from
};

/// What a ribbon is to carry: signals in the order of their promises, then supplies, then grounds.
struct Cargo {
    std::vector<CargoNet> nets;
    int open = 0;                       ///< conductors that stay open
    std::vector<std::string> left_out;  ///< given up for want of conductors
};

/// Collects every promised signal that starts on one side of the ribbon and ends on the other; of
/// ribbons in a chain, of the chain. Boards that only lead on take the names of the promises.
///
/// A supply gets the conductors its current needs when every contact of the receptacles is loaded
/// (as many as its narrower port has contacts if nobody states a current), grounds as many as the
/// supplies' return needs, and all that is left over. Conductors beyond the wished number of
/// grounds stay open. More than there are conductors is NoOrder, with a smallest set that clashes.
/// Throws InputError for a ribbon that is not joined at both ends or leaves its order to the
/// assembler, that nothing promised would run over, and for grounds a board keeps apart.
std::variant<Cargo, NoOrder> cargo_of(const Design& design, std::size_t ribbon);

}  // namespace pinfold
