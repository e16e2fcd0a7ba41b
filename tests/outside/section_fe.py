#!/usr/bin/env python3
"""A ribbon section by finite elements (gmsh, getdp), an independent method, against ours.

Three conductors in film between two planes: nothing reaches to the sides, so that cutting the
space there costs nothing. Second-order elements, fine at the corners; they are right to about
0.3 % (their own convergence), so that all entries must agree within 1 % of the diagonal.
`--time` prints seconds of both and their ratio, for ribbons of three and ten conductors.
"""
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import time

PITCH, WIDTH, THICK, FILM, ER = 0.5, 0.30, 0.035, 0.1175, 3.0
LOW, HIGH = -0.2175, 0.5


def section(count):
    rows = [f"- {{name: c{i}, x: {PITCH * i}, y: 0, width: {WIDTH}, thickness: {THICK}}}"
            for i in range(count)]
    return "\n".join(["pinfold-section: 1", "conductors:", *rows, "dielectrics:",
                      f"- {{x-min: {-PITCH}, x-max: {PITCH * count}, y-min: {-FILM}, "
                      f"y-max: {FILM}, er: {ER}}}",
                      f"planes: [{{y: {LOW}}}, {{y: {HIGH}}}]", ""])


def geometry(count, size):
    """Air and film with holes where the conductors are; physical 1 air, 2 film, 3 planes, 10+."""
    lines, number = [], [0]

    def box(x0, y0, x1, y1, fine):
        points = []
        for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1)):
            number[0] += 1
            lines.append(f"Point({number[0]}) = {{{x}, {y}, 0, {fine}}};")
            points.append(number[0])
        edges = []
        for a, b in zip(points, points[1:] + points[:1]):
            number[0] += 1
            lines.append(f"Line({number[0]}) = {{{a}, {b}}};")
            edges.append(number[0])
        number[0] += 1
        lines.append(f"Curve Loop({number[0]}) = {{{', '.join(map(str, edges))}}};")
        return number[0], edges

    outer, outer_edges = box(-3, LOW, PITCH * count + 2.5, HIGH, 20 * size)
    film, _ = box(-PITCH, -FILM, PITCH * count, FILM, 10 * size)
    holes = []
    for i in range(count):
        loop, edges = box(PITCH * i - WIDTH / 2, -THICK / 2, PITCH * i + WIDTH / 2, THICK / 2, size)
        holes.append(loop)
        lines.append(f"Physical Curve({10 + i}) = {{{', '.join(map(str, edges))}}};")
    lines.append(f"Plane Surface(9001) = {{{outer}, {film}}};")
    lines.append(f"Plane Surface(9002) = {{{film}, {', '.join(map(str, holes))}}};")
    lines.append("Physical Surface(1) = {9001};")
    lines.append("Physical Surface(2) = {9002};")
    lines.append(f"Physical Curve(3) = {{{outer_edges[0]}, {outer_edges[2]}}};")
    return "\n".join(lines) + "\n"


def problem(count, driven):
    skins = ", ".join(str(10 + i) for i in range(count))
    volts = "\n".join(f"{{ Region Region[{10 + i}]; Value {1 if i == driven else 0}; }}"
                      for i in range(count))
    return f"""
Group {{ Air = Region[1]; Film = Region[2]; Planes = Region[3]; Metal = Region[{{{skins}}}];
  Vol = Region[{{Air, Film}}]; Whole = Region[{{Air, Film, Planes, Metal}}]; }}
Function {{ eps[Air] = 8.8541878128e-12; eps[Film] = {ER} * 8.8541878128e-12; }}
Constraint {{ {{ Name Zero; Case {{ {{ Region Planes; Value 0; }} }} }}
  {{ Name Volt; Case {{ {volts} }} }} }}
FunctionSpace {{ {{ Name H; Type Form0; BasisFunction {{
    {{ Name sn; NameOfCoef vn; Function BF_Node; Support Vol; Entity NodesOf[Whole, Not Metal]; }}
    {{ Name se; NameOfCoef ve; Function BF_Node_2E; Support Vol; Entity EdgesOf[Whole, Not Metal]; }}
    {{ Name sf; NameOfCoef vf; Function BF_GroupOfNodes; Support Vol;
       Entity GroupsOfNodesOf[Metal]; }} }}
  GlobalQuantity {{ {{ Name V; Type AliasOf; NameOfCoef vf; }}
    {{ Name Q; Type AssociatedWith; NameOfCoef vf; }} }}
  Constraint {{ {{ NameOfCoef vn; EntityType NodesOf; NameOfConstraint Zero; }}
    {{ NameOfCoef ve; EntityType EdgesOf; NameOfConstraint Zero; }}
    {{ NameOfCoef V; EntityType GroupsOfNodesOf; NameOfConstraint Volt; }} }} }} }}
Jacobian {{ {{ Name J; Case {{ {{ Region Whole; Jacobian Vol; }} }} }} }}
Integration {{ {{ Name I; Case {{ {{ Type Gauss; Case {{
  {{ GeoElement Triangle; NumberOfPoints 6; }} {{ GeoElement Line; NumberOfPoints 3; }} }} }} }} }} }}
Formulation {{ {{ Name E; Type FemEquation;
  Quantity {{ {{ Name v; Type Local; NameOfSpace H; }} {{ Name V; Type Global; NameOfSpace H[V]; }}
    {{ Name Q; Type Global; NameOfSpace H[Q]; }} }}
  Equation {{ Galerkin {{ [ eps[] * Dof{{d v}}, {{d v}} ]; In Vol; Jacobian J; Integration I; }}
    GlobalTerm {{ [ -Dof{{Q}}, {{V}} ]; In Metal; }} }} }} }}
Resolution {{ {{ Name R; System {{ {{ Name S; NameOfFormulation E; }} }}
  Operation {{ Generate[S]; Solve[S]; SaveSolution[S]; }} }} }}
PostProcessing {{ {{ Name P; NameOfFormulation E; Quantity {{
  {{ Name Q; Value {{ Term {{ [ {{Q}} ]; In Metal; }} }} }} }} }} }}
PostOperation {{ {{ Name O; NameOfPostProcessing P; Operation {{
  Print[ Q, OnRegion Metal, Format RegionTable, File "charge.txt" ]; }} }} }}
"""


def run(command, folder):
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"{command[0]} failed:\n{done.stdout[-2000:]}{done.stderr[-2000:]}")


def finite_elements(count, size, folder):
    """The capacitance matrix, its number of nodes, and the seconds it took."""
    start = time.perf_counter()
    (folder / "s.geo").write_text(geometry(count, size))
    run(["gmsh", "-2", "-order", "1", "-format", "msh2", "s.geo"], folder)
    matrix = []
    for driven in range(count):
        (folder / "s.pro").write_text(problem(count, driven))
        run(["getdp", "s.pro", "-solve", "R", "-pos", "O", "-v", "2"], folder)
        words = [line.split() for line in (folder / "charge.txt").read_text().splitlines()]
        found = {int(w[0]): float(w[-1]) for w in words if len(w) == 2}
        matrix.append([found[10 + i] for i in range(count)])
    nodes = int((folder / "s.msh").read_text().split("$Nodes\n")[1].split("\n")[0])
    return matrix, nodes, time.perf_counter() - start


def ours(count, folder):
    path = folder / "section.yaml"
    path.write_text(section(count))
    start = time.perf_counter()
    out = subprocess.run([os.environ["PINFOLD_PROGRAM"], "section", str(path), "--format", "json"],
                         check=True, capture_output=True, text=True).stdout
    return json.loads(out)["capacitance_f_per_m"], time.perf_counter() - start


def worst(one, other):
    n = range(len(other))
    return max(abs(one[i][j] - other[i][j]) / (other[i][i] * other[j][j]) ** 0.5
               for i in n for j in n)


def main():
    if not shutil.which("gmsh") or not shutil.which("getdp"):
        print("gmsh or getdp is missing")
        sys.exit(77)
    timed = "--time" in sys.argv
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        for count, size in ((3, 0.01), (3, 0.004), (10, 0.01)) if timed else ((3, 0.006),):
            mine, seconds = ours(count, folder)
            matrix, nodes, taken = finite_elements(count, size, folder)
            error = worst(matrix, mine)
            print(f"{count} conductors, finite elements: {nodes} nodes, {taken:.2f} s, differ by "
                  f"{100 * error:.2f} %; pinfold, a cold process: {seconds:.4f} s, "
                  f"ratio {taken / seconds:.0f}")
    if error > 0.01:
        sys.exit(f"they differ too much:\n{matrix}\n{mine}")


main()
