#include <catch2/catch.hpp>

#include "design/told.hpp"

namespace pinfold {
namespace {

using Words = std::vector<std::string>;

/// Two USB 2.0 ports made of pads, and leads between them as told.
std::string two_ports(const std::string& leads, const std::string& more_devices = "") {
    return "pinfold: 1\n"
           "title: buoy with two wires more than it needs\n"
           "devices:\n"
           "  near: {ports: {u: {interface: usb2, pads: [VBUS, D-, D+, GND]}}}\n"
           "  far: {ports: {u: {interface: usb2, pads: [VBUS, D-, D+, GND]}}}\n" +
           more_devices + "leads:\n" + leads +
           "carry:\n- {interface: usb2, from: near.u, to: far.u}\n";
}

std::string lead(const std::string& name, const std::string& from, const std::string& to) {
    return "  " + name + ": {from: " + from + ", to: " + to + ", gauge: AWG 28, length: 50 mm}\n";
}

const std::string three_good =
    lead("w1", "near.u.VBUS", "far.u.VBUS") + lead("w4", "near.u.GND", "far.u.GND");

}  // namespace

// Scenarios: invented. States: as defined in design/wiring.hpp, worked out by hand.
TEST_CASE("signals that arrive where they should are good") {
    const Design design = design_of(two_ports(three_good + lead("w2", "near.u.D-", "far.u.D-") +
                                              lead("w3", "near.u.3", "far.u.3")));
    CHECK(passes_of(design) == Words{"VBUS near.u.1 good far.u.1", "D- near.u.2 good far.u.2",
                                     "D+ near.u.3 good far.u.3", "GND near.u.4 good far.u.4"});
    CHECK(hops_of(design, 0) == Words{"near.u.1", "far.u.1"});
}

TEST_CASE("a signal with no way to the far port is open and its hops end where it ends") {
    const Design design = design_of(two_ports(
        three_good + lead("w2", "near.u.D-", "far.u.D-") + lead("w3", "near.u.D+", "post.p.1"),
        "  post: {ports: {p: {pads: [open]}}}\n"));
    CHECK(passes_of(design) == Words{"VBUS near.u.1 good far.u.1", "D- near.u.2 good far.u.2",
                                     "D+ near.u.3 open nowhere", "GND near.u.4 good far.u.4"});
    CHECK(hops_of(design, 2) == Words{"near.u.3", "post.p.1"});
}

TEST_CASE("two halves that arrive at each other's contacts are swapped") {
    const Design design = design_of(two_ports(three_good + lead("w2", "near.u.D-", "far.u.D+") +
                                              lead("w3", "near.u.D+", "far.u.D-")));
    CHECK(passes_of(design) == Words{"VBUS near.u.1 good far.u.1", "D- near.u.2 swapped far.u.3",
                                     "D+ near.u.3 swapped far.u.2", "GND near.u.4 good far.u.4"});
}

TEST_CASE("one half at the other's contact alone is wrong") {
    const Design design = design_of(two_ports(three_good + lead("w2", "near.u.D-", "far.u.D+")));
    CHECK(passes_of(design) == Words{"VBUS near.u.1 good far.u.1", "D- near.u.2 wrong far.u.3",
                                     "D+ near.u.3 open nowhere", "GND near.u.4 good far.u.4"});
}

TEST_CASE("a signal that arrives at another's contact is wrong") {
    const Design design = design_of(
        two_ports(lead("w1", "near.u.VBUS", "far.u.D-") + lead("w2", "near.u.D-", "far.u.VBUS") +
                  lead("w3", "near.u.D+", "far.u.D+") + lead("w4", "near.u.GND", "far.u.GND")));
    CHECK(passes_of(design) == Words{"VBUS near.u.1 wrong far.u.2", "D- near.u.2 wrong far.u.1",
                                     "D+ near.u.3 good far.u.3", "GND near.u.4 good far.u.4"});
}

TEST_CASE("two halves joined to each other are shorted") {
    const Design design = design_of(two_ports(three_good + lead("w2", "near.u.D-", "far.u.D-") +
                                              lead("w3", "near.u.D+", "far.u.D+") +
                                              lead("w5", "near.u.D+", "far.u.D-")));
    CHECK(passes_of(design) == Words{"VBUS near.u.1 good far.u.1", "D- near.u.2 shorted far.u.2",
                                     "D+ near.u.3 shorted far.u.3", "GND near.u.4 good far.u.4"});
}

TEST_CASE("a signal that joins two of the far port's is shorted though both are wrong") {
    const Design design = design_of(two_ports(lead("w2", "near.u.D-", "far.u.D+") +
                                              lead("w3", "near.u.D+", "far.u.D-") +
                                              lead("w5", "near.u.D-", "far.u.GND")));
    CHECK(passes_of(design) == Words{"VBUS near.u.1 open nowhere", "D- near.u.2 shorted far.u.3",
                                     "D+ near.u.3 swapped far.u.2", "GND near.u.4 open nowhere"});
}

TEST_CASE("a supply on ground is a short of both") {
    const Design design = design_of(two_ports(three_good + lead("w2", "near.u.D-", "far.u.D-") +
                                              lead("w3", "near.u.D+", "far.u.D+") +
                                              lead("w5", "near.u.GND", "far.u.VBUS")));
    CHECK(passes_of(design) == Words{"VBUS near.u.1 shorted far.u.1", "D- near.u.2 good far.u.2",
                                     "D+ near.u.3 good far.u.3", "GND near.u.4 shorted far.u.4"});
}

TEST_CASE("a signal that meets a contact of a third device is shorted") {
    const Design design = design_of(two_ports(three_good + lead("w2", "near.u.D-", "far.u.D-") +
                                                  lead("w3", "near.u.D+", "far.u.D+") +
                                                  lead("w5", "far.u.D+", "lamp.p.ON"),
                                              "  lamp: {ports: {p: {pads: [ON, GND]}}}\n"));
    CHECK(passes_of(design) == Words{"VBUS near.u.1 good far.u.1", "D- near.u.2 good far.u.2",
                                     "D+ near.u.3 shorted far.u.3", "GND near.u.4 good far.u.4"});
}

TEST_CASE("a signal that meets an open contact of a third device is good") {
    const Design design = design_of(two_ports(three_good + lead("w2", "near.u.D-", "far.u.D-") +
                                                  lead("w3", "near.u.D+", "far.u.D+") +
                                                  lead("w5", "far.u.D+", "lamp.p.1"),
                                              "  lamp: {ports: {p: {pads: [open, GND]}}}\n"));
    CHECK(passes_of(design)[2] == "D+ near.u.3 good far.u.3");
}

TEST_CASE("grounds and supplies may meet their like on a third device") {
    const Design design = design_of(two_ports(
        three_good + lead("w2", "near.u.D-", "far.u.D-") + lead("w3", "near.u.D+", "far.u.D+") +
            lead("w5", "far.u.VBUS", "pack.p.5V") + lead("w6", "far.u.GND", "pack.p.GND"),
        "  pack: {ports: {p: {pads: [+5V, GND]}}}\n"));
    CHECK(passes_of(design) == Words{"VBUS near.u.1 good far.u.1", "D- near.u.2 good far.u.2",
                                     "D+ near.u.3 good far.u.3", "GND near.u.4 good far.u.4"});
}

TEST_CASE("a lead goes round through any number of devices' contacts") {
    const Design design = design_of(two_ports(lead("w1", "near.u.VBUS", "posts.p.1") +
                                                  lead("w2", "posts.p.1", "posts.p.2") +
                                                  lead("w3", "posts.p.2", "far.u.VBUS"),
                                              "  posts: {ports: {p: {pads: [open, open]}}}\n"));
    CHECK(passes_of(design)[0] == "VBUS near.u.1 good far.u.1");
    CHECK(hops_of(design, 0) == Words{"near.u.1", "posts.p.1", "posts.p.2", "far.u.1"});
}

namespace {

/// A ribbon of four between two boards with USB 2.0 plugs.
std::string over_ribbon(const std::string& near_side, const std::string& far_side,
                        const std::string& far_order, const std::string& copper) {
    return "pinfold: 1\n"
           "title: buoy and its drum\n"
           "devices:\n"
           "  near: {ports: {u: usb2-a receptacle}}\n"
           "  far: {ports: {u: usb2-a receptacle}}\n"
           "boards:\n"
           "  one: {ports: {plug: usb2-a plug, tail: {receptacle: ffc-0.50-" +
           near_side +
           ", positions: 4, first-contact: left, wired: [VBUS, D-, D+, GND]}}}\n"
           "  two: {ports: {plug: usb2-a plug, tail: {receptacle: ffc-0.50-" +
           far_side + ", positions: 4, first-contact: left, wired: [" + far_order +
           "]}}}\n"
           "ribbons: {strap: {type: ffc-0.50, conductors: 4, length: 50 mm, copper: " +
           copper +
           "}}\n"
           "joins:\n- near.u + one.plug\n- one.tail + strap.a\n- strap.b + two.tail\n- two.plug + "
           "far.u\n"
           "carry:\n- {interface: usb2, from: near.u, to: far.u}\n";
}

const Words all_good{"VBUS near.u.1 good far.u.1", "D- near.u.2 good far.u.2",
                     "D+ near.u.3 good far.u.3", "GND near.u.4 good far.u.4"};

}  // namespace

TEST_CASE("a mirrored ribbon is met by a mirrored list") {
    CHECK(passes_of(design_of(over_ribbon("bottom", "bottom", "GND, D+, D-, VBUS", "same-side"))) ==
          all_good);
    CHECK(passes_of(design_of(
              over_ribbon("bottom", "bottom", "VBUS, D-, D+, GND", "opposite-side"))) == all_good);
    CHECK(passes_of(design_of(over_ribbon("top", "bottom", "VBUS, D-, D+, GND", "same-side"))) ==
          all_good);
}

TEST_CASE("a mirrored ribbon between equal lists exchanges the ends of the row") {
    CHECK(passes_of(design_of(over_ribbon("bottom", "bottom", "VBUS, D-, D+, GND", "same-side"))) ==
          Words{"VBUS near.u.1 wrong far.u.4", "D- near.u.2 swapped far.u.3",
                "D+ near.u.3 swapped far.u.2", "GND near.u.4 wrong far.u.1"});
}

TEST_CASE("the hops of a mirrored ribbon keep the conductor and change the contact") {
    const Design design =
        design_of(over_ribbon("bottom", "bottom", "GND, D+, D-, VBUS", "same-side"));
    CHECK(hops_of(design, 0) == Words{"near.u.1", "one.plug.1", "one.tail.1", "strap.a.1",
                                      "strap.b.1", "two.tail.4", "two.plug.1", "far.u.1"});
}

TEST_CASE("ribbon ends may be named from either side of the design") {
    std::string turned = over_ribbon("bottom", "top", "VBUS, D-, D+, GND", "same-side");
    turned.replace(turned.find("one.tail + strap.a"), 18, "strap.b + one.tail");
    turned.replace(turned.find("strap.b + two.tail"), 18, "two.tail + strap.a");
    const Design design = design_of(turned);
    CHECK(passes_of(design) == all_good);
    CHECK(hops_of(design, 1)[3] == "strap.b.2");
    CHECK(hops_of(design, 1)[4] == "strap.a.2");
}

TEST_CASE("copper that faces away joins nothing at the far end") {
    std::string away = over_ribbon("bottom", "bottom", "VBUS, D-, D+, GND", "opposite-side");
    away.replace(away.find("copper: opposite-side"), 21,
                 "copper: opposite-side, lay: [straight], faces: {a: up, b: up}");
    const Design design = design_of(away);
    CHECK(passes_of(design) == Words{"VBUS near.u.1 open nowhere", "D- near.u.2 open nowhere",
                                     "D+ near.u.3 open nowhere", "GND near.u.4 open nowhere"});
    CHECK(hops_of(design, 0).back() == "strap.b.1");
}

TEST_CASE("a ribbon with one loose end joins nothing") {
    std::string loose = over_ribbon("bottom", "bottom", "VBUS, D-, D+, GND", "same-side");
    loose.erase(loose.find("- strap.b + two.tail\n"), 21);
    CHECK(passes_of(design_of(loose))[0] == "VBUS near.u.1 open nowhere");
}

TEST_CASE("a both-sided receptacle is traced as the join says it is touched") {
    const auto touched = [](const std::string& side) {
        std::string text = over_ribbon("both", "bottom", "VBUS, D-, D+, GND", "same-side");
        text.replace(text.find("- one.tail + strap.a"), 20,
                     "- {join: one.tail + strap.a, touches: " + side + "}");
        return passes_of(design_of(text));
    };
    CHECK(touched("top") == all_good);
    CHECK(touched("bottom")[0] == "VBUS near.u.1 wrong far.u.4");
}

TEST_CASE("a narrow ribbon in a wide receptacle is counted from contact 1 at end a") {
    std::string narrow = over_ribbon("bottom", "top", "VBUS, D-, D+, GND", "same-side");
    narrow.replace(narrow.find("positions: 4, first-contact: left, wired: [VBUS, D-, D+, GND]"), 61,
                   "positions: 6, first-contact: left, wired: [VBUS, D-, D+, GND, open, open]");
    CHECK(passes_of(design_of(narrow)) == all_good);
}

// DisplayPort: contact k of a source box on contact 13 - k of a sink box for k to 12, 13 to 19
// straight, 20 never carried (public pin tables; from memory for 20).
TEST_CASE("a DisplayPort source's contacts are promised to the sink's reversed ones") {
    std::string text =
        "pinfold: 1\ntitle: two boxes\n"
        "devices:\n"
        "  box: {ports: {out: displayport-source receptacle}}\n"
        "  wall: {ports: {in: displayport-sink receptacle}}\n"
        "carry:\n- {interface: displayport, from: box.out, to: wall.in}\n";
    const Design design = design_of(text);
    const Wiring wiring = trace(design);
    REQUIRE(wiring.passes().size() == 19);
    for (const Pass& pass : wiring.passes()) {
        const std::size_t k = pass.from.contact + 1;
        CAPTURE(k);
        CHECK(pass.to.contact + 1 == (k <= 12 ? 13 - k : k));
        CHECK(pass.state == State::open);
    }
}

// Type-C: a plug turned over puts its row A on row B (public table of the receptacle).
TEST_CASE("a flipped Type-C plug meets the other row") {
    const auto text = [](const std::string& join) {
        return "pinfold: 1\ntitle: one plug\n"
               "devices:\n"
               "  host: {ports: {c: usb-c receptacle}}\n"
               "  probe: {ports: {p: {pads: [open, open, open]}}}\n"
               "boards:\n"
               "  stub: {ports: {plug: usb-c plug, pads: {pads: [plug.A2, plug.A6, plug.B8]}}}\n"
               "joins:\n- " +
               join + "\n";
    };
    const auto met = [](const Design& design, std::size_t pad) {
        const Wiring wiring = trace(design);
        const std::uint32_t piece = wiring.piece_of(wiring.point_of(ContactRef{{2, 1}, pad}));
        Words names;
        for (const ContactRef& contact : wiring.device_contacts(piece)) {
            names.push_back(name_of(design, contact));
        }
        return names;
    };
    const Design upright = design_of(text("host.c + stub.plug"));
    CHECK(met(upright, 0) == Words{"host.c.A2"});
    CHECK(met(upright, 1) == Words{"host.c.A6"});
    CHECK(met(upright, 2) == Words{"host.c.B8"});
    const Design flipped = design_of(text("{join: stub.plug + host.c, attitude: flipped}"));
    CHECK(met(flipped, 0) == Words{"host.c.B2"});
    CHECK(met(flipped, 1) == Words{"host.c.B6"});
    CHECK(met(flipped, 2) == Words{"host.c.A8"});
}

// Two contacts bear D+ on a receptacle and one on a plug (the same table): one way is enough.
TEST_CASE("a signal on two contacts of a port needs one way") {
    const std::string way = "plug.VBUS, plug.GND, plug.D+, plug.D-";
    const Design design = design_of(
        "pinfold: 1\ntitle: data only\n"
        "devices:\n"
        "  host: {ports: {c: usb-c receptacle}}\n"
        "  far: {ports: {u: {interface: usb-c, pads: [VBUS, GND, D+, D-]}}}\n"
        "boards:\n  stub: {ports: {plug: usb-c plug, out: {pads: [" +
        way +
        "]}}}\n"
        "joins: [host.c + stub.plug]\n"
        "leads:\n" +
        lead("w1", "stub.out.1", "far.u.1") + lead("w2", "stub.out.2", "far.u.2") +
        lead("w3", "stub.out.3", "far.u.3") + lead("w4", "stub.out.4", "far.u.4") +
        "carry:\n- {interface: usb-c, from: host.c, to: far.u}\n");
    for (const std::string& pass : passes_of(design)) {
        CAPTURE(pass);
        CHECK(pass.find(" good ") != std::string::npos);
    }
    const auto passes = passes_of(design);
    CHECK(std::count(passes.begin(), passes.end(), "D+ host.c.A6 good far.u.3") == 1);
    CHECK(std::count_if(passes.begin(), passes.end(),
                        [](const std::string& pass) { return pass.find("D+ ") == 0; }) == 1);
}

TEST_CASE("three boards in a row and a supply from a fourth place are traced through") {
    const Design design = design_of(
        "pinfold: 1\ntitle: mast with a joint in the middle\n"
        "devices:\n"
        "  near: {ports: {u: usb2-a receptacle}}\n"
        "  far: {ports: {u: usb2-a receptacle}}\n"
        "  pack: {ports: {out: {pads: [5V, GND]}}}\n"
        "boards:\n"
        "  one: {ports: {plug: usb2-a plug, tail: {receptacle: ffc-0.50-bottom, positions: 4, "
        "first-contact: left, wired: [open, D-, D+, GND]}}}\n"
        "  mid: {ports: {up: {receptacle: ffc-0.50-top, positions: 4, first-contact: left, "
        "wired: [5V, D-, D+, GND]}, down: {receptacle: ffc-0.50-bottom, positions: 4, "
        "first-contact: left, wired: [5V, D-, D+, GND]}, feed: {pads: [5V, GND]}}}\n"
        "  two: {ports: {plug: usb2-a plug, tail: {receptacle: ffc-0.50-top, positions: 4, "
        "first-contact: left, wired: [VBUS, D-, D+, GND]}}}\n"
        "ribbons:\n"
        "  lower: {type: ffc-0.50, conductors: 4, length: 50 mm, copper: same-side}\n"
        "  upper: {type: ffc-0.50, conductors: 4, length: 50 mm, copper: same-side}\n"
        "joins:\n- near.u + one.plug\n- one.tail + lower.a\n- lower.b + mid.up\n- mid.down + "
        "upper.a\n"
        "- upper.b + two.tail\n- two.plug + far.u\n"
        "leads:\n" +
        lead("red", "pack.out.5V", "mid.feed.5V") + lead("black", "pack.out.GND", "mid.feed.2") +
        "carry:\n- {interface: usb2, from: near.u, to: far.u}\n"
        "- {supply: 5V, from: pack.out, to: far.u}\n");
    const auto passes = passes_of(design);
    CHECK(passes[0] == "VBUS near.u.1 open nowhere");
    CHECK(passes[1] == "D- near.u.2 good far.u.2");
    CHECK(passes[2] == "D+ near.u.3 good far.u.3");
    CHECK(passes[3] == "GND near.u.4 good far.u.4");
    CHECK(passes[4] == "5V pack.out.1 good far.u.1");
    CHECK(passes[5] == "GND pack.out.2 good far.u.4");
    CHECK(hops_of(design, 4) == Words{"pack.out.1", "mid.feed.1", "mid.down.1", "upper.a.1",
                                      "upper.b.1", "two.tail.1", "two.plug.1", "far.u.1"});
}

TEST_CASE("a branch reaches both of its ends and each promise sees its own") {
    const Design design = design_of(
        "pinfold: 1\ntitle: one supply and two loads\n"
        "devices:\n"
        "  pack: {ports: {out: {pads: [5V, GND]}}}\n"
        "  lamp: {ports: {in: {pads: [5V, GND]}}}\n"
        "  fan: {ports: {in: {pads: [GND, 5V]}}}\n"
        "leads:\n" +
        lead("w1", "pack.out.1", "lamp.in.1") + lead("w2", "pack.out.2", "lamp.in.2") +
        lead("w3", "lamp.in.1", "fan.in.2") + lead("w4", "pack.out.2", "fan.in.1") +
        "carry:\n- {supply: 5V, from: pack.out, to: lamp.in}\n"
        "- {supply: 5V, from: pack.out, to: fan.in}\n");
    CHECK(passes_of(design) == Words{"5V pack.out.1 good lamp.in.1",
                                     "GND pack.out.2 good lamp.in.2", "5V pack.out.1 good fan.in.2",
                                     "GND pack.out.2 good fan.in.1"});
}

TEST_CASE("a signal that is left out is not promised") {
    std::string text = two_ports(three_good);
    text.replace(text.find("to: far.u}\n"), 10, "to: far.u, leave-out: [d_p, D-]}");
    CHECK(passes_of(design_of(text)) ==
          Words{"VBUS near.u.1 good far.u.1", "GND near.u.4 good far.u.4"});
}

TEST_CASE("points have the names of their contacts and conductors") {
    const Design design =
        design_of(over_ribbon("bottom", "bottom", "GND, D+, D-, VBUS", "same-side"));
    const Wiring wiring = trace(design);
    CHECK(wiring.name_of(wiring.point_of(0, End::b, ConductorNumber(3)), design) == "strap.b.3");
    CHECK(wiring.name_of(wiring.point_of(ContactRef{{2, 1}, 3}), design) == "one.tail.4");
    CHECK(wiring.name_of(static_cast<Point>(wiring.points() - 1), design).empty());
    CHECK(wiring.contact_at(wiring.point_of(ContactRef{{3, 1}, 0})) == ContactRef{{3, 1}, 0});
    CHECK_FALSE(wiring.contact_at(wiring.point_of(0, End::a, ConductorNumber(1))));
    const auto wire = wiring.wire_of(0, ConductorNumber(2));
    REQUIRE(wire);
    CHECK(design.interface_of(design.port({0, 0}))->signals[wire->signal].name == "D-");
}

TEST_CASE("a design without anything to trace is traced") {
    const Wiring wiring = trace(design_of("pinfold: 1\ntitle: an empty bench\n"));
    CHECK(wiring.passes().empty());
    CHECK(wiring.points() == 0);
}

}  // namespace pinfold
