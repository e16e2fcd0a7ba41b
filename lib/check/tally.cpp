#include "check/tally.hpp"

#include <algorithm>

namespace pinfold {

void Tally::count(std::size_t meant, std::size_t drawn, long step) {
    if (drawn == no_net) return;
    long& pads = pads_[{meant, drawn}];
    const bool turns = step > 0 ? pads == 0 : pads == 1;
    pads += step;
    if (!turns) return;
    for (long* nets : {&of_meant_[meant], &of_drawn_[drawn]}) {
        const long before = *nets;
        *nets += step;
        if (std::max(before, *nets) > 1) cost_ += step;
    }
}

void Tally::add(std::size_t meant, std::size_t drawn) { count(meant, drawn, 1); }
void Tally::remove(std::size_t meant, std::size_t drawn) { count(meant, drawn, -1); }

}  // namespace pinfold
