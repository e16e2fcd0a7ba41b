#include "pinmap/library.hpp"

#include <catch2/catch.hpp>

#include <fstream>

#include "support.hpp"

namespace pinfold {
namespace {

/// A folder of pin maps that goes away with the test.
struct OwnPinMaps {
    std::filesystem::path path = std::filesystem::temp_directory_path() / "pinfold-test-pinmaps";
    OwnPinMaps() { std::filesystem::create_directories(path / "interfaces"); }
    ~OwnPinMaps() { std::filesystem::remove_all(path); }
    OwnPinMaps(const OwnPinMaps&) = delete;
    OwnPinMaps& operator=(const OwnPinMaps&) = delete;

    void write(const std::string& name, const std::string& text) const {
        std::ofstream(path / name) << text;
    }
};

const char* const own_usb2 =
    "pinfold-interface: 1\nname: our own\nsource: invented\nends: [a, b]\nsignals: []\n";

}  // namespace

// Expected texts: words we chose.
TEST_CASE("an unknown pin map is told the nearest one of its kind") {
    Library library = shipped_library();
    const auto source = text_source("connector: hdmi-aa plug\n");
    CHECK(complaint([&] {
              library.connector("hdmi-aa", {source, 1, 12});
          }) ==
          "input:1:12: error: no pin map 'hdmi-aa' among the connectors (did you mean 'hdmi-a'?) "
          "[pinmap-unknown]\n"
          "    connector: hdmi-aa plug\n"
          "               ^\n");
    CHECK(complaint([&] { library.ribbon("ffc-0.5", {}); }) ==
          "error: no pin map 'ffc-0.5' among the ribbons (did you mean 'ffc-0.50'?) "
          "[pinmap-unknown]\n");
    CHECK(complaint([&] { library.connector("HDMI-A", {}); }).find("did you mean 'hdmi-a'?") !=
          std::string::npos);
}

TEST_CASE("a name cannot climb out of its folder") {
    Library library = shipped_library();
    for (const char* id :
         {"../ribbons/ffc-0.50", "/etc/passwd", "..", ".", "", "a/b", "hdmi-a\n"}) {
        CAPTURE(id);
        CHECK_FALSE(library.has(PinMapKind::connector, id));
        CHECK(complaint([&] { library.connector(id, {}); }).find("[pinmap-unknown]") !=
              std::string::npos);
    }
}

TEST_CASE("a library without folders says so") {
    Library library({});
    CHECK(complaint([&] { library.interface("hdmi", {}); }) ==
          "error: no pin map 'hdmi' among the interfaces; no folder of interfaces was found "
          "[pinmap-unknown]\n");
    CHECK(library.names(PinMapKind::connector).empty());
}

TEST_CASE("the nearest folder wins and the report says so") {
    const OwnPinMaps own;
    own.write("interfaces/usb2.yaml", own_usb2);
    Library library({own.path, repository() / "pinmaps"});
    CHECK(library.interface("usb2", {}).name == "our own");
    CHECK(library.interface("hdmi", {}).name == "HDMI");
    library.interface("usb2", {});
    REQUIRE(library.hidden().size() == 1);
    CHECK(to_text(library.hidden()[0]) ==
          "note: 'usb2' is read from " + (own.path / "interfaces/usb2.yaml").string() +
              " and hides " + (repository() / "pinmaps/interfaces/usb2.yaml").string() +
              " [pinmap-own]\n");
}

TEST_CASE("names are sorted and each stands once") {
    const OwnPinMaps own;
    own.write("interfaces/usb2.yaml", own_usb2);
    own.write("interfaces/aaa.yaml", own_usb2);
    own.write("interfaces/notes.txt", "not a pin map");
    const auto names = Library({own.path, repository() / "pinmaps"}).names(PinMapKind::interface);
    CHECK(names.front() == "aaa");
    CHECK(std::is_sorted(names.begin(), names.end()));
    CHECK(std::count(names.begin(), names.end(), "usb2") == 1);
    CHECK(std::count(names.begin(), names.end(), "notes") == 0);
}

TEST_CASE("a broken pin map is refused with its own place each time it is asked for") {
    const OwnPinMaps own;
    own.write("interfaces/broken.yaml", "name: [\n");
    Library library({own.path});
    const std::string file = (own.path / "interfaces/broken.yaml").string();
    for (int i = 0; i < 2; ++i) {
        CHECK(complaint([&] { library.interface("broken", {}); }).find(file + ":") == 0);
    }
}

TEST_CASE("references into a library stay good while it reads on") {
    Library library = shipped_library();
    const Connector& first = library.connector("hdmi-a", {});
    for (const std::string& name : library.names(PinMapKind::connector))
        library.connector(name, {});
    CHECK(&first == &library.connector("hdmi-a", {}));
    CHECK(first.contacts.size() == 19);
}

}  // namespace pinfold
