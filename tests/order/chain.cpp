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

namespace {

/// Two links over one ribbon, with wishes for its order.
std::string two_links(const std::string& wishes) {
    return R"(pinfold: 1
title: Two links
devices:
  left: {ports: {usb: usb2-a receptacle}}
  right: {ports: {usb: usb2-a receptacle}}
  hub: {ports: {l: usb2-a receptacle, r: usb2-a receptacle}}
boards:
  first:
    ports:
      l: {connector: usb2-a plug}
      r: {connector: usb2-a plug}
      out: {receptacle: ffc-0.50-bottom, positions: 14, first-contact: left, wired: best}
  last:
    ports:
      in: {receptacle: ffc-0.50-bottom, positions: 14, first-contact: left, wired: best}
      l: {connector: usb2-a plug}
      r: {connector: usb2-a plug}
ribbons:
  one: {type: ffc-0.50, conductors: 14, length: 80 mm, copper: opposite-side, order: {)" +
           wishes + R"(}}
joins: [left.usb + first.l, right.usb + first.r, first.out + one.a, one.b + last.in,
        last.l + hub.l, last.r + hub.r]
carry:
- {interface: usb2, from: left.usb, to: hub.l}
- {interface: usb2, from: right.usb, to: hub.r}
)";
}

}  // namespace

// Expected: words we chose.
TEST_CASE("signals of two links on one ribbon are told apart by where they start", "[order]") {
    const Ordering ordering = ordering_of(two_links("fixed: {3: right.usb.D+}"));
    REQUIRE(ordering.ribbons.size() == 1);
    const std::vector<std::string>& row = ordering.ribbons[0].conductors;
    CHECK(row.at(2) == "right.usb.D+");
    for (const char* name : {"left.usb.D+", "left.usb.D-", "right.usb.D+", "right.usb.D-"}) {
        CHECK(std::ranges::count(row, name) == 1);
    }
    CHECK(std::ranges::count(row, "GND") == std::ranges::count_if(row, [](const auto& name) {
              return name.find('.') == std::string::npos;
          }));
    CHECK_THAT(complaint([] { ordering_of(two_links("fixed: {3: D+}")); }),
               Catch::Contains("one carries no 'D+' of one link alone; say which: left.usb.D+, "
                               "right.usb.D+ [signal-unknown]"));
}

// Expected: the wish itself; all else is ground.
TEST_CASE("a conductor that the file wants open stays open", "[order]") {
    const Ordering ordering = ordering_of(two_links("fixed: {2: open, 14: OPEN}"));
    REQUIRE(ordering.ribbons.size() == 1);
    const std::vector<std::string>& row = ordering.ribbons[0].conductors;
    CHECK(row.at(1) == "open");
    CHECK(row.at(13) == "open");
    CHECK(std::ranges::count(row, "open") == 2);
    CHECK(ordering.all_proved());
    // With the number of grounds said, what is left over stays open too.
    const Ordering counted = ordering_of(two_links("grounds: 3, fixed: {2: open}"));
    CHECK(std::ranges::count(counted.ribbons[0].conductors, "GND") == 3);
    CHECK(counted.ribbons[0].conductors.at(1) == "open");
    const Ordering crowded = ordering_of(
        two_links("fixed: {1: open, 2: open, 3: open, 4: open, 5: open, 6: open, 7: open}"));
    CHECK_FALSE(crowded.has_order());
    CHECK(crowded.ribbons[0].rules.at(1) == "7 stay open, as the file says");
}
