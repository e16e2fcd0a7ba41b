"""Puts hostile names into netlists, board files and readings, and reads every format that comes out
with parsers that are not ours: json, xml.etree, csv, html.parser, PyYAML, and the 80 columns of
IPC-D-356A; xmllint reads drawings where it stands. No format may break, and no control or turning character may reach the terminal.

Run with PINFOLD_PROGRAM and PINFOLD_ROOT set.
"""

import csv
import html.parser
import io
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET

try:
    import yaml
except ImportError:
    sys.exit(77)

PROGRAM, ROOT = os.environ["PINFOLD_PROGRAM"], os.environ["PINFOLD_ROOT"]
DESIGN = os.path.join(ROOT, "examples/lid-link/design.yaml")

# What a name may hold and be read all the same.
NAMES = ['" \\ \' ` $(reboot) ; rm -rf %s%n {0} {}', "<script>alert(1)</script> ]]> &amp;", "=1+1", "+5V",
         "-12V", "@SUM(A1)", "a,b;c | a | [a](b)", "#x", "- a: b", "~", "\u202Egnp.exe \u2066x\u200F\u2028",
         "\uFEFF\u65E5\u672C \U0001F600", "x" * 3000, "a\tb"]
# What no file may hold: refused, with a place.
BROKEN = [b"\x1b[31m", b"\x00", b"\x07", b"\x7f", b"\xc2\x9b", b"\xff\xfe", b"\xc0\xaf", b"\xed\xa0\x80"]

# C0 but the line end, delete, C1; and what turns the direction of writing (UAX #9).
UNSEEN = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f]")
TURNING = re.compile("[\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]")


def run(*arguments, codes=(0, 1)):
    done = subprocess.run([PROGRAM, *arguments], stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                          env={**os.environ, "NO_COLOR": "1"}, timeout=120)
    assert done.returncode in codes, (arguments, done.returncode, done.stderr[-2000:])
    said = done.stderr.decode("utf-8")
    assert not UNSEEN.search(said) and not TURNING.search(said), (arguments, said)
    return done.stdout.decode("utf-8")


def quoted(text):
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def drawn(name):
    """A netlist of the base adapter by the documented grammar, `name` wherever it takes a text."""
    text = open(os.path.join(ROOT, "examples/lid-link/base.net"), encoding="utf-8").read()
    text = text.replace('"/D2+"', quoted("/" + name)).replace('"HDMI plug"', quoted(name))
    text = text.replace('(ref "J1") (pin "19")', f'(ref "J1") (pin {quoted(name)})')
    return text.replace('(comp\n\t\t\t(ref "J2")',
                        f'(comp (ref {quoted("X" + name)}) (value "x"))\n(comp\n\t\t\t(ref "J2")')


class Page(html.parser.HTMLParser):
    """Counts what a page could do."""

    def __init__(self):
        super().__init__()
        self.scripts = 0
        self.text = ""

    def handle_starttag(self, tag, attrs):
        self.scripts += tag == "script" or any(key.startswith("on") for key, _ in attrs)

    def handle_data(self, data):
        self.text += data


def for_people(page):
    """A page for the terminal, the browser or paper: nothing unseen, nothing that turns."""
    assert not UNSEEN.search(page), repr(UNSEEN.search(page))
    found = TURNING.search(page)
    assert not found, page[max(0, found.start() - 80):found.end() + 80]
    return page


def compare(path, name):
    report = run("compare", DESIGN, path, "--board", "base")
    for_people(report)
    document = json.loads(run("compare", DESIGN, path, "--board", "base", "--format", "json"))
    assert document["schema"] == "pinfold-compare/1" and document["same"] is False
    assert "pad-extra" in {finding["rule"] for finding in document["findings"]}, document
    sarif = json.loads(run("compare", DESIGN, path, "--board", "base", "--format", "sarif"))
    assert sarif["version"] == "2.1.0"


def adopt(path, name):
    board = run("adopt", path, "--connector", "J1=hdmi-a", "--connector", "J2=ffc-0.50-bottom")
    assert not UNSEEN.search(board) and not TURNING.search(board), name
    content = yaml.safe_load(board)
    assert set(content) <= {"pinfold-board", "title", "ports", "ground", "nets"}, content
    assert len(content["ports"]) == 2


def board_of(name):
    """A ribbon and leads between two boards, `name` wherever a file takes a text, and a place for pads."""
    text, other = json.dumps(name), json.dumps("+" + name)
    wired = f"[{text}, GND, {other}, 5V]"
    tail = ("{receptacle: ffc-1.00-bottom, positions: 4, first-contact: left, reference: J1, "
            f"part: {text}, footprint: {text}, wired: {wired}, "
            "placing: {x: 10 mm, y: 4 mm, angle: 0, side: top}}")
    pads = (f"{{pads: {wired}, reference: J2, part: {text}, "
            "placing: {x: 10 mm, y: 24 mm, angle: 0, side: top, pitch: 2.54 mm}}")
    leads = "".join(f"  l{end}{i}: {{from: {start}.{i}, to: {stop}.{i}, gauge: AWG 28, colour: {text}, length: 50 mm}}\n"
                    for end, start, stop in (("a", "one.out", "relay.out"), ("b", "far.out", "two.in"))
                    for i in (1, 2, 3, 4))
    return ("pinfold: 1\ntitle: " + text + "\ndevices:\n"
            f"  one: {{ports: {{out: {{pads: {wired}}}}}}}\n  two: {{ports: {{in: {{pads: {wired}}}}}}}\n"
            "boards:\n" +
            "".join(f"  {board}:\n    title: {text}\n    ports:\n      tail: {tail}\n      out: {pads}\n"
                    for board in ("relay", "far")) +
            "ribbons:\n  strap: {type: ffc-1.00, conductors: 4, length: 60 mm, copper: opposite-side, "
            "lay: [straight], faces: {a: up, b: down}}\n"
            "leads:\n" + leads +
            "joins: [relay.tail + strap.a, strap.b + far.tail]\n"
            "carry: [{supply: 5V, from: one.out, to: two.in, voltage: 5 V, least: 4 V, current: 0.1 A}]\n"
            f"accept:\n- {{rule: mirror-hazard, where: strap, why: {text}}}\n")


def written(path, name):
    """Everything that is written of a board with such names; False where the reader refuses them."""
    refused = subprocess.run([PROGRAM, "netlist", path, "--board", "relay"], stdout=subprocess.PIPE,
                             stderr=subprocess.PIPE)
    if refused.returncode == 2:
        assert refused.stderr.startswith(os.fsencode(path)), refused.stderr
        return False
    ET.fromstring(run("netlist", path, "--board", "relay", "--format", "kicad-xml"))
    records = run("netlist", path, "--board", "relay", "--format", "ipc-d-356a", codes=(0, 2))
    assert records.isascii() and all(len(line) <= 80 for line in records.splitlines()), records
    for_people(run("probe", path))
    rows = list(csv.reader(io.StringIO(run("probe", path, "--format", "csv")), strict=True))
    assert len({len(row) for row in rows}) == 1, rows
    assert not any(cell[:1] in "=@\t" for row in rows for cell in row if cell), rows
    page = Page()
    page.feed(for_people(run("probe", path, "--format", "html")))
    page.feed(for_people(run("table", path, "--format", "html")))
    assert page.scripts == 0, name
    for command in ("check", "table", "power", "line", "order"):
        for_people(run(command, path))
    for_people(run("table", path, "--format", "markdown"))
    for command in ("check", "power", "line", "order"):
        json.loads(run(command, path, "--format", "json"))
    draw(path, name)
    return True


SHAPES = {"svg", "title", "desc", "g", "rect", "path", "circle", "text"}
STYLE = "@media screen { svg:root { width: 100%; height: 100vh; } }"  # whatever the names are


def draw(path, name):
    """The drawing of a board between a ribbon's row and pads, its text and its JSON."""
    for_people(run("draw", path, "--board", "relay"))
    document = json.loads(run("draw", path, "--board", "relay", "--format", "json"))
    assert document["schema"] == "pinfold-draw/1", name
    drawing = for_people(run("draw", path, "--board", "relay", "--format", "svg"))
    for node in ET.fromstring(drawing).iter():
        tag = node.tag.removeprefix("{http://www.w3.org/2000/svg}")
        assert tag in SHAPES or (tag == "style" and node.text == STYLE), (tag, node.text, name)
        assert not any(key.startswith("on") or "href" in key for key in node.attrib), (node.attrib, name)
    page = Page()  # as where somebody puts it into a page
    page.feed(drawing)
    assert page.scripts == 0, name
    if shutil.which("xmllint"):
        subprocess.run(["xmllint", "--noout", "--nonet", "-"], input=drawing.encode(), check=True)


def diagnose(folder, path, name):
    readings = os.path.join(folder, "readings.csv")
    with open(readings, "w", encoding="utf-8", newline="") as out:
        csv.writer(out).writerows([["from", "to", "reading"], ["one.out.1", "two.in.1", "open"],
                                   ["one.out.1", "one.out.2", "closed"]])
    for_people(run("diagnose", path, readings))
    document = json.loads(run("diagnose", path, readings, "--format", "json"))
    assert document["schema"] == "pinfold-diagnose/1", name


with tempfile.TemporaryDirectory() as folder:
    count = taken = 0
    for name in NAMES:
        netlist, design = os.path.join(folder, "drawn.net"), os.path.join(folder, "design.yaml")
        with open(netlist, "w", encoding="utf-8") as out:
            out.write(drawn(name))
        compare(netlist, name)
        adopt(netlist, name)
        with open(design, "w", encoding="utf-8") as out:
            out.write(board_of(name))
        if written(design, name):
            taken += 1
            diagnose(folder, design, name)
        count += 1
    for bad in BROKEN:
        path = os.path.join(folder, "broken.net")
        with open(path, "wb") as out:
            out.write(drawn("NAME").encode().replace(b"NAME", bad))
        run("compare", DESIGN, path, "--board", "base", codes=(2,))
        run("adopt", path, "--connector", "J1=hdmi-a", codes=(2,))
    assert taken >= 8, taken
    print(f"{count} hostile names through compare and adopt, {taken} of them through every "
          f"command on a design; {len(BROKEN)} broken ones refused")
