"""Proves the best order of every example's ribbon again, without our search.

The problem is the one `pinfold order --format json` prints; what its aims mean is written down anew in
shared/order_model.py. Of the aims before the first that tells signals apart by name, shared/order_table.py
works out the least that any order has and every row of kinds that has it. Given these rows, clasp must say
yes to the best order as a logic programme, and must find none that is better by the rest. clasp is also
asked for less by the aims without names, one by one, which it need not know within BRIEF seconds. Examples
with the same question are asked once; those that show a mistake ask a good example's. Skipped where a
solver is missing. Run with PINFOLD_PROGRAM and PINFOLD_ROOT set.
"""

import glob
import json
import os
import shutil
import subprocess
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "shared"))
import order_model  # noqa: E402
import order_table  # noqa: E402

PROGRAM, ROOT = os.environ["PINFOLD_PROGRAM"], os.environ["PINFOLD_ROOT"]
DECIMALS = {"noise": 1000}
LIMIT = 60  # seconds for what clasp must know; it takes one or two
BRIEF = 4


def answers(design):
    """The orders that pinfold prints for an example; none if it has no answer."""
    done = subprocess.run([PROGRAM, "order", design, "--format", "json"], cwd=ROOT, text=True,
                          stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, check=False)
    if done.returncode > 1 or not done.stdout:
        assert os.path.basename(design) != "design.yaml", f"FAULT: no answer for {design}"
        return []
    return [order for order in json.loads(done.stdout)["orders"] if "problem" in order]


def clasp(programme, seconds, *options):
    ground = subprocess.run(["gringo", "-W", "none"], input=programme, text=True, check=True,
                            stdout=subprocess.PIPE).stdout
    return subprocess.run(["clasp", "--configuration=trendy", f"--time-limit={seconds}", *options], input=ground,
                          text=True, check=False, stdout=subprocess.PIPE, stderr=subprocess.STDOUT).stdout


def has_model(out):
    """Whether clasp found one; None if it does not know."""
    if "UNKNOWN" in out:
        return None
    assert "SATISFIABLE" in out or "OPTIMUM FOUND" in out, out  # else it has not ended by itself
    return "UNSATISFIABLE" not in out


def finds(model, settled, most, seconds, order=()):
    """Whether clasp finds an order that keeps `settled` and is at most `most` in the ranking of its aims;
    with `order` only that one. None if it does not know in time."""
    programme = order_model.answer_set(model, settled, [*most])
    programme += "".join(f":- not on({i},{h},{p}).\n" for p, (i, h) in enumerate(order))
    return has_model(clasp(programme, seconds, "--opt-mode=enum," + ",".join(str(f) for f in most.values()), "1"))


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


def rows_of(model, first):
    """Every row of kinds that has `first`: where items begin, and which others they are like."""
    table = order_table.Table(model, first)
    least, rows = table.least()
    assert rows, f"FAULT: the table knows no order with {first}"
    assert table.figures(least) == first, f"FAULT: {table.figures(least)} is less than {first}"
    return rows


def prove_rest(model, rows, rest):
    """No order of these rows is better by the rest of the aims."""
    better = just_better(rest)
    if not better:
        return
    programme = order_model.answer_set(model, {}, [*better])
    programme += "".join(f"like({i},{kind}).\n" for i, kind in order_table.kinds_of(model).items())
    programme += f"1 {{ row(0..{len(rows) - 1}) }} 1.\n"
    programme += ":- row(R), x(I,_,P), like(I,L), not begins(R,P,L).\n"
    programme += "".join(f"begins({r},{p},{i}).\n" for r, row in enumerate(rows) for p, i in row)
    found = has_model(clasp(programme, LIMIT, "--opt-mode=enum," + ",".join(map(str, better.values())), "1"))
    assert found is not None, f"FAULT: not known in {LIMIT} s whether {rest} is best in {len(rows)} rows"
    assert not found, f"FAULT: better than {rest}"


def first_by_clasp(model, first):
    """Whether clasp knows in BRIEF seconds too that no order has less by any of the aims, each with those
    before it held."""
    settled = {}
    for aim, figure in first.items():
        found = finds(model, settled, {aim: figure - 1}, BRIEF) if figure else False
        assert not found, f"FAULT: {aim} less than in {first}"
        if found is None:
            return False
        settled[aim] = figure
    return True


def prove(order):
    model = order_model.Model(order["problem"])
    mine = model.figures([tuple(laid) for laid in order["best"]])
    assert mine, "FAULT: the best order breaks a rule"
    check_figures(mine, order["bound"])
    drawn = model.figures(order_model.named(order["problem"], order["conductors"]))
    if drawn:  # what a hand has drawn may part a pair
        check_figures(drawn, order["cost"])
    first, rest = first_and_rest(model, mine)
    assert finds(model, first, rest, LIMIT, order["best"]), "FAULT: the model does not know the best order"
    rows = rows_of(model, first)
    prove_rest(model, rows, rest)
    also = ", all by clasp too" if first_by_clasp(model, first) else ""
    print(f"    proved in {len(rows)} rows{also}: {mine}", flush=True)


def main():
    if any(not shutil.which(program) for program in ("clasp", "gringo")):
        sys.exit(77)
    known = set()
    for design in sorted(glob.glob("examples/*/*.yaml", root_dir=ROOT)):
        if "mistakes" in design:
            continue
        for order in answers(design):
            question = json.dumps(order["problem"], sort_keys=True)
            if question in known:
                continue
            known.add(question)
            print(f"{design}, {order['ribbon']}", flush=True)
            prove(order)
    print(f"{len(known)} questions, all proved")
    assert len(known) > 8, "FAULT: hardly an example has an order"


main()
