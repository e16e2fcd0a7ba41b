"""Gives each problem of bench_order to general solvers, in the same ranking of aims, and compares.

    order_solvers.py bench_order [SECONDS]

Solvers from Debian: cbc and glpsol (linear programmes, one aim after the other, each held at its optimum
for the next), minizinc with gecode (the same by constraints), gringo and clasp (levels of one logic
programme); one that is missing is left out. SECONDS of processor time for each solver and problem, 5
unless given. An optimum that differs from ours is an error. Times are processor times.
"""

import json
import os
import re
import resource
import shutil
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(os.path.dirname(__file__), "..", "outside", "shared"))
import order_model as om  # noqa: E402


class OutOfTime(Exception):
    pass


def run(command, limit, **more):
    """What the program prints, and the processor seconds it took; stopped at `limit` of them."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    cap = int(limit) + 2  # the kernel and we need not count the same moment
    done = subprocess.run(command, text=True, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, **more,
                          preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (cap, cap)))
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    took = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    if took >= limit:
        raise OutOfTime(took)
    return done.stdout, took


def clear(path):
    """An answer to the aim before must not be taken for one to this."""
    if os.path.exists(path):
        os.remove(path)


def first_line(path, begin):
    """The first line of a solver's answer that begins so; empty if it was stopped before it wrote one."""
    if not os.path.exists(path):
        return ""
    with open(path, encoding="utf-8") as file:
        return next((line for line in file if line.startswith(begin)), "")


def cbc(path, limit):
    clear(path + ".sol")
    _, took = run(["cbc", path, "seconds", str(int(limit) + 1), "solve", "solution", path + ".sol"], limit)
    head = first_line(path + ".sol", "Optimal")
    if not head:
        raise OutOfTime(took)
    return round(float(head.split()[-1])), took


def glpsol(path, limit):
    clear(path + ".sol")
    _, took = run(["glpsol", "--lp", path, "--write", path + ".sol"], limit)
    status = first_line(path + ".sol", "s mip").split()
    if not status or status[4] != "o":
        raise OutOfTime(took)
    return round(float(status[5])), took


def by_linear(solve):
    def least(model, folder, aim, settled, limit):
        path = os.path.join(folder, "order.lp")
        linear = om.Linear(model)
        with open(path, "w", encoding="utf-8") as file:
            file.write(linear.text(aim, settled))
        figure, took = solve(path, limit)
        return figure + linear.constant[aim], took
    return least


def gecode(model, folder, aim, settled, limit):
    path = os.path.join(folder, "order.mzn")
    with open(path, "w", encoding="utf-8") as file:
        file.write(om.minizinc(model, settled, aim))
    out, took = run(["minizinc", "--solver", "gecode", path], limit)
    if "==========" not in out:
        raise OutOfTime(took)
    return int(re.findall(rf"^{aim}=(\d+)$", out, re.M)[-1]), took


def aim_by_aim(least):
    def solve(model, folder, limit):
        settled, spent = {}, 0.0
        for aim in model.ranking:
            try:
                settled[aim], took = least(model, folder, aim, dict(settled), limit - spent)
                spent += took
            except OutOfTime as late:
                return settled, spent + late.args[0], aim
        return settled, spent, None
    return solve


def clasp(model, folder, limit):
    path = os.path.join(folder, "order.asp")
    with open(path, "w", encoding="utf-8") as file:
        file.write(om.answer_set(model, {}, model.ranking))
    try:
        ground, took = run(["gringo", path], limit)
        out, more = run(["clasp", "--quiet=1", "--configuration=trendy"], limit - took, input=ground)
    except OutOfTime as late:
        return {}, late.args[0], "all at once"
    if "OPTIMUM FOUND" not in out:
        return {}, took + more, "all at once"
    figures = [int(f) for f in re.findall(r"^Optimization *: (.*)$", out, re.M)[-1].split()]
    return dict(zip(model.ranking, figures)), took + more, None


SOLVERS = {"clasp": ("clasp", clasp), "gecode": ("minizinc", aim_by_aim(gecode)),
           "CBC": ("cbc", aim_by_aim(by_linear(cbc))), "GLPK": ("glpsol", aim_by_aim(by_linear(glpsol)))}


def compare(problem, limit, solvers):
    answer = problem["answer"]
    model = om.Model(answer["problem"])
    ours = dict(zip(om.AIMS, answer["cost"]))
    if model.figures([tuple(l) for l in answer["best"]]) != ours:
        sys.exit(f"{problem['name']}: our order does not have the figures it is said to have")
    cells = []
    with tempfile.TemporaryDirectory() as folder:
        for name in solvers:
            settled, took, stuck = SOLVERS[name][1](model, folder, limit)
            if answer["proved"] and any(settled[aim] != ours[aim] for aim in settled):
                sys.exit(f"{problem['name']}: {name} finds {settled}, we {ours}")
            times = f"{took / problem['seconds']:.0f} times"
            cells.append(f"{took:.2f} s, {times}" if stuck is None else
                         f"not in {took:.0f} s ({stuck}), over {times}")
    proof = "proved" if answer["proved"] else f"NOT proved, bound {answer['bound']} of {answer['cost']}"
    print(f"{problem['name']:<26} {1e3 * problem['seconds']:>9.2f} ms {proof}", flush=True)
    for name, cell in zip(solvers, cells):
        print(f"    {name:<8} {cell}", flush=True)


def main():
    limit = float(sys.argv[2]) if len(sys.argv) > 2 else 5.0
    solvers = [name for name, (program, _) in SOLVERS.items() if shutil.which(program)]
    with subprocess.Popen([sys.argv[1]], text=True, stdout=subprocess.PIPE) as bench:
        for line in bench.stdout:
            compare(json.loads(line), limit, solvers)


if __name__ == "__main__":
    main()
