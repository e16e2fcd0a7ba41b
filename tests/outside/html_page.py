"""Opens `pinfold table --format html` in a real browser and in checkers that are not ours.

The page must be well-formed and valid, show every row, print every row whole on A4 and on Letter
with the table's head on every sheet that has rows, and take no more sheets than it should.
Needs chromium, poppler-utils, libxml2-utils and python3-html5lib, else it is skipped; html-validate
(npm) looks at the page too if it is there.
Run with PINFOLD_PROGRAM and PINFOLD_ROOT set, or: html_page.py PROGRAM ROOT
"""

import html.parser
import os
import re
import shutil
import subprocess
import sys
import tempfile

try:
    import html5lib
except ImportError:
    # Debian's package belongs to Debian's Python, which may not be the first one on the path.
    if sys.executable != "/usr/bin/python3" and os.path.exists("/usr/bin/python3"):
        os.execv("/usr/bin/python3", ["/usr/bin/python3", *sys.argv])
    print("skipped: no html5lib here")
    sys.exit(77)

PROGRAM = sys.argv[1] if len(sys.argv) > 1 else os.environ["PINFOLD_PROGRAM"]
ROOT = sys.argv[2] if len(sys.argv) > 2 else os.environ["PINFOLD_ROOT"]
HEAD = ["No.", "Signal", "Mark", "From (end a)", "To (end b)", "Done"]


def run(*command, **options):
    done = subprocess.run(command, capture_output=True, timeout=240, check=False, **options)
    assert done.returncode == 0, f"{command}\n{done.stdout.decode()}{done.stderr.decode()}"
    return done.stdout


def sixty_ways():
    """Three links side by side on one ribbon; names that look like markup in the title."""
    order = "GND D2+ D2- GND D1+ D1- GND D0+ D0- GND CK+ CK- GND SDA SCL 5V HPD CEC UTIL".split()
    wired = [name if name == "GND" else f"p{k}.{name}" for k in (1, 2, 3) for name in order]
    wired = ", ".join(wired + ["GND", "open", "GND"])
    ports = {kind: "".join(f"v{k}: hdmi-a receptacle, " if kind == "device" else
                           f"p{k}: hdmi-a plug, " for k in (1, 2, 3)) for kind in ("device", "board")}
    text = "pinfold: 1\ntitle: 'Kite, <script>alert(1)</script> &amp; co'\ndevices:\n"
    text += "".join(f"  {name}: {{ports: {{{ports['device']}}}}}\n" for name in ("player", "wall"))
    text += "boards:\n"
    for name, side in (("left", "bottom"), ("right", "top")):
        text += (f"  {name}: {{ports: {{{ports['board']} tail: {{receptacle: ffc-0.50-{side}, "
                 f"positions: 60, first-contact: left, wired: [{wired}]}}}}}}\n")
    text += "ribbons:\n  wide: {type: ffc-0.50, conductors: 60, length: 165 mm, copper: same-side}\njoins:\n"
    for k in (1, 2, 3):
        text += f"- player.v{k} + left.p{k}\n- wall.v{k} + right.p{k}\n"
    text += "- left.tail + wide.a\n- wide.b + right.tail\ncarry:\n"
    return text + "".join(f"- {{interface: hdmi, from: player.v{k}, to: wall.v{k}}}\n"
                          for k in (1, 2, 3))


class Page(html.parser.HTMLParser):
    """What a browser made of the page: texts by table row, and counts of elements."""

    def __init__(self, text):
        super().__init__()
        self.rows, self.count, self.text, self.cell = [], {}, "", None
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.count[tag] = self.count.get(tag, 0) + 1
        if tag == "tr":
            self.rows.append([])
        if tag in ("td", "th"):
            self.cell = ""

    def handle_endtag(self, tag):
        if tag in ("td", "th"):
            self.rows[-1].append(self.cell)
            self.cell = None

    def handle_data(self, data):
        self.text += data
        if self.cell is not None:
            self.cell += data


def chromium(folder, *arguments):
    profile = tempfile.mkdtemp(dir=folder)
    return run("chromium", "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run",
               "--disable-background-networking", "--disable-component-update", "--disable-sync",
               "--no-pdf-header-footer", f"--user-data-dir={profile}", *arguments,
               env={**os.environ, "HOME": profile})


def check_markup(path):
    run("xmllint", "--noout", path)
    with open(path, "rb") as file:
        html5lib.HTMLParser(strict=True).parse(file.read())  # throws at the first parse error
    if shutil.which("html-validate"):
        rules = os.path.join(os.path.dirname(path), ".htmlvalidate.json")
        with open(rules, "w", encoding="utf-8") as out:
            # `<br />` is allowed: the page is well-formed XML as well.
            out.write('{"root": true, "extends": ["html-validate:standard", "html-validate:a11y"],'
                      ' "rules": {"void-style": "off"}}')
        run("html-validate", "--config", rules, path)


def check_screen(folder, path, rows):
    page = Page(chromium(folder, "--dump-dom", f"file://{path}").decode())
    assert page.rows[0] == HEAD, page.rows[0]
    assert [row[:5] for row in page.rows[1:]] == rows, "rows differ in the browser"
    assert page.count["input"] == len(rows), page.count
    assert page.count["svg"] == 1 and "script" not in page.count, page.count
    return page


def check_paper(folder, path, paper, rows, sheets):
    with open(path, encoding="utf-8") as file:
        text = file.read().replace("</style>", f"@page {{ size: {paper}; }}</style>")
    sized = path.replace(".html", f"-{paper}.html")
    with open(sized, "w", encoding="utf-8") as out:
        out.write(text)
    pdf = sized.replace(".html", ".pdf")
    chromium(folder, f"--print-to-pdf={pdf}", f"file://{sized}")
    pages = run("pdftotext", "-layout", pdf, "-").decode().split("\f")[:-1]
    assert len(pages) <= sheets, f"{len(pages)} sheets of {paper}, not {sheets}"
    size = run("pdfinfo", pdf).decode()
    assert {"A4": "594.96 x 841.92", "letter": "612 x 792"}[paper] in size, size
    wanted = [re.sub(r"\s+", " ", " ".join(row)).strip() for row in rows]
    seen = []
    for page in pages:
        lines = [re.sub(r"\s+", " ", line).strip() for line in page.splitlines()]
        here = [line for line in lines if line in wanted]
        heads = [line for line in lines if line == " ".join(HEAD)]
        assert len(heads) == (1 if here else 0), f"{len(heads)} heads over {len(here)} rows"
        seen += here
    assert seen == wanted, f"rows on {paper}: {len(seen)} of {len(wanted)}"
    return pages


def rows_of(source, arguments=()):
    """The rows as the CSV of the same design has them."""
    import csv
    import io
    text = run(PROGRAM, "table", source, "--format", "csv", *arguments).decode("utf-8-sig")
    bare = [[cell[1:] if cell.startswith("'") else cell for cell in row]
            for row in csv.reader(io.StringIO(text, newline=""), strict=True)]
    return [row[2:5] + row[6:8] for row in bare if row[0] == "conductor"]


def check(folder, source, name, sheets, texts):
    path = os.path.join(folder, f"{name}.html")
    run(PROGRAM, "table", source, "--format", "html", "-o", path)
    rows = rows_of(source)
    check_markup(path)
    page = check_screen(folder, path, rows)
    for text in texts:
        assert text in page.text, f"{name}: '{text}' is not on the page"
    for paper in ("A4", "letter"):
        pages = check_paper(folder, path, paper, rows, sheets)
        print(f"{name}: {len(rows)} rows on {len(pages)} sheets of {paper}")


METER_HEAD = ["No.", "From", "To", "Expect", "OK", "Measured", "Why"]


def check_meter(folder, source, sheets):
    """The meter sheet shows every reading of its CSV, whole on A4 and on Letter, with a box for each."""
    import csv
    import io
    text = run(PROGRAM, "probe", source, "--format", "csv").decode("utf-8-sig")
    wanted = [row[0] for row in csv.reader(io.StringIO(text, newline=""), strict=True)][1:]
    path = os.path.join(folder, "meter.html")
    run(PROGRAM, "probe", source, "--format", "html", "-o", path)
    check_markup(path)
    page = Page(chromium(folder, "--dump-dom", f"file://{path}").decode())
    assert [row[0] for row in page.rows if row != METER_HEAD] == wanted, "readings differ"
    assert METER_HEAD in page.rows and page.count["input"] == len(wanted), page.count
    assert all(row[5] == "" for row in page.rows if row != METER_HEAD), "a box is not empty"
    for paper in ("A4", "letter"):
        with open(path, encoding="utf-8") as file:
            sized = file.read().replace("</style>", f"@page {{ size: {paper}; }}</style>")
        named = path.replace(".html", f"-{paper}.html")
        with open(named, "w", encoding="utf-8") as out:
            out.write(sized)
        pdf = named.replace(".html", ".pdf")
        chromium(folder, f"--print-to-pdf={pdf}", f"file://{named}")
        pages = run("pdftotext", "-layout", pdf, "-").decode().split("\f")[:-1]
        assert len(pages) <= sheets, f"{len(pages)} sheets of {paper}, not {sheets}"
        seen = re.findall(r"^ *(\d+) +\S+\.\S+ ", "\n".join(pages), re.M)
        assert seen == wanted, f"readings on {paper}: {len(seen)} of {len(wanted)}"
        print(f"meter: {len(wanted)} readings on {len(pages)} sheets of {paper}")


for needed in ("chromium", "pdftotext", "xmllint"):
    if not shutil.which(needed):
        print(f"skipped: no {needed} here")
        sys.exit(77)
with tempfile.TemporaryDirectory() as scratch:
    lid = os.path.join(ROOT, "examples", "lid-link", "design.yaml")
    check(scratch, lid, "lid", 2,
          ["Tide logger, screen in the lid", "bared copper on the same face at both ends",
           "from memory", "Local electrical codes", "copper towards you", "marked edge"])
    wide = os.path.join(scratch, "wide.yaml")
    with open(wide, "w", encoding="utf-8") as out:
        out.write(sixty_ways())
    check(scratch, wide, "wide", 3,
          ["Kite, <script>alert(1)</script> &amp; co", "next listed stock length: 200 mm"])
    check_meter(scratch, lid, 4)
