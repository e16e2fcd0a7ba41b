#include "pinmap/doubt.hpp"

#include <catch2/catch.hpp>

using namespace pinfold;

// Expected texts: words we chose.

TEST_CASE("a pin map without the words 'from memory' leaves no doubt") {
    Connector connector;
    connector.source = "a standard, table 3";
    connector.face = Face{"the drawing of the part", {}};
    CHECK(doubts_of(connector).empty());
}

TEST_CASE("each part whose source says 'from memory' is a doubt of its own") {
    Connector connector;
    connector.source = "a standard, table 3; the pitch from memory";
    connector.face = Face{"from memory", {}};
    CHECK(doubts_of(connector) ==
          std::vector<std::string>{"the pin table, as its source says", "the mating face"});
}

TEST_CASE("limits and supplies are doubted by rate and name") {
    Interface interface;
    interface.source = "a standard";
    interface.signals.emplace_back().name = "5V";
    interface.limits.emplace_back().up_to = GigabitsPerSecond(1.65);
    interface.limits.back().source = "from memory";
    interface.limits.emplace_back().up_to = GigabitsPerSecond(3.4);
    interface.limits.back().source = "a standard";
    interface.supplies.emplace_back().source = "from memory";
    CHECK(doubts_of(interface) ==
          std::vector<std::string>{"the limits up to 1.65 Gbit/s", "the window of 5V"});
}
