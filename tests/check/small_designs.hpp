// Small designs for tests that need no HDMI link: leads, a header, USB, DisplayPort, a camera.
#pragma once

#include <fmt/format.h>

#include <string>

#include "check/bench.hpp"

namespace pinfold {

/// 5 V from a cell to a lamp over two leads; `promise` goes on after `to`.
inline std::string fed(const std::string& promise, const std::string& more_leads = {},
                       const std::string& more_devices = {}) {
    return R"(pinfold: 1
title: fed
devices:
  cell: {ports: {out: {pads: [5V, GND]}}}
  lamp: {ports: {in: {pads: [5V, GND]}}}
)" + more_devices +
           R"(leads:
  plus: {from: cell.out.5V, to: lamp.in.5V, gauge: AWG 28, length: 500 mm}
  minus: {from: cell.out.GND, to: lamp.in.GND, gauge: AWG 28, length: 500 mm}
)" + more_leads +
           "carry:\n- {supply: 5V, from: cell.out, to: lamp.in" + promise + "}\n";
}

/// 5 V over `ways` conductors and back over as many, 200 mm of 0.5 mm ribbon, 30 mohm at each
/// contact; `count` such straps side by side, one promise each.
inline std::string paralleled(int ways, const std::string& promise, int count = 1) {
    const auto half = static_cast<std::size_t>(ways);
    Row row(half, "5V");
    row.insert(row.end(), half, "GND");
    std::string ports, ribbons, joins, carries;
    for (int i = 0; i < count; ++i) {
        ports += fmt::format(
            "      p{}: {{receptacle: good-0.50, positions: {}, first-contact: left, signals: "
            "{}}}\n",
            i, row.size(), listed(row));
        ribbons += fmt::format(
            "  s{}: {{type: ffc-0.50, conductors: {}, length: 200 mm, copper: opposite-side}}\n", i,
            row.size());
        joins += fmt::format("- cell.p{0} + s{0}.a\n- s{0}.b + lamp.p{0}\n", i);
        carries += fmt::format("- {{supply: 5V, from: cell.p{0}, to: lamp.p{0}{1}}}\n", i, promise);
    }
    return "pinfold: 1\ntitle: paralleled\ndevices:\n  cell:\n    ports:\n" + ports +
           "  lamp:\n    ports:\n" + ports + "ribbons:\n" + ribbons + "joins:\n" + joins +
           "carry:\n" + carries;
}

/// The cell's 5 V made from a battery of 3 to 4 V for 3.6 W at the lamp: by hand, with 0.104 ohm
/// each way (AWG 28, 500 mm, 60 degC), 0.84 A at the lamp, 3.8 W out and 1.4 A from 3 V at 90 %.
inline std::string budgeted(const std::string& stage, const std::string& battery = {}) {
    const std::string kind = stage.starts_with("kind") ? "" : "kind: boost, ";
    return fed(", least: 4 V") +
           "budget:\n"
           "  batteries: {pack: {energy: 10 Wh, full: 4 V, empty: 3 V" +
           (battery.empty() ? "" : ", " + battery) +
           "}}\n"
           "  stages: {up: {from: pack, output: 5 V, efficiency: 90 %, " +
           kind + stage +
           "}}\n"
           "  loads: {glow: {from: up, at: lamp.in, typical: 2 W, peak: 3.6 W}}\n";
}

/// Slow signals over single leads from one port's pads to another's.
inline std::string pads(const std::string& from, const std::string& to,
                        const std::string& promise = {}) {
    return "pinfold: 1\ntitle: pads\ndevices:\n"
           "  one: {ports: {p: {interface: hdmi, pads: " +
           from +
           "}}}\n"
           "  two: {ports: {p: {interface: hdmi, pads: " +
           to +
           "}}}\n"
           "leads:\n"
           "  l1: {from: one.p.1, to: two.p.1, gauge: AWG 28, length: 50 mm}\n"
           "carry:\n- {interface: hdmi, from: one.p, to: two.p, rate: 1 Gbit/s" +
           promise + "}\n";
}

/// USB 3 from a host to a disk; `far` is the list of the far board's ribbon receptacle.
inline std::string usb(const std::string& far) {
    return R"(pinfold: 1
title: usb
devices:
  host: {ports: {usb: usb3-a receptacle}}
  disk: {ports: {usb: usb3-micro-b receptacle}}
boards:
  near:
    ports:
      plug: usb3-a plug
      tail: {receptacle: ffc-0.50-bottom, positions: 11, first-contact: left,
        wired: [GND, VBUS, D-, D+, GND, SSRX-, SSRX+, GND, SSTX-, SSTX+, GND]}
  far:
    ports:
      tail: {receptacle: ffc-0.50-bottom, positions: 11, first-contact: left,
        wired: )" +
           far + R"(}
      plug: usb3-micro-b plug
ribbons:
  strap: {type: ffc-0.50, conductors: 11, length: 100 mm, copper: opposite-side,
          lay: [straight], faces: {a: up, b: down}}
joins: [host.usb + near.plug, near.tail + strap.a, strap.b + far.tail, far.plug + disk.usb]
carry:
- {interface: usb3, from: host.usb, to: disk.usb, rate: 5 Gbit/s, current: 0.1 A}
)";
}

inline const std::string usb_named =
    "[GND, VBUS, D-, D+, GND, SSRX-, SSRX+, GND, SSTX-, SSTX+, GND]";
inline const std::string usb_crossed =
    "[GND, VBUS, D-, D+, GND, SSTX-, SSTX+, GND, SSRX-, SSRX+, GND]";

/// USB Type-C from receptacle to receptacle; `attitude` is that of the far plug.
inline std::string usb_c(const std::string& far, const std::string& attitude = "upright") {
    return R"(pinfold: 1
title: usb c
devices:
  host: {ports: {usb: usb-c receptacle}}
  dock: {ports: {usb: usb-c receptacle}}
boards:
  near:
    ports:
      plug: usb-c plug
      tail: {receptacle: ffc-0.50-bottom, positions: 20, first-contact: left, wired: )" +
           std::string(
               "[GND, TX1+, TX1-, GND, RX1+, RX1-, GND, TX2+, TX2-, GND, RX2+, RX2-, GND,"
               " D+, D-, CC1, CC2, SBU1, SBU2, VBUS]") +
           R"(}
  far:
    ports:
      tail: {receptacle: ffc-0.50-bottom, positions: 20, first-contact: left, wired: )" +
           far + R"(}
      plug: usb-c plug
ribbons:
  strap: {type: ffc-0.50, conductors: 20, length: 60 mm, copper: opposite-side,
          lay: [straight], faces: {a: up, b: down}}
joins:
- host.usb + near.plug
- near.tail + strap.a
- strap.b + far.tail
- {join: far.plug + dock.usb, attitude: )" +
           attitude + R"(}
carry:
- {interface: usb-c, from: host.usb, to: dock.usb, rate: 5 Gbit/s, current: 0.2 A}
)";
}

inline const std::string usb_c_crossed =
    "[GND, RX1+, RX1-, GND, TX1+, TX1-, GND, RX2+, RX2-, GND, TX2+, TX2-, GND, D+, D-, CC1, CC2,"
    " SBU2, SBU1, VBUS]";
inline const std::string usb_c_named =
    "[GND, TX1+, TX1-, GND, RX1+, RX1-, GND, TX2+, TX2-, GND, RX2+, RX2-, GND, D+, D-, CC1, CC2,"
    " SBU1, SBU2, VBUS]";

/// A header of two rows between a gauge and a carrier board whose leads go on to a panel.
inline std::string header(const std::string& wired, const std::string& sockets = "same-edge") {
    std::string leads;
    for (int i = 1; i <= 8; ++i) {
        leads += fmt::format(
            "  l{0}: {{from: carrier.out.{0}, to: panel.io.{0}, gauge: AWG 26, length: 40 mm}}\n",
            i);
    }
    return R"(pinfold: 1
title: header
devices:
  gauge: {ports: {io: {receptacle: idc-2.54, positions: 8, first-contact: left,
          interface: hdmi, signals: [SDA, SCL, CEC, UTIL, HPD, 5V, GND, GND]}}}
  panel: {ports: {io: {interface: hdmi, pads: [SDA, SCL, CEC, UTIL, HPD, 5V, GND, GND]}}}
boards:
  carrier:
    ports:
      box: {receptacle: idc-2.54, positions: 8, first-contact: left,
        wired: )" +
           wired + R"(}
      out: {pads: [A, B, C, D, E, F, GND, GND]}
ribbons:
  flat: {type: flat-1.27, conductors: 8, length: 100 mm, sockets: )" +
           sockets + R"(}
leads:
)" + leads +
           R"(joins: [gauge.io + flat.a, flat.b + carrier.box]
carry:
- {interface: hdmi, from: gauge.io, to: panel.io, rate: 1 Gbit/s}
)";
}

/// DisplayPort from box to box. `last` is contact 21 of both lists, `far` the sink's plug.
inline std::string boxes(const std::string& last, const std::string& far = "displayport-sink",
                         const std::string& sink = "displayport-sink") {
    const std::string row =
        "[GND, L0+, L0-, GND, L1+, L1-, GND, L2+, L2-, GND, L3+, L3-, GND, AUX+, AUX-, GND,\n"
        "        CONFIG1, CONFIG2, HPD, RETURN, " +
        last + ", GND]";
    return R"(pinfold: 1
title: boxes
devices:
  one: {ports: {dp: displayport-source receptacle}}
  two: {ports: {dp: )" +
           sink + R"( receptacle}}
boards:
  near:
    ports:
      plug: displayport-source plug
      tail: {receptacle: ffc-0.50-bottom, positions: 22, first-contact: left, wired: )" +
           row + R"(}
  far:
    ports:
      plug: )" +
           far + R"( plug
      tail: {receptacle: ffc-0.50-bottom, positions: 22, first-contact: left, wired: )" +
           row + R"(}
ribbons:
  strap: {type: ffc-0.50, conductors: 22, length: 90 mm, copper: opposite-side,
          lay: [straight], faces: {a: up, b: down}}
joins: [one.dp + near.plug, near.tail + strap.a, strap.b + far.tail, far.plug + two.dp]
carry:
- {interface: displayport, from: one.dp, to: two.dp, rate: 2.7 Gbit/s}
)";
}

/// Four ways from a gauge to a receptacle with contacts on both sides, with no lay given.
inline std::string either(const std::string& signals, const std::string& join = "strap.b + two.p") {
    return "pinfold: 1\ntitle: either\ndevices:\n"
           "  one: {ports: {p: {receptacle: ffc-0.50-bottom, positions: 4, first-contact: left,\n"
           "        interface: hdmi, signals: " +
           signals +
           "}}}\n"
           "  two: {ports: {p: {receptacle: ffc-0.50-both, positions: 4, first-contact: left,\n"
           "        interface: hdmi, signals: " +
           signals +
           "}}}\n"
           "ribbons:\n"
           "  strap: {type: ffc-0.50, conductors: 4, length: 50 mm, copper: same-side}\n"
           "joins:\n- one.p + strap.a\n- " +
           join +
           "\n"
           "carry:\n- {interface: hdmi, from: one.p, to: two.p, rate: 1 Gbit/s}\n";
}

/// Two boards with the same ribbon connector, joined without adapters.
inline std::string direct(const std::string& connector, const std::string& receptacle,
                          const std::string& ribbon, const std::string& carry) {
    return "pinfold: 1\ntitle: direct\ndevices:\n"
           "  one: {ports: {p: {connector: " +
           connector + " receptacle, receptacle: " + receptacle +
           ", first-contact: left}}}\n"
           "  two: {ports: {p: {connector: " +
           connector + " receptacle, receptacle: " + receptacle +
           ", first-contact: left}}}\n"
           "ribbons:\n  strap: {" +
           ribbon +
           "}\n"
           "joins: [one.p + strap.a, strap.b + two.p]\n"
           "carry:\n- {" +
           carry + ", from: one.p, to: two.p}\n";
}

}  // namespace pinfold
