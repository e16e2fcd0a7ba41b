"""Proves the best order of every example's ribbon again, with solvers that are not ours.

The problem is the one `pinfold order --format json` prints; what its aims mean is written down anew in
shared/order_model.py. Given the best order, clasp must say yes to it as a logic programme. Aim by aim, those
before it held, it is asked for less and must find none. Before the first aim that tells signals apart by
name it lists every row of kinds that is as good, and among the orders of these rows it must find none that
is better by the rest. What it does not know within LIMIT seconds is said and counted. MiniZinc with gecode
is asked the same of the aims without names. Examples with the same question are asked once; those that show
a mistake ask a good example's. Skipped where a solver is missing. Run with PINFOLD_PROGRAM and PINFOLD_ROOT
set.
"""

import glob
import json
import os
import re
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
BRIEF = 4  # for minizinc, which knows at once or not for minutes
MANY = 2000  # rows to go through one by one
late = []  # what a solver did not know in time


def answers(design):
    """The orders that pinfold prints for an example; none if it has no answer."""
    done = subprocess.run([PROGRAM, "order", design, "--format", "json"], cwd=ROOT, text=True,
                          stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=False)
    if done.returncode > 1 or not done.stdout:
        assert os.path.basename(design) != "design.yaml", f"FAULT: no answer for {design}"
        return []
    return [order for order in json.loads(done.stdout)["orders"] if "problem" in order]


def clasp(programme, *options):
    ground = subprocess.run(["gringo", "-W", "none"], input=programme, text=True, check=True,
                            stdout=subprocess.PIPE).stdout
    return subprocess.run(["clasp", "--configuration=trendy", f"--time-limit={LIMIT}", *options], input=ground,
                          text=True, check=False, stdout=subprocess.PIPE, stderr=subprocess.STDOUT).stdout


def has_model(out):
    """Whether clasp found one; None if it does not know."""
    if "UNKNOWN" in out:
        return None
    assert "SATISFIABLE" in out or "OPTIMUM FOUND" in out, out  # else it has not ended by itself
    return "UNSATISFIABLE" not in out


def finds(model, settled, most, order=()):
    """Whether clasp finds an order that keeps `settled` and is at most `most` in the ranking of its aims;
    with `order` only that one. None if it does not know within LIMIT seconds."""
    programme = order_model.answer_set(model, settled, [*most])
    programme += "".join(f":- not on({i},{h},{p}).\n" for p, (i, h) in enumerate(order))
    return has_model(clasp(programme, "--opt-mode=enum," + ",".join(str(f) for f in most.values()), "1"))


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


def proves_first(model, first):
    """Whether it is known that no order has less by any of the aims, each with those before it held."""
    settled = {}
    for aim, figure in first.items():
        if figure:
            found = finds(model, settled, {aim: figure - 1})
            assert not found, f"FAULT: {aim} less than {first}"
            if found is None:
                say_late(f"{aim} less than {figure} with {settled}")
                return False
        settled[aim] = figure
    return True


def say_late(what):
    print(f"    not known in {LIMIT} s: {what}", flush=True)


def rows_of(model, first):
    """Every way to lay kinds of items that has `first`: where items begin, and which others they are like.
    None if that is not known within LIMIT seconds, or if they are more than MANY."""
    like = {i: group[0] for group in order_model.alike(model)[0] for i in group}
    *before, last = first
    programme = order_model.answer_set(model, {aim: first[aim] for aim in before}, [last])
    out = clasp(programme, f"--opt-mode=enum,{first[last]}", str(MANY + 1))
    models = [line for line in out.splitlines() if line.startswith("x(")]
    assert models, "FAULT: the model does not know the best order"
    if "INTERRUPTED" in out or len(models) > MANY:
        return None
    rows = set()
    for line in models:
        begins = (map(int, x.split(",")) for x in re.findall(r"x\(([\d,]+)\)", line))
        rows.add(frozenset((p, like.get(i, i)) for i, _, p in begins))
    return rows


def proves_rest(model, first, rest):
    """Whether it is known that no order that has `first` is better by the rest of the aims. The orders that
    have it are gone through row by row, so that what has been settled need not be found again."""
    better = just_better(rest)
    if not better:
        return True
    rows = rows_of(model, first)
    if rows is None:
        say_late(f"all orders with {first}")
        return False
    like = {i: group[0] for group in order_model.alike(model)[0] for i in group}
    programme = order_model.answer_set(model, {}, [*better])
    programme += "".join(f"like({i},{like.get(i, i)}).\n" for i in range(len(model.items)))
    programme += f"1 {{ row(0..{len(rows) - 1}) }} 1.\n"
    programme += ":- row(R), x(I,_,P), like(I,L), not begins(R,P,L).\n"
    programme += "".join(f"begins({r},{p},{i}).\n" for r, row in enumerate(rows) for p, i in row)
    found = has_model(clasp(programme, "--opt-mode=enum," + ",".join(map(str, better.values())), "1"))
    assert not found, f"FAULT: better than {rest} with {first}"
    if found is None:
        say_late(f"less than {rest} in {len(rows)} rows with {first}")
    return found is False


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
    is_proved = proves_first(model, first) and proves_rest(model, first, rest)
    if not is_proved:
        late.append(order["ribbon"])
    print(f"    {'proved' if is_proved else 'best'}: {mine}", flush=True)
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
        out = subprocess.run(["minizinc", "--solver", "gecode", "--time-limit", str(1000 * BRIEF), path],
                             text=True, check=True, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL).stdout
    if "=====UNKNOWN=====" in out:
        print(f"    minizinc does not know in {BRIEF} s", flush=True)
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
    assert len(late) <= len(known) // 4, "FAULT: too few orders are proved again"


main()
