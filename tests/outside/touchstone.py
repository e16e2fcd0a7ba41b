"""Reads `pinfold line --touchstone` with a reader of its own, and works the table's figures out again.

The reader is written from the Touchstone file format specification, version 1.1: option line, `!`
comments, columns for one and two ports, rows of at most four pairs for more. Held against the file:
reciprocity (S equals its transpose), passivity (1 - S*S has a Cholesky factor), and from single-ended
to differential (Bockelman and Eisenstadt 1995, from memory) the loss and the crosstalk that the same
run tells as JSON.
Run with PINFOLD_PROGRAM and PINFOLD_ROOT set, or: touchstone.py PROGRAM ROOT
"""

import cmath
import json
import math
import os
import re
import subprocess
import sys
import tempfile

PROGRAM = sys.argv[1] if len(sys.argv) > 1 else os.environ["PINFOLD_PROGRAM"]
ROOT = sys.argv[2] if len(sys.argv) > 2 else os.environ["PINFOLD_ROOT"]
DESIGNS = ["examples/strap-orders/inside.yaml", "examples/strap-orders/between.yaml"]
HERTZ = {"HZ": 1.0, "KHZ": 1e3, "MHZ": 1e6, "GHZ": 1e9}


def number_of(pair, form):
    one, other = pair
    if form == "RI":
        return complex(one, other)
    size = 10.0 ** (one / 20.0) if form == "DB" else one
    return cmath.rect(size, math.radians(other))


def read(path):
    """Port names by number, the reference, and (hertz, matrix) for each point."""
    ports = int(re.search(r"\.s(\d+)p$", path).group(1))
    names, option, numbers = {}, None, []
    for line in open(path, encoding="ascii"):
        text, _, comment = line.partition("!")
        named = re.match(r"\s*Port (\d+): (.*)", comment)
        if named:
            names[int(named.group(1))] = named.group(2).strip()
        if text.strip().startswith("#"):
            option = option or text.strip()[1:].upper().split()
        else:
            numbers += [float(word) for word in text.split()]
            assert len(text.split()) <= 9, "more than four pairs and a frequency in a line"
    words = option or []
    unit = next((word for word in words if word in HERTZ), "GHZ")
    form = next((word for word in words if word in ("RI", "MA", "DB")), "MA")
    kind = next((word for word in words if word in "SYZHG"), "S")
    reference = float(words[words.index("R") + 1]) if "R" in words else 50.0
    assert kind == "S"
    size = 1 + 2 * ports * ports
    assert numbers and len(numbers) % size == 0, "the numbers do not fill the points"
    points = []
    for at in range(0, len(numbers), size):
        values = [number_of(numbers[i:i + 2], form) for i in range(at + 1, at + size, 2)]
        rows = [values[r * ports:(r + 1) * ports] for r in range(ports)]
        if ports == 2:
            rows = [list(column) for column in zip(*rows)]
        points.append((numbers[at] * HERTZ[unit], rows))
    assert all(a[0] < b[0] for a, b in zip(points, points[1:])), "frequencies must rise"
    return names, reference, points


def require_reciprocal(matrix):
    worst = max(abs(matrix[i][k] - matrix[k][i]) for i in range(len(matrix)) for k in range(i))
    assert worst < 1e-8, f"not reciprocal: {worst}"


def require_passive(matrix):
    """Cholesky of 1 - S*S, a hair added for the ten digits of the file."""
    size = len(matrix)
    rest = [[(1.0 + 1e-8 if i == k else 0.0) -
             sum(matrix[p][i].conjugate() * matrix[p][k] for p in range(size))
             for k in range(size)] for i in range(size)]
    for k in range(size):
        pivot = rest[k][k].real
        assert pivot > 0.0, f"makes power: {pivot}"
        for i in range(k + 1, size):
            share = rest[i][k] / pivot
            for j in range(k + 1, size):
                rest[i][j] -= share * rest[k][j]


def differential(matrix, to, source):
    """From the pair at ports source, source + 1 to the pair at ports to, to + 1, from 0."""
    return 0.5 * (matrix[to][source] - matrix[to][source + 1] -
                  matrix[to + 1][source] + matrix[to + 1][source + 1])


def decibels(amplitude):
    return 20.0 * math.log10(abs(amplitude))


def check(design):
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "line.s16p")
        told = subprocess.run([PROGRAM, "line", os.path.join(ROOT, design), "--format", "json",
                               "--touchstone", path], capture_output=True, text=True)
        assert told.returncode in (0, 1), told.stderr  # 1: an eye is closed, which is no matter here
        names, reference, points = read(path)
    line = json.loads(told.stdout)["lines"][0]
    assert reference == 50.0 and sorted(names) == list(range(1, 17)), names
    for _, matrix in points:
        require_reciprocal(matrix)
        require_passive(matrix)
    rate = 1e9 * line["rate_gbit_per_s"]
    at_nyquist = next(matrix for hertz, matrix in points if abs(hertz - 0.5 * rate) < 1.0)
    in_band = [matrix for hertz, matrix in points if 0.0 < hertz <= 0.75 * rate]
    for p, pair in enumerate(line["pairs"]):
        assert names[2 * p + 1].startswith(pair["pair"] + "+"), names
        assert names[2 * p + 9].startswith(pair["pair"] + "+"), names
        loss = -decibels(differential(at_nyquist, 8 + 2 * p, 2 * p))
        assert abs(loss - pair["loss_at_nyquist_db"]) < 1e-4, (pair["pair"], loss)
        loudest = max(abs(differential(matrix, 8 + 2 * p, 2 * other))
                      for matrix in in_band for other in range(4) if other != p)
        assert abs(decibels(loudest) - pair["crosstalk_db"]) < 1e-4, (pair["pair"], loudest)


for name in DESIGNS:
    check(name)
