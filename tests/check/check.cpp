#include "check/check.hpp"

#include <catch2/catch.hpp>

#include "check/bench.hpp"
#include "check/small_designs.hpp"

// All designs and texts here: words we chose.
namespace pinfold {
namespace {

/// The link with D2 split on the ribbon, an error, and CEC beside it, a warning.
std::string split(const std::string& accepted) {
    HdmiLink link;
    link.base = exchanged(link.base, 3, 4);
    link.lid = reversed(link.base);
    if (!accepted.empty()) link.more = "accept:\n" + accepted;
    return link.yaml();
}

/// The link with one guard missing, a warning.
std::string bare(const std::string& accepted) {
    HdmiLink link;
    link.base = exchanged(link.base, 1, 13);
    link.lid = reversed(link.base);
    if (!accepted.empty()) link.more = "accept:\n" + accepted;
    return link.yaml();
}

}  // namespace

TEST_CASE("findings come errors first, then warnings, then notes") {
    HdmiLink link;
    link.base = exchanged(exchanged(link.base, 3, 4), 7, 10);
    link.lid = reversed(link.base);
    link.lay = "";
    const Findings findings = verdict_of(link.yaml()).findings;
    REQUIRE(findings.size() > 3);
    CHECK(std::ranges::is_sorted(findings, std::ranges::greater{}, &Finding::severity));
    CHECK(findings.front().severity == Severity::error);
    CHECK(findings.back().severity == Severity::note);
}

TEST_CASE("a finding accepted by rule and place is a note that carries the reason") {
    const std::string place = GENERATE("strap", "strap.2", "D2");
    CAPTURE(place);
    const std::string yaml = bare("- {rule: pair-unguarded, where: " + place + ", why: short}\n");
    const Verdict verdict = verdict_of(yaml);
    const Findings some = found(verdict.findings, "pair-unguarded");
    REQUIRE(some.size() == 1);
    CHECK(some[0].severity == Severity::note);
    CHECK(some[0].text ==
          "pair D2 on conductors 2 and 3 of strap has no guard on one side: "
          "conductor 1 (CEC) (accepted: short)");
    CHECK(some[0].notes.back().text == "accepted here");
    CHECK(some[0].repairs.empty());
    CHECK(found(verdict.findings, "acceptance-unused").empty());
}

TEST_CASE("a warning may be accepted by its rule alone, an error only where it is") {
    CHECK(
        found(verdict_of(bare("- {rule: pair-unguarded, why: short}\n")).findings, "pair-unguarded")
            .at(0)
            .severity == Severity::note);
    const Verdict anywhere = verdict_of(split("- {rule: pair-split, why: short}\n"));
    CHECK_FALSE(anywhere.clean());
    CHECK(found(anywhere.findings, "acceptance-unused").at(0).text ==
          "this acceptance accepts nothing: nothing was found by rule 'pair-split'; an error is "
          "accepted at a place only, say 'where'");
    const Verdict there = verdict_of(split("- {rule: pair-split, where: strap, why: short}\n"));
    CHECK(there.clean());
}

TEST_CASE("an acceptance of one place leaves the other finding alone") {
    HdmiLink link;
    link.base = exchanged(exchanged(link.base, 3, 4), 15, 14);
    link.lid = reversed(link.base);
    link.more = "accept:\n- {rule: pair-split, where: D2, why: short}\n";
    const Verdict verdict = verdict_of(link.yaml());
    REQUIRE(errors_of(verdict) == Texts{"pair-split"});
    CHECK(verdict.findings[0].text.starts_with("pair D0 is split"));
}

TEST_CASE("an acceptance that accepts nothing is told, with the place or the nearest rule") {
    const HdmiLink link;
    const auto said = [&](const std::string& accepted) {
        return told(link.yaml() + "accept:\n" + accepted, "acceptance-unused");
    };
    CHECK(said("- {rule: pair-split, where: strap, why: x}\n") ==
          "this acceptance accepts nothing: nothing was found by rule 'pair-split' at 'strap'");
    CHECK(said("- {rule: pair-splitt, why: x}\n") ==
          "this acceptance accepts nothing: there is no rule 'pair-splitt' (did you mean "
          "'pair-split'?)");
    const Verdict verdict =
        verdict_of(link.yaml() + "accept:\n- {rule: pair-split, where: strap, why: x}\n");
    CHECK(verdict.clean());
    CHECK(verdict.findings.at(0).severity == Severity::warning);
    CHECK(verdict.findings.at(0).at.line == 27);
}

TEST_CASE("a pin map of your own that hides a shipped one is told") {
    Library library({repository() / "tests/check/own", repository() / "pinmaps"});
    const Design design = read_design(text_source(HdmiLink{}.yaml()), ".", library);
    const Findings some = found(check_design(design).findings, "pinmap-own");
    REQUIRE(some.size() == 1);
    CHECK(some[0].severity == Severity::note);
}

TEST_CASE("a pin map from memory is told once, however many ports use it") {
    const std::string yaml = usb(usb_crossed);
    CHECK(found(verdict_of(yaml).findings, "pinmap-doubtful").size() == 1);
    CHECK_THAT(told(yaml, "pinmap-doubtful"),
               Catch::Matchers::StartsWith("the contacts of usb3-micro-b are marked: from memory"));
}

TEST_CASE("two promises over one ribbon of forty are each proved") {
    Row row = HdmiLink{}.base;
    Row second;
    for (const std::string& entry : row) second.push_back(entry == "GND" ? entry : "two." + entry);
    Row all;
    for (const std::string& entry : row) all.push_back(entry == "GND" ? entry : "one." + entry);
    all.insert(all.end(), second.begin(), second.end());
    const auto yaml = [&](const Row& near, const Row& far) {
        const auto board = [](const char* name, const Row& wired) {
            return fmt::format(
                "  {}:\n    ports:\n      one: hdmi-a plug\n      two: hdmi-a plug\n"
                "      tail: {{receptacle: ffc-0.50-bottom, positions: 40, "
                "first-contact: left,\n        wired: {}}}\n",
                name, listed(wired));
        };
        return "pinfold: 1\ntitle: two links\ndevices:\n"
               "  pc: {ports: {one: hdmi-a receptacle, two: hdmi-a receptacle}}\n"
               "  wall: {ports: {one: hdmi-a receptacle, two: hdmi-a receptacle}}\nboards:\n" +
               board("near", near) + board("far", far) +
               "ribbons:\n  strap: {type: ffc-0.50, conductors: 40, length: 80 mm, copper: "
               "opposite-side, lay: [straight], faces: {a: up, b: down}}\n"
               "joins: [pc.one + near.one, pc.two + near.two, near.tail + strap.a, strap.b + "
               "far.tail, far.one + wall.one, far.two + wall.two]\ncarry:\n"
               "- {interface: hdmi, from: pc.one, to: wall.one, rate: 1 Gbit/s}\n"
               "- {interface: hdmi, from: pc.two, to: wall.two, rate: 1 Gbit/s}\n";
    };
    const Verdict good = verdict_of(yaml(all, all));
    CHECK(errors_of(good) == Texts{});
    CHECK(good.wiring.passes().size() == 38);

    const Verdict mirrored = verdict_of(yaml(all, reversed(all)));
    CHECK(errors_of(mirrored) == Texts{"order-mirrored"});
    const Verdict shifted = verdict_of(yaml(all, moved(all, 1)));
    CHECK(errors_of(shifted) == Texts{"order-shifted"});
    const Verdict swapped = verdict_of(yaml(all, exchanged(all, 35, 36)));
    REQUIRE(errors_of(swapped) == Texts{"pair-swapped"});
    CHECK(swapped.findings[0].places[0] == "hdmi pc.two to wall.two");

    Row crossed = second;  // the two links exchanged as a whole on one board
    crossed.insert(crossed.end(), all.begin(), all.begin() + 20);
    CHECK_FALSE(verdict_of(yaml(all, crossed)).clean());
}

TEST_CASE("a chain of three boards and two ribbons is proved, and a fault found in either") {
    const auto yaml = [](const Row& in, const Row& out, const std::string& second_copper) {
        HdmiLink link;
        const auto middle = [](const Row& a, const Row& b) {
            return fmt::format(
                "  hinge:\n    ports:\n"
                "      in: {{receptacle: ffc-0.50-bottom, positions: 20, first-contact: left,\n"
                "        wired: {}}}\n"
                "      out: {{receptacle: ffc-0.50-bottom, positions: 20, first-contact: left,\n"
                "        wired: {}}}\n",
                listed(a), listed(b));
        };
        std::string text =
            with(link.yaml(), "ribbons:\n",
                 middle(in, out) +
                     "ribbons:\n  tail2: {type: ffc-0.50, conductors: 20, length: 60 "
                     "mm, copper: " +
                     second_copper + "}\n");
        return with(text, "- strap.b + lid.tail\n",
                    "- strap.b + hinge.in\n- hinge.out + tail2.a\n- tail2.b + lid.tail\n");
    };
    const HdmiLink link;
    CHECK(errors_of(verdict_of(yaml(link.lid, link.base, "same-side"))) == Texts{});
    CHECK(errors_of(verdict_of(yaml(link.lid, link.lid, "opposite-side"))) == Texts{});

    const Verdict mirrored = verdict_of(yaml(link.lid, link.base, "opposite-side"));
    REQUIRE(errors_of(mirrored) == Texts{"order-mirrored"});
    const Verdict shifted = verdict_of(yaml(moved(link.lid, -1), link.base, "same-side"));
    REQUIRE(errors_of(shifted) == Texts{"order-shifted"});
    const Verdict swapped = verdict_of(yaml(link.lid, exchanged(link.base, 2, 3), "same-side"));
    REQUIRE(errors_of(swapped) == Texts{"pair-swapped"});
    CHECK(swapped.findings[0].repairs.size() == 3);  // on each of the boards
}

}  // namespace pinfold
