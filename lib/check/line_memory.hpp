// What was worked out of lines before: fields, impedances, channels.
// Equal ones are worked out once.
#pragma once

#include <limits>
#include <map>
#include <tuple>
#include <vector>

#include "check/channel_plan.hpp"
#include "physics/pair_impedance.hpp"
#include "physics/solved_sections.hpp"

namespace pinfold {

/// A pair on a ribbon, every other signal conductor held at ground.
struct PairOnRibbon {
    PairImpedance impedance;
    /// s/m; of each half, so that their mean is the pair's own delay and their difference that of
    /// the two conductors by themselves, if it is more than the error of the field.
    double plus_delay = 0.0, minus_delay = 0.0;
};

/// Kept by whoever begins a run and passed down, for one design or for many that are much alike.
class LineMemory {
public:
    /// No channel is measured that would bring the cubes of the conductors of all ribbons in
    /// measured channels above `most_work`.
    explicit LineMemory(double most_work = std::numeric_limits<double>::infinity())
        : most_work_(most_work) {}

    const FieldSolution& field_of(const Section& section) { return fields_.of(section); }

    /// The conductors `plus` and `minus` of a section, those of `ground` tied together.
    const PairOnRibbon& pair_of(const FieldSolution& field, const std::vector<std::size_t>& ground,
                                std::size_t plus, std::size_t minus);

    /// One conductor of a section by itself, those of `ground` tied together.
    SingleImpedance single_of(const FieldSolution& field, const std::vector<std::size_t>& ground,
                              std::size_t conductor);

    /// Nothing if it is too much work.
    const ChannelResult* result_of(const ChannelPlan& plan);

private:
    using Grounded = std::pair<const FieldSolution*, std::vector<std::size_t>>;

    const PerMetre& line_of(const Grounded& grounded);

    SolvedSections fields_;
    std::map<Grounded, PerMetre> lines_;
    std::map<std::tuple<Grounded, std::size_t, std::size_t>, PairOnRibbon> pairs_;
    std::map<ChannelPlan, ChannelResult> results_;
    double most_work_, work_ = 0.0;
};

/// Scattering of the planned promise's own pairs over the frequencies that its rate needs; other
/// promises' pairs are matched.
Sweep sweep_of(const ChannelPlan& plan);

}  // namespace pinfold
