"""Sends a pulse down a ribbon with ngspice and with `pinfold line`, and holds the two together.

A ribbon of our own: two pairs between three grounds, all seven conductors kept, joined only by the
boards through contacts. pinfold solves it over frequency (the Touchstone file is taken back to time
here); ngspice solves it over time, in some segments of six ideal lines, one for each mode, between
controlled sources: the modal decomposition of C. R. Paul, Analysis of Multiconductor Transmission
Lines, chapter 7. Between the segments stands the metal: the whole matrix of the skin's resistance
and reactance, coupled as it is, as ladders of resistors and inductors behind controlled sources.
The matrices per metre are those of `pinfold section` for the same cross-section, written here by
hand. The film has no loss.
Run with PINFOLD_PROGRAM set, or: line_ngspice.py PROGRAM
"""

import cmath
import json
import math
import os
import shutil
import subprocess
import sys
import tempfile

PROGRAM = sys.argv[1] if len(sys.argv) > 1 else os.environ["PINFOLD_PROGRAM"]
ROW = ["GND", "A+", "A-", "GND", "B+", "B-", "GND"]
PITCH, WIDTH, THICKNESS, FILM, ER = 1.0, 0.60, 0.01, 0.06, 3.0  # mm
METRES = 0.150
# Contacts this bad let the ring of the grounds die before the next pulse of the Fourier series.
CONTACT_OHM, CONTACT_HENRY = 10.0, 1.5e-9
PORT_OHM = 50.0
EDGE, PULSE = 0.15e-9, 2.0e-9  # seconds; standard deviation of an edge, the pulse at half its height
SIGNALS = [i for i, name in enumerate(ROW) if name != "GND"]

DESIGN = """pinfold: 1
title: two pairs for another solver
devices:
  mast: {ports: {p: {connector: duo-7 receptacle, receptacle: poor-1.00, first-contact: left}}}
  hull: {ports: {p: {connector: duo-7 receptacle, receptacle: poor-1.00, first-contact: left}}}
ribbons:
  strap: {type: plain-1.00, conductors: 7, length: 150 mm, copper: opposite-side}
joins: [mast.p + strap.a, strap.b + hull.p]
carry: [{interface: duo, from: mast.p, to: hull.p, rate: 2 Gbit/s}]
"""
RIBBON = f"""pinfold-ribbon: 1
name: plain ribbon
source: invented
kind: flat
pitch: {PITCH} mm
conductors: {{least: 4, most: 40}}
width: {WIDTH} mm
thickness: {THICKNESS} mm
film: {{thickness: {FILM} mm, er: {ER}}}
"""
RECEPTACLE = f"""pinfold-receptacle: 1
name: a receptacle with poor contacts
source: invented
takes: flat
pitch: {PITCH} mm
positions: {{least: 4, most: 40}}
rows: 1
side: bottom
contact-resistance: {CONTACT_OHM} ohm
contact-inductance: {CONTACT_HENRY * 1e9} nH
"""
CONNECTOR = """pinfold-connector: 1
name: two pairs
source: invented
interface: duo
takes: ribbon
pitch: 1.0 mm
contacts:
""" + "".join(f"- {{contact: {n}, signal: {s}}}\n" for n, s in enumerate(ROW, 1))
INTERFACE = """pinfold-interface: 1
name: two pairs
source: invented
ends: [source, sink]
signals:
- {signal: GND, role: ground, direction: none}
""" + "".join(f"- {{signal: {s}, role: pair-half, direction: forward}}\n"
              for s in ("A+", "A-", "B+", "B-")) + """pairs:
- {pair: A, plus: A+, minus: A-, kind: data}
- {pair: B, plus: B+, minus: B-, kind: data}
"""


def run(*words):
    ran = subprocess.run([PROGRAM, *words], capture_output=True)
    assert ran.returncode in (0, 1), ran.stderr.decode()
    return ran.stdout.decode()


def write(folder, name, text):
    path = os.path.join(folder, name)
    os.makedirs(os.path.dirname(path), exist_ok=True)
    with open(path, "w", encoding="utf-8") as out:
        out.write(text)
    return path


def section_at(folder, frequency):
    """What `pinfold section` says of the ribbon, all against conductor 1."""
    half, high = WIDTH / 2, THICKNESS / 2
    conductors = "".join(f"- {{name: c{i}, x: {i * PITCH}, y: 0, width: {2 * half}, thickness: {2 * high}}}\n"
                         for i in range(len(ROW)))
    edge, top = (len(ROW) - 1) * PITCH + PITCH, high + FILM
    text = f"""pinfold-section: 1
conductors:
{conductors}dielectrics: [{{x-min: {-PITCH}, x-max: {edge}, y-min: {-top}, y-max: {top}, er: {ER}}}]
ground: [c0]
frequency: {frequency} Hz
"""
    return json.loads(run("section", write(folder, "section.yaml", text), "--format", "json"))


def product(a, b):
    return [[sum(x * y for x, y in zip(row, column)) for column in zip(*b)] for row in a]


def transposed(a):
    return [list(row) for row in zip(*a)]


def cholesky(a):
    n = len(a)
    low = [[0.0] * n for _ in a]
    for i in range(n):
        for j in range(i + 1):
            rest = a[i][j] - sum(low[i][k] * low[j][k] for k in range(j))
            low[i][j] = math.sqrt(rest) if i == j else rest / low[j][j]
    return low


def eigen(a):
    """Values and vectors (columns) of a symmetric matrix by Jacobi's rotations."""
    n = len(a)
    a = [row[:] for row in a]
    vectors = [[float(i == j) for j in range(n)] for i in range(n)]
    for _ in range(60):
        for p in range(n):
            for q in range(p + 1, n):
                if abs(a[p][q]) <= 1e-18 * math.sqrt(abs(a[p][p] * a[q][q])):
                    continue
                angle = 0.5 * math.atan2(2 * a[p][q], a[q][q] - a[p][p])
                c, s = math.cos(angle), math.sin(angle)
                for rows in (a, vectors):
                    for row in rows:
                        row[p], row[q] = c * row[p] - s * row[q], s * row[p] + c * row[q]
                for k in range(n):
                    a[p][k], a[q][k] = c * a[p][k] - s * a[q][k], s * a[p][k] + c * a[q][k]
    return [a[i][i] for i in range(n)], vectors


def upper_solve(upper, b):
    n = len(upper)
    x = [row[:] for row in b]
    for i in reversed(range(n)):
        for j in range(len(b[0])):
            x[i][j] = (b[i][j] - sum(upper[i][k] * x[k][j] for k in range(i + 1, n))) / upper[i][i]
    return x


def lower_solve(low, b):
    turned = upper_solve([row[::-1] for row in low[::-1]], b[::-1])
    return turned[::-1]


def modes(inductance, capacitance):
    """Voltages of the modes (columns), the impedance and the delay of each: C = c0 Q Q', Q' L Q."""
    c0 = 1e-10
    q = cholesky([[x / c0 for x in row] for row in capacitance])
    values, vectors = eigen(product(transposed(q), product(inductance, q)))
    delays = [math.sqrt(value * c0) for value in values]
    return upper_solve(transposed(q), vectors), [d / c0 for d in delays], delays


def metal_modes(folder):
    """Shapes (columns) and times of the metal's modes: its impedance is the sum over them of
    shape shape' sqrt(1 + p time), p the complex frequency: direct current and skin effect."""
    high = 1e9
    direct = section_at(folder, 1)["resistance_ohm_per_m"]
    low = cholesky(direct)
    half = lower_solve(low, section_at(folder, high)["resistance_ohm_per_m"])
    values, vectors = eigen(lower_solve(low, transposed(half)))
    # The real part of sqrt(1 + jx) is r if x = 2 r sqrt(r^2 - 1).
    times = [2 * r * math.sqrt(r * r - 1) / (2 * math.pi * high) for r in values]
    return product(low, vectors), times


# Of sqrt(1 + x), x imaginary: 1 + sum of a x / (1 + b x), each a resistor a / b beside an inductor.
LADDER = [10**(-0.15 - 0.5 * n) for n in range(9)]  # b


def ladder():
    """The a of LADDER that fit best from x = 0.01j to 1000j (8 GHz here), relative, by least squares."""
    rows, wanted = [], []
    for n in range(201):
        x = 1j * 10**(-2 + n / 40)
        root = cmath.sqrt(1 + x)
        cells = [x / (1 + b * x) / root for b in LADDER]
        rows += [[c.real for c in cells], [c.imag for c in cells]]
        wanted += [[(1 - 1 / root).real], [(1 - 1 / root).imag]]
    normal = product(transposed(rows), rows)
    low = cholesky(normal)
    found = upper_solve(transposed(low), lower_solve(low, product(transposed(rows), wanted)))
    a = [row[0] for row in found]
    off = max(abs(complex(sum(r * v for r, v in zip(rows[i], a)) - wanted[i][0],
                          sum(r * v for r, v in zip(rows[i + 1], a)) - wanted[i + 1][0]))
              for i in range(0, len(rows), 2))
    print(f"the ladder is {100 * off:.2f} % off at worst; its least a is {min(a):.2g}")
    assert off < 0.005 and min(a) > 0
    return a


def source(t):
    """A pulse of 1 V centred at 3 ns whose edges are Gauss's integral: above 5 GHz, where the
    Touchstone file ends, it has 2e-5 of what an ideal edge has."""
    spread = math.sqrt(2) * EDGE
    return 0.5 * (math.erf((t - 3e-9 + PULSE / 2) / spread) -
                  math.erf((t - 3e-9 - PULSE / 2) / spread))


SEGMENTS = 4  # with 1, 2, 3 the crosstalk is 6.2, 3.0, 1.1 % apart: lumps of metal reflect


class Net:
    """The ribbon as ngspice sees it, joint by joint; the voltages of a joint stand against its own
    reference, conductor 1 there."""

    def __init__(self, section, metal):
        self.lines = ["two pairs"]
        self.voltages, self.impedances, self.delays = modes(section["inductance_h_per_m"],
                                                            section["capacitance_f_per_m"])
        self.shapes, self.times = metal
        self.cells = ladder()
        self.wires = range(1, len(ROW))
        self.kinds = range(len(self.wires))

    def end(self, end):
        """Contacts, from the joint's wires to the port."""
        for i, name in enumerate(ROW):
            self.lines += [f"L{end}{i} {end}out{i} {end}in{i} {CONTACT_HENRY}",
                           f"R{end}{i} {end}in{i} {end}w{i} {CONTACT_OHM}"]
            if name == "GND":
                self.lines.append(f"Vg{end}{i} {end}out{i} 0 0")

    def metal(self, name, start, to, metres):
        """The metal of a stretch in series with every wire; its ammeters are Vz."""
        for k in self.kinds:
            amps = "+".join(f"({self.shapes[i - 1][k]!r})*I(Vz{name}{i})" for i in self.wires)
            self.lines += [f"Bz{name}m{k} 0 z{name}m{k}c0 I={amps}",
                           f"Rz{name}m{k} z{name}m{k}c0 z{name}m{k}c1 1"]
            for c, (a, b) in enumerate(zip(self.cells, LADDER), 1):
                other = f"z{name}m{k}c{c + 1}" if c < len(LADDER) else "0"
                self.lines += [f"Rz{name}m{k}c{c} z{name}m{k}c{c} {other} {a / b!r}",
                               f"Lz{name}m{k}c{c} z{name}m{k}c{c} {other} {a * self.times[k]!r}"]
        for i in self.wires:
            volts = "+".join(f"({metres * self.shapes[i - 1][k]!r})*V(z{name}m{k}c0)"
                             for k in self.kinds)
            self.lines += [f"Vz{name}{i} {start}{i} z{name}i{i} 0",
                           f"Bz{name}{i} z{name}i{i} {to}{i} V={volts}"]

    def segment(self, name, left, right, left_reference, right_reference, metres):
        """Ideal lines of the modes between the wires `left` and `right`."""
        for joint, wire, reference in (("n", left, left_reference), ("f", right, right_reference)):
            for i in self.wires:
                volts = "+".join(f"({self.voltages[i - 1][k]!r})*V({name}{joint}{k})"
                                 for k in self.kinds)
                self.lines += [f"Vi{name}{joint}{i} {wire}{i} {name}{joint}v{i} 0",
                               f"Bv{name}{joint}{i} {name}{joint}v{i} {reference} V={volts}"]
            for k in self.kinds:
                amps = "+".join(f"({self.voltages[i - 1][k]!r})*I(Vi{name}{joint}{i})"
                                for i in self.wires)
                self.lines.append(f"Bm{name}{joint}{k} 0 {name}{joint}{k} I={amps}")
        for k in self.kinds:
            self.lines.append(f"T{name}{k} {name}n{k} 0 {name}f{k} 0 Z0={self.impedances[k]!r} "
                              f"TD={self.delays[k] * metres!r}")

    def ribbon(self):
        """Half a stretch of metal, a line, metal, a line, ..., half a stretch of metal."""
        part = METRES / SEGMENTS
        for n in range(SEGMENTS + 1):
            first, last = n == 0, n == SEGMENTS
            self.metal(f"j{n}", "aw" if first else f"j{n}l", "bw" if last else f"j{n}r",
                       part / 2 if first or last else part)
        for n in range(SEGMENTS):
            self.segment(f"s{n}", f"j{n}r", f"j{n + 1}l", "aw0" if n == 0 else "0",
                         "bw0" if n == SEGMENTS - 1 else "0", part)

    def ports(self):
        shape = [(n * 0.01e-9, source(n * 0.01e-9)) for n in range(600)]
        points = " ".join(f"{t:.4e} {v:.9e}" for t, v in shape)
        self.lines += [f"Vplus eplus 0 PWL({points})", "Eminus eminus 0 eplus 0 -1"]
        for i in SIGNALS:
            emf = {"A+": "eplus", "A-": "eminus"}.get(ROW[i], "0")
            self.lines += [f"Rp{i} {emf} aout{i} {PORT_OHM}", f"Rq{i} bout{i} 0 {PORT_OHM}"]


def netlist(section, metal, until):
    net = Net(section, metal)
    net.end("a")
    net.end("b")
    net.ribbon()
    net.ports()
    wanted = [f"v({end}out{plus})-v({end}out{plus + 1})" for end in "ab" for plus in (1, 4)]
    return "\n".join(net.lines + [
        ".options reltol=1e-5", f".tran 5p {until!r} 0 5p", ".control", "run",
        "linearize " + " ".join(f"v({e}out{i})" for e in "ab" for i in SIGNALS),
        "set wr_singlescale", "set wr_vecnames", "wrdata waves " + " ".join(wanted), "quit",
        ".endc", ".end", ""])


def spice(folder, text):
    path = write(folder, "line.cir", text)
    said = subprocess.run(["ngspice", "-b", path], capture_output=True, text=True, cwd=folder)
    waves = os.path.join(folder, "waves")
    assert os.path.exists(waves), said.stdout + said.stderr
    with open(waves, encoding="ascii") as rows:
        return [[float(x) for x in row.split()] for row in rows.readlines()[1:]]


def touchstone(path):
    """Frequencies and 8 by 8 matrices of a version 1 file in real and imaginary parts."""
    numbers = []
    with open(path, encoding="ascii") as rows:
        for row in rows:
            if row.startswith("#"):
                words = row.lower().split()
                assert words[1:] == ["hz", "s", "ri", "r", "50"], row
            elif not row.startswith("!"):
                numbers += [float(x) for x in row.split("!")[0].split()]
    size = 1 + 2 * 64
    assert numbers and len(numbers) % size == 0
    points = []
    for at in range(0, len(numbers), size):
        cells = [complex(*numbers[at + 1 + 2 * n:at + 3 + 2 * n]) for n in range(64)]
        points.append((numbers[at], [cells[8 * r:8 * r + 8] for r in range(8)]))
    return points


def differential(s, out, into):
    """Volts between the ports `out` for 1 V between the sources at the ports `into`."""
    (p, n), (q, m) = out, into
    return 0.5 * (s[p][q] - s[p][m] - s[n][q] + s[n][m])


def transform(points, out, into, times):
    step = points[1][0] - points[0][0]
    samples = 2048
    pulse = [source(n / samples / step) for n in range(samples)]
    waves = [0.0] * len(times)
    for k, (frequency, s) in enumerate(points):
        assert abs(frequency - k * step) < 1e-3 * step
        part = sum(v * cmath.exp(-2j * math.pi * k * n / samples) for n, v in enumerate(pulse))
        part *= (1 if k == 0 else 2) / samples * differential(s, out, into)
        for i, t in enumerate(times):
            waves[i] += (part * cmath.exp(2j * math.pi * frequency * t)).real
    return waves


def hold(name, ours, theirs, scale, most):
    off = max(abs(a - b) for a, b in zip(ours, theirs))
    print(f"{name}: peak {max(map(abs, theirs)):.5f} V, furthest apart {off / scale * 100:.2f} % of {scale:.4f} V")
    assert off <= most * scale, name


if not shutil.which("ngspice"):
    print("ngspice is missing")
    sys.exit(77)
with tempfile.TemporaryDirectory() as scratch:
    write(scratch, "pinmaps/ribbons/plain-1.00.yaml", RIBBON)
    write(scratch, "pinmaps/receptacles/poor-1.00.yaml", RECEPTACLE)
    write(scratch, "pinmaps/connectors/duo-7.yaml", CONNECTOR)
    write(scratch, "pinmaps/interfaces/duo.yaml", INTERFACE)
    file = os.path.join(scratch, "line.s8p")
    run("line", write(scratch, "design.yaml", DESIGN), "--touchstone", file)
    points = touchstone(file)
    period = 1 / (points[1][0] - points[0][0])
    rows = spice(scratch, netlist(section_at(scratch, 1), metal_modes(scratch), period))
times = [row[0] for row in rows][::20]
waves = [[row[1 + n] for row in rows][::20] for n in range(4)]
# Ports: A+, A-, B+, B- near, then far. The pulse goes into A; 2 V between its sources.
through = transform(points, (4, 5), (0, 1), times)
near = transform(points, (2, 3), (0, 1), times)
far = transform(points, (6, 7), (0, 1), times)
# The field's error: 0.5 % in one program's matrices, 0.1 % in the other's. Crosstalk is a small
# difference of them: over frequency, with each set of matrices, it is 0.7 % apart.
hold("through", through, waves[2], max(map(abs, waves[2])), 0.003)
hold("near crosstalk", near, waves[1], max(map(abs, waves[1])), 0.01)
hold("far crosstalk", far, waves[3], max(map(abs, waves[3])), 0.01)
