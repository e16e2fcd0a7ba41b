// The course of a pair: the ribbons it crosses, and where others run beside it.
#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "check/ribbon_line.hpp"

namespace pinfold {

/// The ribbons a pair crosses, each with whether it is entered at end a.
using RibbonCourse = std::vector<std::pair<std::size_t, bool>>;

/// Empty if the pair goes over leads, or its halves go different ways or over what has no field.
RibbonCourse course_of(RibbonLines& ribbons, const HalfWay& plus, const HalfWay& minus);

/// A pair, or a single, as it runs along a course that may be another's.
struct Beside {
    const PairWay* pair = nullptr;  ///< one of the two
    const SingleWay* single = nullptr;
    bool reversed = false;                         ///< it runs the other way
    std::vector<std::optional<std::size_t>> legs;  ///< for each ribbon of the course, its own place

    std::size_t carry() const { return pair ? pair->carry : single->carry; }
    std::vector<const HalfWay*> halves() const;
    /// What it meets before the ribbon at a place of the course, or behind the last: its own
    /// landing, if that leads there from the ribbon before or from its port.
    std::optional<std::size_t> landing_at(std::size_t place) const;
};

/// A pair along its own course.
Beside along_own(const PairWay& way);

/// A pair or single, `other`, of another course along this one; nothing where they share no ribbon,
/// or meet them in another order, or some the one way and some the other.
std::optional<Beside> along(const RibbonCourse& course, Beside other, const RibbonCourse& of_other);

}  // namespace pinfold
