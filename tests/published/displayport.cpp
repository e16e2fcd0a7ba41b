// VESA DisplayPort and Mini DisplayPort, source and sink side, as public tables print them.
#include <catch2/catch.hpp>

#include "published/order.hpp"

namespace pinfold {
namespace {

/// Grounds of the lanes have names of ours in the library; the tables call each of them GND.
std::vector<std::string> with_plain_grounds(std::vector<std::string> order) {
    for (std::string& name : order) {
        if (name == "L0S" || name == "L1S" || name == "L2S" || name == "L3S" || name == "AUXS" ||
            name == "RETURN") {
            name = "GND";
        }
    }
    return order;
}

std::vector<std::string> table(const std::vector<std::string>& words) {
    return meant("displayport", words);
}

}  // namespace

// Five public pages agree on the source side.
TEST_CASE("DisplayPort's source side bears the signals of the public tables", "[published]") {
    CHECK(
        with_plain_grounds(shipped_order("displayport-source")) ==
        table(
            {"ML_Lane0(p)", "GND",     "ML_Lane0(n)", "ML_Lane1(p)", "GND",       "ML_Lane1(n)",
             "ML_Lane2(p)", "GND",     "ML_Lane2(n)", "ML_Lane3(p)", "GND",       "ML_Lane3(n)",
             "CONFIG1",     "CONFIG2", "AUX_CH(p)",   "GND",         "AUX_CH(n)", "Hot Plug Detect",
             "GND",         "DP_PWR"}));
}

// The pin tables of two monitors' manuals, and two public pages.
TEST_CASE("DisplayPort's sink side bears the signals of two monitor manuals", "[published]") {
    CHECK(
        with_plain_grounds(shipped_order("displayport-sink")) ==
        table(
            {"ML_Lane3(n)", "GND",     "ML_Lane3(p)", "ML_Lane2(n)", "GND",       "ML_Lane2(p)",
             "ML_Lane1(n)", "GND",     "ML_Lane1(p)", "ML_Lane0(n)", "GND",       "ML_Lane0(p)",
             "CONFIG1",     "CONFIG2", "AUX_CH(p)",   "GND",         "AUX_CH(n)", "Hot Plug Detect",
             "GND",         "DP_PWR"}));
}

// The standard cable: contact k of the source on contact 13 - k of the sink for k from 1 to 12, the
// others straight (a public pin page in words, and the two tables above).
TEST_CASE("the standard cable reverses contacts 1 to 12", "[published]") {
    const auto source = shipped_order("displayport-source");
    const auto sink = shipped_order("displayport-sink");
    for (std::size_t k = 1; k <= 12; ++k) {
        CAPTURE(k);
        CHECK(source[k - 1] == sink[13 - k - 1]);
    }
    for (std::size_t k = 13; k <= 20; ++k) CHECK(source[k - 1] == sink[k - 1]);
}

// Three public pages agree on the source side of the small connector.
TEST_CASE("Mini DisplayPort's source side bears the signals of the public tables", "[published]") {
    CHECK(with_plain_grounds(shipped_order("mini-displayport-source")) ==
          table({"GND",         "Hot Plug Detect",
                 "ML_Lane0(p)", "CONFIG1",
                 "ML_Lane0(n)", "CONFIG2",
                 "GND",         "GND",
                 "ML_Lane1(p)", "ML_Lane3(p)",
                 "ML_Lane1(n)", "ML_Lane3(n)",
                 "GND",         "GND",
                 "ML_Lane2(p)", "AUX_CH(p)",
                 "ML_Lane2(n)", "AUX_CH(n)",
                 "GND",         "DP_PWR"}));
}

// An encyclopedia article for lanes 0 and 3; lanes 1 and 2 derived by the same reversal.
TEST_CASE("Mini DisplayPort's sink side differs from the source in its lanes alone",
          "[published]") {
    const auto source = with_plain_grounds(shipped_order("mini-displayport-source"));
    auto sink = with_plain_grounds(shipped_order("mini-displayport-sink"));
    const std::vector<std::pair<std::size_t, std::string>> lanes{
        {3, "L3-"}, {5, "L3+"},  {10, "L0-"}, {12, "L0+"},
        {9, "L2-"}, {11, "L2+"}, {15, "L1-"}, {17, "L1+"}};
    for (const auto& [contact, signal] : lanes) {
        CAPTURE(contact);
        CHECK(sink[contact - 1] == signal);
        sink[contact - 1] = source[contact - 1];
    }
    CHECK(sink == source);
}

// A public page: DP_PWR is an output of each box; that a box-to-box cable leaves it out is from
// memory.
TEST_CASE("DisplayPort's supply goes out of both boxes", "[published]") {
    Library library = shipped_library();
    const Interface& displayport = library.interface("displayport", {});
    CHECK(displayport.signals[*displayport.find("DP_PWR")].direction == Direction::outward);
}

// Mating face of a monitor's receptacle, looking into it: figure in two display manuals.
TEST_CASE("DisplayPort's face has the odd contacts above and counts down to the right",
          "[published]") {
    Library library = shipped_library();
    const auto& face = library.connector("displayport-sink", {}).face;
    REQUIRE(face);
    CHECK(face->rows == std::vector<std::vector<std::string>>{
                            {"19", "17", "15", "13", "11", "9", "7", "5", "3", "1"},
                            {"20", "18", "16", "14", "12", "10", "8", "6", "4", "2"}});
}

}  // namespace pinfold
