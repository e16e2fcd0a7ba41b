#include "exchange/pinmap_json.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support.hpp"

using namespace pinfold;
using Json = nlohmann::json;

// Expected values: what the pin map says, read by another path.

TEST_CASE("every shipped connector is a document with each of its contacts in order") {
    Library library = shipped_library();
    for (const std::string& id : library.names(PinMapKind::connector)) {
        INFO(id);
        const Connector& connector = library.connector(id, {});
        const Interface& interface = library.interface(connector.interface, {});
        const Json json = Json::parse(connector_json(connector, interface));
        CHECK(json.at("schema") == "pinfold-pinmap/1");
        CHECK(json.at("pitch_mm") == connector.pitch.value());
        REQUIRE(json.at("contacts").size() == connector.contacts.size());
        for (const Contact& contact : connector.contacts) {
            const Json& told = json.at("contacts").at(contact.number.index());
            CHECK(told.at("contact") == contact.label);
            const Json signal =
                contact.signal ? Json(interface.signals[*contact.signal].name) : Json(nullptr);
            CHECK(told.at("signal") == signal);
        }
    }
}

TEST_CASE("halves, lanes and ends of a pair are told") {
    Library library = shipped_library();
    const Json json = Json::parse(interface_json(library.interface("hdmi", {})));
    CHECK(json.at("ends") == Json::array({"source", "sink"}));
    const Json& minus = json.at("signals").at(2);
    CHECK(minus.at("signal") == "D2-");
    CHECK(minus.at("pair") == "D2");
    CHECK(minus.at("half") == "minus");
    CHECK(minus.at("lane") == "2");
}

// Expected: the pin map's own words; 1.5 to 2 kohm of HDMI 1.4.
TEST_CASE("what a device shows a meter is told with its unit in the key") {
    Library library = shipped_library();
    const Json json = Json::parse(interface_json(library.interface("hdmi", {})));
    const Json& pull_up = json.at("meter").at(0);
    CHECK(pull_up.at("signals") == Json::array({"SCL", "SDA"}));
    CHECK(pull_up.at("against") == "5V");
    CHECK(pull_up.at("end") == "source");
    CHECK(pull_up.at("least_ohm") == 1500);
    CHECK(pull_up.at("most_ohm") == 2000);
    CHECK(json.at("meter").at(3).at("most_v") == 0.7);
    CHECK(json.at("meter").at(3).at("end").is_null());
}

TEST_CASE("what a ribbon type or receptacle does not say is null") {
    RibbonType ribbon;
    CHECK(Json::parse(ribbon_json(ribbon)).at("width_mm").is_null());
    ReceptacleType receptacle;
    const Json json = Json::parse(receptacle_json(receptacle));
    CHECK(json.at("end_thickness_mm").is_null());
    CHECK(json.at("mating_cycles").is_null());
}

TEST_CASE("text that is not UTF-8 cannot break the document") {
    RibbonType ribbon;
    ribbon.name = "broken \xff name \"quoted\"\n";
    CHECK(Json::parse(ribbon_json(ribbon)).at("name") == "broken \xEF\xBF\xBD name \"quoted\"\n");
}
