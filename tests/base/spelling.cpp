#include "base/spelling.hpp"

#include <catch2/catch.hpp>

namespace pinfold {

// Expected values: distances counted by hand.
TEST_CASE("a letter changed, added, dropped or exchanged is one step away") {
    const std::vector<std::string> known{"receptacle", "conductors", "length"};
    CHECK(nearest("recepticle", known) == "receptacle");
    CHECK(nearest("conducters", known) == "conductors");
    CHECK(nearest("lenght", known) == "length");
    CHECK(nearest("engths", known) == "length");
}

TEST_CASE("case does not count as a difference") {
    CHECK(nearest("HDMI-A", {"hdmi-c", "hdmi-a"}) == "hdmi-a");
}

TEST_CASE("the first of two equally near names wins") {
    CHECK(nearest("hdmi-b", {"hdmi-a", "hdmi-c"}) == "hdmi-a");
}

TEST_CASE("a name further off than a third of its letters has no nearest") {
    CHECK_FALSE(nearest("strap", {"conductors", "length"}));
    CHECK(nearest("abcdefghi", {"abcdefxyz"}) == "abcdefxyz");
    CHECK_FALSE(nearest("abcdefgh", {"abcdexyz"}));
}

TEST_CASE("a short name is not like another that shares no letter with it") {
    CHECK_FALSE(nearest("ab", {"xy", "z"}));
    CHECK(nearest("D2", {"D2+"}) == "D2+");
}

TEST_CASE("nothing and overlong names have no nearest") {
    const std::string overlong(129, 'a');
    CHECK_FALSE(nearest("", {"a"}));
    CHECK_FALSE(nearest(overlong, {overlong}));
    CHECK_FALSE(nearest("aa", {overlong}));
    CHECK_FALSE(nearest("aa", {}));
}

TEST_CASE("only the first two thousand names of a list are looked at") {
    std::vector<std::string> known(2000, "zzzzzzzz");
    known.emplace_back("strap");
    CHECK_FALSE(nearest("strup", known));
    known[1999] = "strap";
    CHECK(nearest("strup", known) == "strap");
}

TEST_CASE("a hint is put in words") {
    CHECK(did_you_mean("strip", {"strap"}) == " (did you mean 'strap'?)");
    CHECK(did_you_mean("x", {"strap"}).empty());
}

}  // namespace pinfold
