#include "check/course.hpp"

#include <catch2/catch.hpp>

namespace pinfold {
namespace {

/// A way over such ribbons on conductors 1 and 2.
PairWay way_over(const RibbonCourse& course) {
    PairWay way;
    for (HalfWay* half : {&way.plus, &way.minus}) {
        for (const auto& [ribbon, from_a] : course) {
            half->ribbons.push_back({ribbon, from_a, ConductorNumber(1)});
            half->landings.emplace_back();
        }
    }
    return way;
}

using Landings = std::vector<std::optional<std::size_t>>;

/// What a pair of one course meets along another, place by place.
Landings landings(const RibbonCourse& course, const RibbonCourse& other) {
    const PairWay way = way_over(other);
    const std::optional<Beside> beside = along(course, {&way, nullptr, false, {}}, other);
    if (!beside) return {};
    Landings found;
    for (std::size_t place = 0; place <= course.size(); ++place) {
        found.push_back(beside->landing_at(place));
    }
    return found;
}

constexpr auto none = std::nullopt;

}  // namespace

// By hand, from the boards that a pair meets: landing 0 lies before its first ribbon.
TEST_CASE("a pair beside a course meets the boards that it meets on its own way") {
    const RibbonCourse two{{4, true}, {7, true}};
    CHECK(landings(two, two) == Landings{0, 1, 2});
    CHECK(landings(two, {{7, false}, {4, false}}) == Landings{2, 1, 0});
    // Over one of the ribbons alone: from its port, and to it.
    CHECK(landings(two, {{7, true}}) == Landings{none, 0, 1});
    CHECK(landings(two, {{4, false}}) == Landings{1, 0, none});
    // It goes on over ribbon 9, or comes from there: matched, whatever is there.
    CHECK(landings(two, {{4, true}, {9, true}}) == Landings{0, none, none});
    CHECK(landings({{7, true}}, {{9, true}, {7, true}}) == Landings{none, 2});
    // A detour between the two.
    CHECK(landings(two, {{4, true}, {9, true}, {7, true}}) == Landings{0, none, 3});
}

TEST_CASE("pairs that meet the ribbons another way round do not run beside") {
    const RibbonCourse two{{4, true}, {7, true}};
    CHECK(landings(two, {{9, true}}).empty());
    CHECK(landings(two, {{4, true}, {7, false}}).empty());
    CHECK(landings(two, {{7, false}, {4, true}}).empty());
    CHECK(landings(two, {{7, true}, {4, true}}).empty());
}

}  // namespace pinfold
