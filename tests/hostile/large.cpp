#include <catch2/catch.hpp>

#include "design/told.hpp"

// Large inputs, sized so that what grows straight takes a second and what grows with the square
// takes minutes, which the test's time limit ends.
namespace pinfold {
namespace {

std::string refused(const std::string& text) {
    return complaint([&] { design_of(text); });
}

std::string many(int count, const std::string& pattern) {
    std::string text;
    for (int i = 0; i < count; ++i) {
        std::string line = pattern;
        for (auto at = line.find('@'); at != std::string::npos; at = line.find('@')) {
            line.replace(at, 1, std::to_string(i));
        }
        text += line;
    }
    return text;
}

const std::string head = "pinfold: 1\ntitle: large\n";

}  // namespace

TEST_CASE("a hundred thousand values in one line are read") {
    const Yaml yaml = parse_yaml(text_source("[" + many(100'000, "a,") + "]"));
    CHECK(yaml.items.size() == 100'000);
    CHECK(yaml.items.back().at.column == 200'000);
}

TEST_CASE("more than a million values are refused") {
    CHECK(complaint([] {
              parse_yaml(text_source("[" + many(1'000'001, "a,") + "]"));
          }).find("more than 1000000 values [yaml-too-many]") != std::string::npos);
}

TEST_CASE("a million open brackets are refused") {
    CHECK(complaint([] {
              parse_yaml(text_source(std::string(1'000'000, '[')));
          }).find("nested more than 32 levels deep [yaml-too-deep]") != std::string::npos);
}

TEST_CASE("a quote of eight million bytes that never closes is refused") {
    CHECK(complaint([] {
              parse_yaml(text_source("a: \"" + std::string(8'000'000, 'x') + "\n"));
          }).find("input:1:4: error: this quote is never closed [yaml-quote]\n") == 0);
}

TEST_CASE("fifty thousand unknown fields are told up to the hundredth") {
    const std::string told = refused(head + many(50'000, "k@: 1\n"));
    CHECK(told.find("unknown field 'k98'") != std::string::npos);
    CHECK(told.find("unknown field 'k101'") == std::string::npos);
}

TEST_CASE("two thousand boards and their joins are read and traced") {
    const Design design = design_of(
        head + "devices:\n" +
        many(1000,
             "  n@: {ports: {u: usb2-a receptacle}}\n  f@: {ports: {u: usb2-a receptacle}}\n") +
        "boards:\n" +
        many(1000,
             "  a@: {ports: {p: usb2-a plug, t: {receptacle: ffc-0.50-top, positions: 4, "
             "first-contact: left, wired: [VBUS, D-, D+, GND]}}}\n"
             "  b@: {ports: {p: usb2-a plug, t: {receptacle: ffc-0.50-bottom, positions: 4, "
             "first-contact: left, wired: [VBUS, D-, D+, GND]}}}\n") +
        "ribbons:\n" +
        many(1000, "  r@: {type: ffc-0.50, conductors: 4, length: 9 mm, copper: same-side}\n") +
        "joins:\n" + many(1000, "- n@.u + a@.p\n- a@.t + r@.a\n- r@.b + b@.t\n- b@.p + f@.u\n") +
        "carry:\n" + many(1000, "- {interface: usb2, from: n@.u, to: f@.u}\n"));
    const Wiring wiring = trace(design);
    REQUIRE(wiring.passes().size() == 4000);
    CHECK(std::ranges::count(wiring.passes(), State::good, &Pass::state) == 4000);
}

TEST_CASE("a board of ten thousand plugs is read") {
    const Design design =
        design_of(head + "boards:\n  b:\n    ports:\n" + many(10'000, "      p@: usb2-a plug\n") +
                  "      x: {pads: [" + many(2000, "p@.D+, ") + "]}\n");
    CHECK(design.boards[0].nets.size() == 30'001);
}

TEST_CASE("thousands of devices on one supply and one ground are traced") {
    const std::string star =
        head + "devices:\n" +
        many(4001, "  d@: {ports: {u: {interface: usb2, pads: [VBUS, D-, D+, GND]}}}\n") +
        "leads:\n" +
        many(4000,
             "  g@: {from: d@.u.4, to: d4000.u.4, gauge: AWG 24, length: 5 cm}\n"
             "  v@: {from: d@.u.1, to: d4000.u.1, gauge: AWG 24, length: 5 cm}\n");
    const std::string carry =
        "carry:\n" +
        many(4000, "- {interface: usb2, from: d@.u, to: d4000.u, leave-out: [D+, D-]}\n");
    const Wiring clean = trace(design_of(star + carry));
    CHECK(clean.passes().size() == 8000);
    CHECK(std::ranges::count(clean.passes(), State::good, &Pass::state) == 8000);
    const std::string shorted =
        star + "  s: {from: d7.u.1, to: d7.u.4, gauge: AWG 24, length: 5 cm}\n" + carry;
    const Wiring wiring = trace(design_of(shorted));
    CHECK(std::ranges::count(wiring.passes(), State::shorted, &Pass::state) == 8000);
}

TEST_CASE("promises that end in a great open net are traced") {
    const Design design =
        design_of(head + "devices:\n" +
                  many(2000, "  d@: {ports: {u: {interface: usb2, pads: [VBUS, D-, D+, GND]}}}\n") +
                  "boards:\n  b: {ports: {" +
                  many(20, "p@: {pads: [" + many(2000, "GND, ") + "]}, ") + "}}\n" + "leads:\n" +
                  many(2000, "  g@: {from: d@.u.3, to: b.p0.1, gauge: AWG 24, length: 5 cm}\n") +
                  "carry:\n" + many(1999, "- {supply: VBUS, from: d@.u, to: d1999.u}\n"));
    const Wiring wiring = trace(design);
    CHECK(std::ranges::count(wiring.passes(), State::open, &Pass::state) == 3998);
}

TEST_CASE("names without end are looked up without end of time") {
    const std::string told = refused(
        head + "devices:\n" +
        many(20'000, "  device-with-a-long-name-@: {ports: {p: {pads: [A]}}}\n") + "joins:\n" +
        many(20'000, "- device-with-a-lung-name-@.p + device-with-a-long-name-@.p\n"));
    CHECK(told.find("reading stops here, after 100 faults") != std::string::npos);
}

}  // namespace pinfold
