#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

#include "support.hpp"

namespace pinfold {
namespace {

template <class Ask>
void ask_every_connector(const Ask& ask) {
    Library library = shipped_library();
    const std::vector<std::string> names = library.names(PinMapKind::connector);
    REQUIRE(names.size() >= 20);
    for (const std::string& name : names) {
        CAPTURE(name);
        const Connector& connector = library.connector(name, {});
        ask(connector, library.interface(connector.interface, {}));
    }
}

bool mentions(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

}  // namespace

// The same questions to every shipped file. What ships is listed in issue 2, section 1.
TEST_CASE("the library holds every connector that is promised") {
    const Library library = shipped_library();
    for (const char* id : {"hdmi-a",
                           "hdmi-c",
                           "hdmi-d",
                           "dvi-d",
                           "displayport-source",
                           "displayport-sink",
                           "mini-displayport-source",
                           "mini-displayport-sink",
                           "usb2-a",
                           "usb2-micro-b",
                           "usb3-a",
                           "usb-c",
                           "csi-15",
                           "csi-22",
                           "dsi-15",
                           "dsi-22",
                           "edp-30",
                           "edp-40",
                           "lvds-30",
                           "sata-signal",
                           "sata-power",
                           "ethernet-8p8c"}) {
        CAPTURE(id);
        CHECK(library.has(PinMapKind::connector, id));
    }
    for (const char* id :
         {"ffc-0.30", "ffc-0.50", "ffc-0.80", "ffc-1.00", "ffc-1.25", "flat-1.27"}) {
        CAPTURE(id);
        CHECK(library.has(PinMapKind::ribbon, id));
    }
    for (const char* pitch : {"0.30", "0.50", "0.80", "1.00", "1.25"}) {
        for (const char* side : {"top", "bottom", "both", "vertical"}) {
            CHECK(library.has(PinMapKind::receptacle, "ffc-" + std::string(pitch) + "-" + side));
        }
    }
    CHECK(library.has(PinMapKind::receptacle, "idc-2.54"));
}

TEST_CASE("every shipped file is read and names a source") {
    Library library = shipped_library();
    const auto said = [](const std::string& source) { return source.size() >= 12; };
    for (const auto& id : library.names(PinMapKind::connector)) {
        CAPTURE(id);
        CHECK(said(library.connector(id, {}).source));
        CHECK_FALSE(library.connector(id, {}).name.empty());
    }
    for (const auto& id : library.names(PinMapKind::interface)) {
        CAPTURE(id);
        CHECK(said(library.interface(id, {}).source));
    }
    for (const auto& id : library.names(PinMapKind::ribbon)) {
        CAPTURE(id);
        CHECK(said(library.ribbon(id, {}).source));
    }
    for (const auto& id : library.names(PinMapKind::receptacle)) {
        CAPTURE(id);
        CHECK(said(library.receptacle(id, {}).source));
    }
}

TEST_CASE("every limit and every supply and every face names a source") {
    ask_every_connector([](const Connector& connector, const Interface& interface) {
        for (const Limit& limit : interface.limits) CHECK(limit.source.size() >= 8);
        for (const Supply& supply : interface.supplies) CHECK(supply.source.size() >= 8);
        if (connector.face) CHECK(connector.face->source.size() >= 8);
    });
}

TEST_CASE("every connector counts its places from one without a hole") {
    ask_every_connector([](const Connector& connector, const Interface&) {
        std::set<std::string> labels;
        for (std::size_t i = 0; i < connector.contacts.size(); ++i) {
            CHECK(connector.contacts[i].number.index() == i);
            CHECK(labels.insert(connector.contacts[i].label).second);
        }
        CHECK(connector.contacts.size() == connector.plug_contacts.size());
        CHECK(connector.pitch > 0.0_mm);
    });
}

TEST_CASE("every pair on a connector has both halves there and as many of each") {
    ask_every_connector([](const Connector& connector, const Interface& interface) {
        for (const Pair& pair : interface.pairs) {
            const auto count = [&](std::size_t signal) {
                return std::ranges::count(connector.contacts, std::optional(signal),
                                          &Contact::signal);
            };
            CAPTURE(pair.name);
            CHECK(count(pair.plus) == count(pair.minus));
        }
    });
}

// Ethernet is isolated by transformers: its contacts share no ground with the board (IEEE 802.3).
TEST_CASE("every connector with pairs has grounds except the isolated one") {
    ask_every_connector([](const Connector& connector, const Interface& interface) {
        const auto has = [&](auto&& is) {
            return std::ranges::any_of(connector.contacts, [&](const Contact& contact) {
                return contact.signal && is(interface.signals[*contact.signal].role);
            });
        };
        const bool pairs = has([](Role role) { return role == Role::pair_half; });
        const bool grounds =
            has([](Role role) { return role == Role::ground || role == Role::pair_shield; });
        if (pairs) CHECK(grounds == (connector.id != "ethernet-8p8c"));
    });
}

TEST_CASE("every supply contact has a ground on the same connector") {
    ask_every_connector([](const Connector& connector, const Interface& interface) {
        const auto count = [&](Role role) {
            return std::ranges::count_if(connector.contacts, [&](const Contact& contact) {
                return contact.signal && interface.signals[*contact.signal].role == role;
            });
        };
        if (count(Role::supply) > 0) CHECK(count(Role::ground) > 0);
    });
}

TEST_CASE("every signal of every interface answers to its own name") {
    Library library = shipped_library();
    for (const auto& id : library.names(PinMapKind::interface)) {
        const Interface& interface = library.interface(id, {});
        for (std::size_t i = 0; i < interface.signals.size(); ++i) {
            CAPTURE(id, interface.signals[i].name);
            CHECK(interface.find(interface.signals[i].name) == i);
            CHECK(interface.counterpart[interface.counterpart[i]] == i);
            CHECK(interface.signals[i].role != Role::unused);
        }
    }
}

TEST_CASE("every signal of every interface but the plain one stands on a connector") {
    Library library = shipped_library();
    std::map<std::string, std::set<std::size_t>> borne;
    for (const auto& id : library.names(PinMapKind::connector)) {
        const Connector& connector = library.connector(id, {});
        for (const Contact& contact : connector.contacts) {
            if (contact.signal) borne[connector.interface].insert(*contact.signal);
        }
    }
    for (const auto& id : library.names(PinMapKind::interface)) {
        if (id == "plain") continue;
        CAPTURE(id);
        CHECK(borne[id].size() == library.interface(id, {}).signals.size());
    }
}

TEST_CASE("crossed signals have one role and opposite directions or both") {
    Library library = shipped_library();
    for (const auto& id : library.names(PinMapKind::interface)) {
        const Interface& interface = library.interface(id, {});
        for (std::size_t i = 0; i < interface.signals.size(); ++i) {
            const Signal& one = interface.signals[i];
            const Signal& other = interface.signals[interface.counterpart[i]];
            if (&one == &other) continue;
            CAPTURE(id, one.name, other.name);
            CHECK(one.role == other.role);
            CHECK((one.direction == other.direction) == (one.direction == Direction::both));
        }
    }
}

TEST_CASE("names of connectors whose orders are mixed up are names of connectors") {
    Library library = shipped_library();
    for (const auto& id : library.names(PinMapKind::interface)) {
        for (const std::string& connector : library.interface(id, {}).connectors) {
            CAPTURE(id, connector);
            CHECK(library.connector(connector, {}).interface == id);
        }
    }
}

TEST_CASE("a receptacle takes ribbons of its pitch that are made") {
    Library library = shipped_library();
    for (const auto& id : library.names(PinMapKind::receptacle)) {
        const ReceptacleType& receptacle = library.receptacle(id, {});
        const auto names = library.names(PinMapKind::ribbon);
        const bool fits = std::ranges::any_of(names, [&](const std::string& name) {
            const RibbonType& ribbon = library.ribbon(name, {});
            return ribbon.kind == receptacle.takes && ribbon.pitch == receptacle.pitch &&
                   ribbon.conductors.least <= receptacle.positions.most &&
                   receptacle.positions.least <= ribbon.conductors.most &&
                   (!receptacle.end_thickness || !ribbon.end_thickness ||
                    receptacle.end_thickness->holds(*ribbon.end_thickness));
        });
        CAPTURE(id);
        CHECK(fits);
    }
}

// What no source in hand says is marked as such where the user reads the source.
TEST_CASE("what is known from memory says so") {
    Library library = shipped_library();
    for (const char* id : {"usb3-micro-b", "dsi-22"}) {
        CAPTURE(id);
        CHECK(library.connector(id, {}).source.find("from memory") == 0);
    }
    for (const char* id : {"edp-30", "edp-40", "dvi-d", "usb2-a", "usb3-a", "usb-c"}) {
        CAPTURE(id);
        CHECK(mentions(library.connector(id, {}).source, "from memory"));
    }
    CHECK(mentions(library.connector("mini-displayport-sink", {}).source, "derived"));
    CHECK(mentions(library.connector("hdmi-a", {}).face->source, "from memory"));
    CHECK(mentions(library.connector("dvi-d", {}).face->source, "from memory"));
    CHECK(mentions(library.interface("usb-c", {}).source, "from memory"));
    CHECK(mentions(library.interface("usb3", {}).source, "from memory"));
    CHECK(mentions(library.interface("displayport", {}).source, "from memory"));
    for (const Limit& limit : library.interface("hdmi", {}).limits) {
        CHECK(mentions(limit.source, "from memory"));
    }
    for (const auto& id : library.names(PinMapKind::ribbon)) {
        CAPTURE(id);
        CHECK(mentions(library.ribbon(id, {}).source, "from memory"));
    }
}

TEST_CASE("what a board may number otherwise says so") {
    Library library = shipped_library();
    for (const char* id : {"csi-15", "csi-22", "dsi-15", "dsi-22"}) {
        CAPTURE(id);
        CHECK(mentions(library.connector(id, {}).source, "Board-specific"));
    }
    for (const char* id : {"edp-40", "lvds-30"}) {
        CAPTURE(id);
        CHECK(mentions(library.connector(id, {}).source, "doubtful"));
    }
}

}  // namespace pinfold
