#include "order/chain.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "breakout/breakout.hpp"
#include "design/read.hpp"
#include "order/ordering.hpp"
#include "support.hpp"

using namespace pinfold;

// Expected: what the promises say must run over each ribbon. The scenario is invented.

namespace {

const std::string middle_board = R"(
  middle:
    ports:
      in: {receptacle: ffc-0.50-bottom, positions: 20, first-contact: left, wired: best}
      out: {receptacle: ffc-1.00-top, positions: 24, first-contact: left, wired: best})";

/// A player and a screen over two ribbons, with `middle` between them.
std::string two_hops(const std::string& middle) {
    return R"(pinfold: 1
title: Two hops
devices:
  player: {ports: {video: hdmi-a receptacle}}
  screen: {ports: {video: hdmi-a receptacle}}
boards:
  first:
    ports:
      plug: {connector: hdmi-a plug}
      out: {receptacle: ffc-0.50-bottom, positions: 20, first-contact: left, wired: best}
  last:
    ports:
      in: {receptacle: ffc-1.00-top, positions: 24, first-contact: left, wired: best}
      plug: {connector: hdmi-a plug})" +
           middle + R"(
ribbons:
  one: {type: ffc-0.50, conductors: 20, length: 80 mm, copper: opposite-side}
  two: {type: ffc-1.00, conductors: 24, length: 60 mm, copper: opposite-side}
joins: [player.video + first.plug, first.out + one.a, one.b + middle.in, middle.out + two.a,
        two.b + last.in, last.plug + screen.video]
carry:
- {interface: hdmi, from: player.video, to: screen.video, rate: 1.485 Gbit/s}
)";
}

Ordering ordering_of(const std::string& text) {
    Library library = shipped_library();
    return order_design(text_source(text), {}, library, {[] { return 0.0; }, 1.0});
}

}  // namespace

TEST_CASE("a board that only leads on takes what the boards at the ends of the row are to carry",
          "[order]") {
    const Ordering ordering = ordering_of(two_hops(middle_board));
    REQUIRE(ordering.ribbons.size() == 2);
    CHECK(ordering.has_order());
    CHECK(ordering.all_proved());
    CHECK_FALSE(has_errors(ordering.verdict.findings));
    // 13 signals and 5 V, the rest is ground.
    CHECK(ordering.ribbons[0].cargo.nets.size() == 14 + 1);
    CHECK(ordering.ribbons[0].cargo.nets.back().conductors == 20 - 14);
    CHECK(ordering.ribbons[1].cargo.nets.back().conductors == 24 - 14);
}

TEST_CASE("crossings between two open rows are counted with the later ribbon alone", "[order]") {
    const Ordering ordering = ordering_of(two_hops(middle_board));
    REQUIRE(ordering.ribbons.size() == 2);
    REQUIRE(ordering.ribbons[0].counted_later.size() == 1);
    CHECK(name_of(ordering.design, ordering.ribbons[0].counted_later[0]) == "middle.out");
    CHECK(ordering.ribbons[1].counted_later.empty());
    for (const OrderItem& item : ordering.ribbons[0].problem.items) CHECK(item.pads[1][0].empty());
}

TEST_CASE("a board between two ribbons is drawn with the pairs that run through it", "[order]") {
    const Design design = ordering_of(two_hops(middle_board)).design;
    const auto middle = std::ranges::find(design.boards, "middle", &Board::name);
    const Breakout made =
        breakout_of(design, static_cast<std::size_t>(middle - design.boards.begin()));
    std::vector<std::string> fast;
    for (const PairFigures& pair : made.pairs) {
        if (pair.fast) fast.push_back(pair.name);
    }
    CHECK(fast == std::vector<std::string>{"CK", "D0", "D1", "D2"});
}

TEST_CASE("a ribbon that nothing promised would run over is not called proved", "[order]") {
    const std::string more = "\n      test: {pads: [X, X]}";
    CHECK_THAT(complaint([&] { ordering_of(two_hops(middle_board + more)); }),
               Catch::Contains("nothing that is promised would run over one"));
}

TEST_CASE("the row of a ring of ribbons ends where it began", "[order]") {
    Library library = shipped_library();
    const Design design = read_design(text_source(R"(pinfold: 1
title: Ring
devices: {}
boards:
  one:
    ports:
      in: {receptacle: ffc-0.50-bottom, positions: 10, first-contact: left, wired: best}
      out: {receptacle: ffc-0.50-bottom, positions: 10, first-contact: left, wired: best}
  two:
    ports:
      in: {receptacle: ffc-0.50-bottom, positions: 10, first-contact: left, wired: best}
      out: {receptacle: ffc-0.50-bottom, positions: 10, first-contact: left, wired: best}
ribbons:
  there: {type: ffc-0.50, conductors: 10, length: 80 mm, copper: same-side}
  back: {type: ffc-0.50, conductors: 10, length: 80 mm, copper: same-side}
joins: [one.out + there.a, there.b + two.in, two.out + back.a, back.b + one.in]
)"),
                                      {}, library);
    CHECK(chain_of(design, 0).ribbons == std::set<std::size_t>{0, 1});
    CHECK(chain_of(design, 1).ribbons == std::set<std::size_t>{0, 1});
}
