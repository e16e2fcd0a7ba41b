"""Solves a supply's way with ngspice and with `pinfold power`, and holds the two together.

A way of our own: one port gives 5.2 V through a ribbon with unequal contacts and two leads to a
converter, another promise draws a fixed current over the same grounds. ngspice gets the resistances
from this script, not from pinfold: 1/58 ohm mm2/m at 20 degC and 0.393 % a kelvin (IEC 60028),
AWG by ASTM B258, contacts as the design states them.
Run with PINFOLD_PROGRAM set, or: feed_ngspice.py PROGRAM
"""

import json
import math
import os
import re
import shutil
import subprocess
import sys
import tempfile

PROGRAM = sys.argv[1] if len(sys.argv) > 1 else os.environ["PINFOLD_PROGRAM"]
ROW = ["5V", "5V", "5V", "GND", "GND", "GND", "GND", "3V3"]
MEASURED = {1: 0.120, 2: 0.018, 3: 0.035, 4: 0.020, 5: 0.250, 6: 0.045, 7: 0.030, 8: 0.022}
COPPER = (1 + 0.00393 * 40) / 58  # ohm mm2/m at 60 degC
GIVEN, WATTS, AUX_GIVEN, AUX_AMPERES = 5.2, 5.5, 3.3, 0.35
MILLIMETRES, LEAD_MILLIMETRES, GAUGE = 350, 420, 24


def design():
    port = f"{{receptacle: ffc-1.00-bottom, positions: 8, first-contact: left, signals: [{', '.join(ROW)}]}}"
    measured = ", ".join(f"{n}: {ohm * 1000:g} mohm" for n, ohm in MEASURED.items())
    return f"""pinfold: 1
title: a way for another solver
devices:
  shed:
    ports:
      out: {port}
      screws: {{pads: [5V, GND]}}
  gate:
    ports:
      in: {port}
      screws: {{pads: [5V, GND]}}
ribbons:
  strap: {{type: ffc-1.00, conductors: 8, length: {MILLIMETRES} mm, copper: opposite-side}}
joins:
- {{join: shed.out + strap.a, contact-resistance: {{{measured}}}}}
- {{join: strap.b + gate.in, contact-resistance: 40 mohm}}
leads:
  back: {{from: shed.screws.GND, to: gate.screws.GND, gauge: AWG {GAUGE}, length: {LEAD_MILLIMETRES} mm}}
carry:
- {{supply: 5V, from: shed.out, to: gate.in, voltage: {GIVEN} V, least: 4 V, power: {WATTS} W}}
- {{supply: 3V3, from: shed.out, to: gate.in, voltage: {AUX_GIVEN} V, least: 3 V, current: {AUX_AMPERES} A}}
"""


def netlist():
    strip = COPPER * MILLIMETRES / 1000 / (0.70 * 0.05)
    diameter = 0.127 * 92 ** ((36 - GAUGE) / 39)
    lead = COPPER * LEAD_MILLIMETRES / 1000 / (math.pi / 4 * diameter**2)
    lines = ["a way"]
    for n, signal in enumerate(ROW, 1):
        lines += [f"Ra{n} near_{signal} a{n} {MEASURED[n]!r}", f"Rc{n} a{n} b{n} {strip!r}",
                  f"Rb{n} b{n} far_{signal} 0.04"]
    lines += [f"Rlead near_GND far_GND {lead!r}", f"V5 near_5V 0 {GIVEN}",
              f"Vaux near_3V3 0 {AUX_GIVEN}", "Vground near_GND 0 0",
              f"Bload far_5V far_GND I={WATTS}/V(far_5V,far_GND)",
              f"Iaux far_3V3 far_GND {AUX_AMPERES}",
              ".nodeset v(far_5V)=5 v(far_3V3)=3.2",
              ".options reltol=1e-9 vntol=1e-12 abstol=1e-15",
              ".control", "set numdgt=12", "op", "print v(far_5v)-v(far_gnd)",
              "print v(far_3v3)-v(far_gnd)", "print v(far_gnd)"]
    lines += [f"print (v(near_{signal.lower()})-v(a{n}))/{MEASURED[n]!r}"
              for n, signal in enumerate(ROW, 1)]
    return "\n".join(lines + ["quit", ".endc", ".end", ""])


def spice(folder):
    path = os.path.join(folder, "way.cir")
    with open(path, "w", encoding="ascii") as out:
        out.write(netlist())
    said = subprocess.run(["ngspice", "-b", path], capture_output=True, text=True).stdout
    values = [float(v) for v in re.findall(r"^\S.* = (-?\d\.\d+e[+-]\d+)\s*$", said, re.M)]
    assert len(values) == 3 + len(ROW), said
    return values


def near(ours, theirs, what):
    assert abs(ours - theirs) <= 1e-7 * max(1.0, abs(theirs)), f"{what}: {ours!r}, ngspice {theirs!r}"


if not shutil.which("ngspice"):
    print("ngspice is missing")
    sys.exit(77)
with tempfile.TemporaryDirectory() as scratch:
    source = os.path.join(scratch, "design.yaml")
    with open(source, "w", encoding="utf-8") as out:
        out.write(design())
    ran = subprocess.run([PROGRAM, "power", source, "--format", "json"], capture_output=True)
    assert ran.stdout, ran.stderr.decode()
    power = json.loads(ran.stdout)
    arriving, aux, shift, *currents = spice(scratch)
feeds = {feed["supply"]: feed for feed in power["feeds"]}
near(feeds["5V"]["arriving_v"], arriving, "5V arrives")
near(feeds["3V3"]["arriving_v"], aux, "3V3 arrives")
near(feeds["5V"]["drop_back_v"], shift, "the ground shifts")
links = {link["from"]: link for link in power["links"]}
for n, theirs in enumerate(currents, 1):
    link = links[f"shed.out.{n}"]
    near(abs(link["current_a"]), abs(theirs), f"contact {n}")
print(f"ngspice agrees: {arriving:.6f} V, {aux:.6f} V, {shift:.6f} V, {len(currents)} contacts")
