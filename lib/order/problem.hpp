// The ordering problem: what is to lie on the conductors of one ribbon, and what is wanted of it.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "order/coupling.hpp"

namespace pinfold {

/// What an order is judged by, all to be least.
///
/// `guards`: sides of fast pairs with no ground beside them. `hazards`: what supplies would meet
/// that cannot stand them, were the ribbon put in reversed or one place off. `noise`: coupling in
/// thousandths of that between two neighbours. `crossings`: of traces on both boards. `mismatch`:
/// lateral way in micrometres, of halves against each other and of pairs in all. `returns`: supply
/// conductors with no ground beside them.
enum class Aim { guards, hazards, noise, crossings, mismatch, returns };
inline constexpr std::size_t aim_count = 6;
inline constexpr std::array all_aims{Aim::guards,    Aim::hazards,  Aim::noise,
                                     Aim::crossings, Aim::mismatch, Aim::returns};

std::string_view name_of(Aim aim);

/// One figure for each aim, in the order of `all_aims`.
using Figures = std::array<std::int64_t, aim_count>;
inline std::int64_t& figure(Figures& figures, Aim aim) {
    return figures[static_cast<std::size_t>(aim)];
}
inline std::int64_t figure(const Figures& figures, Aim aim) {
    return figures[static_cast<std::size_t>(aim)];
}

/// Where the connectors of a board have one signal: places across the board in micrometres, rising
/// with the conductors. None if the board has no say.
using PadPlaces = std::vector<int>;

/// Something that takes conductors: a pair two beside each other, a single one, supplies, grounds
/// and open conductors as many as they have copies, all alike.
struct OrderItem {
    enum class Kind { pair, single, supply, ground, open };

    Kind kind = Kind::single;
    std::array<std::string, 2> names;  ///< of the halves of a pair; the first alone for all else
    int copies = 1;
    bool fast = false;             ///< a pair that needs a ground on both sides
    std::uint32_t withstands = 0;  ///< a bit for each supply, by its place among the supplies
    int strength = 0;              ///< as a source of noise
    int sensitivity = 0;           ///< to noise
    std::array<std::array<PadPlaces, 2>, 2> pads;  ///< by board and half

    int width() const { return kind == Kind::pair ? 2 : 1; }
};

/// A place the user has given away: this half of this item on this conductor, counted from 0.
struct FixedPlace {
    int conductor = 0;
    std::size_t item = 0;
    int half = 0;
};

/// The whole question. The copies of all items fill the conductors exactly.
struct OrderProblem {
    int conductors = 0;
    int pitch_um = 500;
    int shift = 1;  ///< conductors that a ribbon sits off by when it sits one contact off
    std::vector<OrderItem> items;
    std::vector<FixedPlace> fixed;
    std::vector<Aim> ranking{all_aims.begin(), all_aims.end()};  ///< each aim once
    Coupling coupling = coupling_by_distance();
};

/// What lies on one conductor.
struct Laid {
    std::size_t item = 0;
    int half = 0;
    friend auto operator<=>(const Laid&, const Laid&) = default;
};

/// An order: what lies on each conductor, the first first.
using ConductorOrder = std::vector<Laid>;

/// All figures of an order, worked out from its definition alone, without the search.
Figures figures_of(const OrderProblem& problem, const ConductorOrder& order);

/// Whether the copies are right, the halves of each pair lie side by side, and every fixed place
/// is kept.
bool keeps_the_rules(const OrderProblem& problem, const ConductorOrder& order);

/// Crossings that item `left` has with item `right` when it lies before it, on both boards.
///
/// Traces cross when their pads lie the other way round than their conductors. Grounds and open
/// conductors cross nothing; a supply joins its nearest pad.
int crossings_of(const OrderItem& left, const OrderItem& right);

/// Crossings of the two halves of a pair on both boards; `flipped` if its second half lies first.
int crossings_within(const OrderItem& pair, bool flipped);

/// The mismatch that an item adds at a place (its first conductor, counted from 0).
std::int64_t mismatch_at(const OrderProblem& problem, std::size_t item, int conductor,
                         bool flipped);

/// Whether a supply would harm what it meets.
bool harms(const OrderItem& supply, std::size_t supply_number, const OrderItem& met);

/// The supplies among the items, by their place in them.
std::vector<std::size_t> supplies_of(const OrderProblem& problem);

}  // namespace pinfold
