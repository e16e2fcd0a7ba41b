"""Proves the best order of every example's ribbon again, with solvers that are not ours.

The problem is the one `pinfold order --format json` prints; what its aims mean is written down anew in
shared/order_model.py. As a logic programme (clasp) it is asked for an order that is better in the ranking
than the one pinfold calls best, and must find none; given that best one it must say yes. What it does not
know within LIMIT seconds is said and counted. As a constraint model (MiniZinc with gecode) it is asked the
same of the aims before the first that tells signals apart by name, which gecode can answer. Examples with
the same question are asked once; those that show a mistake ask a good example's. Skipped where a solver is missing. Run with PINFOLD_PROGRAM and
PINFOLD_ROOT set.
"""

import glob
import json
import os
import shutil
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "shared"))
import order_model  # noqa: E402

PROGRAM, ROOT = os.environ["PINFOLD_PROGRAM"], os.environ["PINFOLD_ROOT"]
DECIMALS = {"noise": 1000}
LIMIT = 15
late = []  # what a solver did not know in time


def answers(design):
    """The orders that pinfold prints for an example; none if it has no answer."""
    done = subprocess.run([PROGRAM, "order", design, "--format", "json"], cwd=ROOT, text=True,
                          stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=False)
    if done.returncode > 1 or not done.stdout:
        assert os.path.basename(design) != "design.yaml", f"FAULT: no answer for {design}"
        return []
    return [order for order in json.loads(done.stdout)["orders"] if "problem" in order]


def finds(model, settled, most, order=()):
    """Whether clasp finds an order that keeps `settled` and is at most `most` in the ranking of its aims;
    with `order` only that one. None if it does not know within LIMIT seconds."""
    programme = order_model.answer_set(model, settled, [*most])
    programme += "".join(f":- not on({i},{h},{p}).\n" for p, (i, h) in enumerate(order))
    ground = subprocess.run(["gringo", "-W", "none"], input=programme, text=True, check=True,
                            stdout=subprocess.PIPE).stdout
    bound = ",".join(str(figure) for figure in most.values())
    out = subprocess.run(["clasp", "--configuration=trendy", f"--time-limit={LIMIT}",
                          f"--opt-mode=enum,{bound}", "1"], input=ground, text=True, check=False,
                         stdout=subprocess.PIPE).stdout
    if "UNKNOWN" in out:
        return None
    assert "SATISFIABLE" in out or "OPTIMUM FOUND" in out, out  # else it has not ended by itself
    return "UNSATISFIABLE" not in out


def just_better(figures):
    """The greatest figures that are less in the ranking: one less in the last that is not nothing, and
    anything in those after it; None if all are nothing."""
    last = max((aim for aim in figures if figures[aim]), key=[*figures].index, default=None)
    if last is None:
        return None
    place = [*figures].index(last)
    return {aim: f if k < place else f - 1 if k == place else 10**9
            for k, (aim, f) in enumerate(figures.items())}


def first_and_rest(model, figures):
    """The aims before the first that asks for names, and the others."""
    named = min(model.ranking.index(aim) for aim in order_model.BY_NAME)
    return ({aim: figures[aim] for aim in model.ranking[:named]},
            {aim: figures[aim] for aim in model.ranking[named:]})


def check_figures(mine, printed):
    for aim, figure in printed.items():
        if aim != "mismatch":  # printed as the longer way at 45 degrees, in millimetres
            assert round(figure * DECIMALS.get(aim, 1)) == mine[aim], f"FAULT: {aim}: {figure}, {mine[aim]}"


def prove(order):
    model = order_model.Model(order["problem"])
    mine = model.figures([tuple(laid) for laid in order["best"]])
    assert mine, "FAULT: the best order breaks a rule"
    check_figures(mine, order["bound"])
    drawn = model.figures(order_model.named(order["problem"], order["conductors"]))
    if drawn:  # what a hand has drawn may part a pair
        check_figures(drawn, order["cost"])
    first, rest = first_and_rest(model, mine)
    assert finds(model, first, rest, order["best"]), "FAULT: the model does not know the best order"
    for settled, figures in (({}, first), (first, rest)):
        nothing = {}
        for aim in [*figures]:  # what is nothing cannot be less
            if figures[aim] or figures.keys() == {aim}:
                break
            nothing[aim] = figures[aim]
        left = {aim: figure for aim, figure in figures.items() if aim not in nothing}
        if better := just_better(left):
            found = finds(model, {**settled, **nothing}, better)
            assert not found, f"FAULT: better than {mine}"
            if found is None:
                print(f"    not known in {LIMIT} s: less than {left} with {settled}", flush=True)
                late.append(order["ribbon"])
    print(f"    best: {mine}", flush=True)
    return mine


def prove_nameless(order, mine):
    """No order has less by the aims that do not ask for names and stand before those that do."""
    model = order_model.Model(order["problem"])
    goal, _ = first_and_rest(model, mine)
    if not any(goal.values()):
        return
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "order.mzn")
        with open(path, "w", encoding="utf-8") as file:
            file.write(order_model.minizinc(model, {}, goal))
        out = subprocess.run(["minizinc", "--solver", "gecode", "--time-limit", str(1000 * LIMIT), path],
                             text=True, check=True, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL).stdout
    if "=====UNKNOWN=====" in out:
        print(f"    minizinc does not know in {LIMIT} s", flush=True)
        return
    assert "=====UNSATISFIABLE=====" in out, f"FAULT: better than {goal}:\n{out}"
    print(f"    by minizinc too: {goal}", flush=True)


def nameless(problem):
    """The question as it stands without pads, which only the aims by name ask for."""
    return json.dumps({**problem, "items": [{**item, "pads_um": None} for item in problem["items"]]})


def main():
    if any(not shutil.which(program) for program in ("clasp", "gringo", "minizinc")):
        sys.exit(77)
    known, known_nameless = set(), set()
    for design in sorted(glob.glob("examples/*/*.yaml", root_dir=ROOT)):
        if "mistakes" in design:
            continue
        for order in answers(design):
            question = json.dumps(order["problem"], sort_keys=True)
            if question in known:
                continue
            known.add(question)
            print(f"{design}, {order['ribbon']}", flush=True)
            mine = prove(order)
            if nameless(order["problem"]) not in known_nameless:
                known_nameless.add(nameless(order["problem"]))
                prove_nameless(order, mine)
    print(f"{len(known)} questions, {len(late)} answers late")
    assert len(known) > 3, "FAULT: hardly an example has an order"
    assert len(known) - len(set(late)) > 2, "FAULT: hardly an order is proved again"


main()
