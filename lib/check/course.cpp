#include "check/course.hpp"

#include <algorithm>

namespace pinfold {
namespace {

/// The place of a ribbon in a course; nothing if it is not there.
std::optional<std::size_t> place_of(const RibbonCourse& course, std::size_t ribbon) {
    const auto found = std::ranges::find(course, ribbon, &RibbonCourse::value_type::first);
    if (found == course.end()) return std::nullopt;
    return static_cast<std::size_t>(found - course.begin());
}

/// Whether the legs that are there go up one by one, or down if reversed.
bool in_order(const Beside& beside) {
    std::optional<std::size_t> before;
    for (const auto& leg : beside.legs) {
        if (!leg) continue;
        if (before && (beside.reversed ? *leg >= *before : *leg <= *before)) return false;
        before = leg;
    }
    return before.has_value();
}

}  // namespace

RibbonCourse course_of(RibbonLines& ribbons, const HalfWay& plus, const HalfWay& minus) {
    if (plus.over_leads() || minus.over_leads()) return {};
    if (plus.ribbons.size() != minus.ribbons.size()) return {};
    RibbonCourse course;
    for (std::size_t i = 0; i < plus.ribbons.size(); ++i) {
        const RibbonLeg& one = plus.ribbons[i];
        const RibbonLeg& other = minus.ribbons[i];
        if (one.ribbon != other.ribbon || one.from_a != other.from_a) return {};
        if (!ribbons.can_solve(one) || !ribbons.can_solve(other)) return {};
        course.emplace_back(one.ribbon, one.from_a);
    }
    return course;
}

Beside along_own(const PairWay& way) {
    Beside beside{&way, nullptr, false, {}};
    for (std::size_t i = 0; i < way.plus.ribbons.size(); ++i) beside.legs.emplace_back(i);
    return beside;
}

std::optional<Beside> along(const RibbonCourse& course, Beside other,
                            const RibbonCourse& of_other) {
    std::optional<bool> reversed;
    for (const auto& [ribbon, from_a] : course) {
        const std::optional<std::size_t> leg = place_of(of_other, ribbon);
        other.legs.push_back(leg);
        if (!leg) continue;
        const bool against = of_other[*leg].second != from_a;
        if (reversed && *reversed != against) return std::nullopt;
        reversed = against;
    }
    other.reversed = reversed.value_or(false);
    if (!in_order(other)) return std::nullopt;
    return other;
}

std::vector<const HalfWay*> Beside::halves() const {
    if (single) return {&single->way};
    return {&pair->plus, &pair->minus};
}

std::optional<std::size_t> Beside::landing_at(std::size_t place) const {
    const std::optional<std::size_t> before = place > 0 ? legs[place - 1] : std::nullopt;
    const std::optional<std::size_t> behind = place < legs.size() ? legs[place] : std::nullopt;
    std::optional<std::size_t> from, to;
    if (before) from = reversed ? *before : *before + 1;
    if (behind) to = reversed ? *behind + 1 : *behind;
    if (from && to) return from == to ? from : std::nullopt;
    const std::optional<std::size_t> only = from ? from : to;
    const bool at_port = only && (*only == 0 || *only == halves().front()->ribbons.size());
    return at_port ? only : std::nullopt;
}

}  // namespace pinfold
