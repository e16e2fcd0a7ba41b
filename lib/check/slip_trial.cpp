#include "check/slip_trial.hpp"

namespace pinfold {

std::vector<std::size_t> nets_without(const PadShifts& shifts,
                                      const std::vector<ComparedPad>& pads) {
    std::vector<std::size_t> nets;
    nets.reserve(shifts.size());
    for (const auto& [pad, place] : shifts) {
        nets.push_back(place == no_net ? no_net : pads[place].drawn);
    }
    return nets;
}

Tally tally_of(const std::vector<ComparedPad>& pads) {
    Tally tally(nets_of(pads, &ComparedPad::meant), nets_of(pads, &ComparedPad::drawn));
    for (const ComparedPad& pad : pads) tally.add(pad.meant, pad.drawn);
    return tally;
}

SlipTrial::SlipTrial(const std::vector<ComparedPad>& pads, std::vector<std::size_t> out,
                     Tally& tally)
    : pads_(pads), out_(std::move(out)), tally_(tally) {
    for (const std::size_t pad : out_) tally_.remove(pads[pad].meant, pads[pad].drawn);
}

SlipTrial::~SlipTrial() {
    for (const std::size_t pad : out_) tally_.add(pads_[pad].meant, pads_[pad].drawn);
}

long SlipTrial::cost_without(const PadShifts& shifts, long least) {
    const std::vector<std::size_t> nets = nets_without(shifts, pads_);
    std::size_t done = 0;
    while (done < nets.size() && tally_.cost() < least) {
        tally_.add(pads_[shifts[done].first].meant, nets[done]);
        ++done;
    }
    const long cost = tally_.cost();
    while (done-- > 0) tally_.remove(pads_[shifts[done].first].meant, nets[done]);
    return cost;
}

}  // namespace pinfold
