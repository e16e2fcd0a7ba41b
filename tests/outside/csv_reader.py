"""Reads `pinfold table --format csv` with Python's own CSV reader, and with a spreadsheet if there is one.

Names that spreadsheets misread must survive: as bytes for a program that takes off one leading
apostrophe (the rule in lib/exchange/csv.hpp), and as text in a spreadsheet.
Run with PINFOLD_PROGRAM and PINFOLD_ROOT set, or: csv_reader.py PROGRAM ROOT
"""

import csv
import io
import os
import shutil
import subprocess
import sys
import tempfile

PROGRAM = sys.argv[1] if len(sys.argv) > 1 else os.environ["PINFOLD_PROGRAM"]
ROOT = sys.argv[2] if len(sys.argv) > 2 else os.environ["PINFOLD_ROOT"]

# What spreadsheets are known to turn into numbers, dates, truth values and formulas.
NAMES = ["+5V", "-12V", "=1+1", "1-2", "010", "1E3", "1/2", "TRUE", "@x", "MAR1", "5%", "0x1F",
         "+A1", "'quoted", "a,b", 'say "hi"', "D2+", "GND_A", "日本"]


def design():
    wired = "[" + ", ".join("'" + name.replace("'", "''") + "'" for name in NAMES) + "]"
    boards = "".join(
        f"  {board}:\n    ports:\n      pads: {{pads: {wired}}}\n"
        f"      tail: {{receptacle: ffc-0.50-{side}, positions: {len(NAMES)}, "
        f"first-contact: left, wired: {wired}}}\n"
        for board, side in (("left", "bottom"), ("right", "top")))
    return (f"pinfold: 1\ntitle: '=1+1'\nboards:\n{boards}ribbons:\n"
            f"  strap: {{type: ffc-0.50, conductors: {len(NAMES)}, length: 82.5 mm, "
            "copper: same-side}\njoins:\n- left.tail + strap.a\n- strap.b + right.tail\n"
            "leads:\n  loose: {from: left.pads.1, to: right.pads.1, gauge: AWG 24, "
            "colour: '=red', length: 82.5 mm}\n")


def without_apostrophe(cell):
    return cell[1:] if cell.startswith("'") else cell


def rows_of(data):
    text = data.decode("utf-8-sig")
    assert "\n" not in text.replace("\r\n", ""), "a line does not end in CR LF"
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert all(len(row) == len(rows[0]) for row in rows), "lines of different length"
    return [dict(zip(rows[0], row)) for row in rows[1:]]


def check_bytes(path):
    with open(path, "rb") as file:
        rows = rows_of(file.read())
    conductors = [row for row in rows if row["kind"] == "conductor"]
    assert [row["number"] for row in conductors] == [str(n + 1) for n in range(len(NAMES))]
    found = [without_apostrophe(row["signal"]) for row in conductors]
    assert found == NAMES, found
    bare = [row["signal"] for row in conductors if not row["signal"].startswith("'")]
    assert bare == ["a,b", 'say "hi"', "D2+", "GND_A"], bare
    lead = next(row for row in rows if row["kind"] == "lead")
    assert without_apostrophe(lead["length_mm"]) == "82.5", lead
    assert without_apostrophe(lead["colour"]) == "=red", lead
    assert without_apostrophe(rows[0]["text"]) == "=1+1", rows[0]


def check_spreadsheet(folder, path):
    if not shutil.which("ssconvert"):
        print("no spreadsheet here: that half is skipped")
        return
    seen = os.path.join(folder, "seen.csv")
    subprocess.run(["ssconvert", "--export-type=Gnumeric_stf:stf_csv", path, seen], check=True,
                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    with open(seen, encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    found = [row["signal"] for row in rows if row["kind"] == "conductor"]
    assert found == NAMES, found


def check_example(folder):
    path = os.path.join(folder, "lid.csv")
    example = os.path.join(ROOT, "examples", "lid-link", "design.yaml")
    subprocess.run([PROGRAM, "table", example, "--format", "csv", "-o", path], check=True)
    with open(path, "rb") as file:
        data = file.read()
    assert not data.startswith(b"\xef\xbb\xbf"), "a byte order mark before plain ASCII"
    row = [row for row in rows_of(data) if row["kind"] == "conductor"][9]
    wanted = ["10", "'5V", "SUPPLY", "base.tail.10", "lid.tail.11", ""]
    assert [row[k] for k in ("number", "signal", "mark", "from", "to", "done")] == wanted, row


with tempfile.TemporaryDirectory() as scratch:
    source = os.path.join(scratch, "design.yaml")
    with open(source, "w", encoding="utf-8") as out:
        out.write(design())
    table = os.path.join(scratch, "table.csv")
    subprocess.run([PROGRAM, "table", source, "--format", "csv", "-o", table], check=True)
    check_bytes(table)
    check_spreadsheet(scratch, table)
    check_example(scratch)
print("names survive")
