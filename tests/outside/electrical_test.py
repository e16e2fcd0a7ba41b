"""Reads `pinfold netlist --format ipc-d-356a` by the columns of IPC-D-356A alone, and holds its nets
against those of the XML netlist of the same board, read by Python's own parser.

Run with PINFOLD_PROGRAM and PINFOLD_ROOT set.
"""

import os
import subprocess
import xml.etree.ElementTree as ET

PROGRAM, ROOT = os.environ["PINFOLD_PROGRAM"], os.environ["PINFOLD_ROOT"]
DESIGN, BOARD = os.path.join(ROOT, "examples/mast-camera/design.yaml"), "adapter"


def netlist(kind):
    return subprocess.run([PROGRAM, "netlist", DESIGN, "--board", BOARD, "--format", kind],
                          check=True, stdout=subprocess.PIPE, stderr=subprocess.PIPE).stdout


def field(line, first, last):
    """Columns first to last, counted from 1."""
    return line[first - 1:last]


def pads_by_column(text):
    lines = text.decode("ascii").splitlines()
    assert lines[0].startswith("P  JOB") and lines[-1] == "999"
    assert all(len(line) <= 80 for line in lines)
    assert "P  UNITS CUST 1" in lines and "P  VER   IPC-D-356A" in lines
    nets, alone, places = {}, set(), {}
    for line in lines:
        if line[0] in "PC" or line == "999":
            continue
        assert field(line, 1, 3) in ("317", "327"), line
        assert field(line, 18, 20) == "   " and field(line, 27, 27) == "-", line
        assert field(line, 39, 41) in ("A00", "A01", "A02"), line
        assert field(line, 42, 42) == "X" and field(line, 50, 50) == "Y", line
        assert field(line, 68, 68) == "R" and 0 <= int(field(line, 69, 71)) < 360, line
        pad = (field(line, 21, 26).strip(), field(line, 28, 31).strip())
        places[pad] = (int(field(line, 43, 49)), int(field(line, 51, 57)))
        net = field(line, 4, 17).strip()
        assert net and " " not in net, line
        if net == "N/C":
            alone.add(frozenset([pad]))
        else:
            nets.setdefault(net, set()).add(pad)
    return {frozenset(pads) for pads in nets.values()} | alone, places


def pads_by_xml(text):
    return {frozenset((node.get("ref"), node.get("pin")) for node in net.iter("node"))
            for net in ET.fromstring(text).iter("net")}



nets, places = pads_by_column(netlist("ipc-d-356a"))
assert nets == pads_by_xml(netlist("kicad-xml")), "the nets differ"
for reference, step in (("J1", 1000), ("J2", 500)):
    row = sorted((int(pin), x) for (ref, pin), (x, _) in places.items() if ref == reference)
    steps = {abs(b[1] - a[1]) for a, b in zip(row, row[1:]) if b[0] == a[0] + 1}
    assert steps == {step}, (reference, steps)
print(f"{len(places)} pads in {len(nets)} nets, by column as by XML")
