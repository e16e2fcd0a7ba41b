"""Proves the chosen order of an example again, by another method in another language.

The question is read from the design and the pin maps, not from pinfold. The figures of the order that
pinfold prints are worked out anew. Then every order is gone through, one place of the supply after the
other, from conductor 1 on; parts of orders are merged only if they have laid the same signals and end
in the same three conductors. None may be better by guards, hazards, noise and crossings, in this
ranking. Run with PINFOLD_PROGRAM and PINFOLD_ROOT set.
"""

import itertools
import json
import os
import subprocess
import sys

import yaml

PROGRAM, ROOT = os.environ["PINFOLD_PROGRAM"], os.environ["PINFOLD_ROOT"]
# Coupling by distance and grounds between as the programme prints it, strengths and sensitivities as
# README.md names them; what is tested here is the choice, not the weights.
WEIGHT = {}
LOUD = {"pair": (4, 3), "clock": (3, 1), "single": (1, 1), "supply": (1, 0), "ground": (0, 0)}


def load(*path):
    with open(os.path.join(ROOT, *path), encoding="utf-8") as file:
        return yaml.safe_load(file)


def volts(text):
    return float(text.split()[0]) if text else 0.0


def hdmi_signals():
    """Each conductor's signal: kind, whether it stands the supply, its contact on the connector."""
    interface = load("pinmaps", "interfaces", "hdmi.yaml")
    contacts = load("pinmaps", "connectors", "hdmi-a.yaml")["contacts"]
    place = {str(row["signal"]): int(row["contact"]) for row in contacts}
    highest = volts(interface["supplies"][0]["most-at-source"])
    signals = {}
    for row in interface["signals"]:
        role, name = row["role"], str(row["signal"])
        if role in ("ground", "pair-shield"):
            continue
        kind = {"pair-half": "pair", "supply": "supply"}.get(role, "single")
        if str(row.get("clock")) in ("True", "yes"):
            kind = "clock"
        signals[name] = (kind, volts(row.get("withstands")) >= highest, place[name])
    return signals


def partner(name):
    return name[:-1] + ("-" if name.endswith("+") else "+")


def figures(order, signals):
    """Guards, hazards, noise and crossings of an order, from their definitions."""
    kind = [signals[n][0] if n in signals else "ground" for n in order]
    size = len(order)
    guards = hazards = noise = crossings = 0
    for i, name in enumerate(order):
        if kind[i] == "pair":
            for j in (i - 1, i + 1):
                if not (0 <= j < size and order[j] in (partner(name), "GND")):
                    guards += 1
        if kind[i] == "supply":
            for j in (size - 1 - i, i - 1, i + 1):
                if 0 <= j < size and order[j] != name and not signals.get(order[j], (0, False))[1]:
                    hazards += 1
        for d in (1, 2, 3):
            if i + d < size and order[i + d] != (partner(name) if kind[i] == "pair" else None):
                between = order[i + 1:i + d].count("GND")
                (a, s), (b, t) = LOUD[kind[i]], LOUD[kind[i + d]]
                noise += WEIGHT.get((d, between), 0) * (a * t + b * s)
    for one, other in itertools.combinations([n for n in order if n in signals], 2):
        crossings += 2 * (signals[one][2] > signals[other][2])  # both boards have the same row
    return {"guards": guards, "hazards": hazards, "noise": noise, "crossings": crossings}


def best_figures(signals, size, fixed):
    """The least (guards, hazards, noise, crossings) of all orders, compared one after the other."""
    blocks = [(n,) for n in signals if signals[n][0] != "pair"]
    for name in (n for n in signals if n.endswith("+")):
        blocks += [(name, partner(name)), (partner(name), name)]
    bit = {name: 1 << i for i, name in enumerate(signals)}
    supply = next(n for n in signals if signals[n][0] == "supply")
    return min(filter(None, (best_with(signals, size, fixed, blocks, bit, supply, at)
                             for at in range(size))))


def best_with(signals, size, fixed, blocks, bit, supply, supply_at):
    must_stand = {size - 1 - supply_at, supply_at - 1, supply_at + 1}
    parts = [{} for _ in range(size + 1)]
    parts[0][(0, 0, ("edge",) * 3)] = (0, 0, 0, 0)

    def laid(part, cost, at, name):
        """The part with one more conductor, and its cost."""
        mask, grounds, tail = part
        guards, hazards, noise, crossings = cost
        kind = signals[name][0] if name != "GND" else "ground"
        last = tail[-1]
        mate = partner(name) if kind == "pair" else None
        if kind == "pair" and last not in ("GND", mate):
            guards += 1
        if last in signals and signals[last][0] == "pair" and name not in ("GND", partner(last)):
            guards += 1
        if at in must_stand and name != supply and not signals.get(name, (0, False))[1]:
            hazards += 1
        between = 0
        for d, other in enumerate(reversed(tail), 1):
            if other in signals and other != mate:
                (a, s), (b, t) = LOUD[kind], LOUD[signals[other][0]]
                noise += WEIGHT.get((d, between), 0) * (a * t + b * s)
            between += other == "GND"
        if kind != "ground":
            crossings += 2 * sum(1 for o in signals if mask & bit[o] and signals[o][2] > signals[name][2])
            mask |= bit[name]
        else:
            grounds += 1
        return (mask, grounds, tail[1:] + (name,)), (guards, hazards, noise, crossings)

    for at in range(size):
        for part, cost in parts[at].items():
            for block in [("GND",)] + blocks:
                if block == ("GND",):
                    if part[1] == size - len(signals):
                        continue
                elif part[0] & bit[block[0]]:
                    continue
                if at + len(block) > size:
                    continue
                new, sum_ = part, cost
                for place, name in enumerate(block, at):
                    if fixed.get(place + 1, name) != name or (name == supply) != (place == supply_at):
                        break
                    new, sum_ = laid(new, sum_, place, name)
                else:
                    there = parts[at + len(block)]
                    if LIMIT is None or sum_ <= LIMIT:  # costs only grow
                        there[new] = min(there.get(new, sum_), sum_)
        parts[at] = {}
    ends = []
    for (_, _, tail), (guards, hazards, noise, crossings) in parts[size].items():
        bare = tail[-1] in signals and signals[tail[-1]][0] == "pair"
        ends.append((guards + bare, hazards, noise, crossings))
    return min(ends, default=None)


design = load("examples", "open-order", "design.yaml")
fixed = {int(k): str(v) for k, v in design["ribbons"]["strap"]["order"]["fixed"].items()}
done = subprocess.run([PROGRAM, "order", "examples/open-order/design.yaml", "--format", "json"],
                      cwd=ROOT, text=True, stdout=subprocess.PIPE, check=True)
[order] = json.loads(done.stdout)["orders"]
for distance, row in enumerate(order["problem"]["coupling"], 1):
    WEIGHT.update({(distance, grounds): weight for grounds, weight in enumerate(row)})
signals = hdmi_signals()
names = order["conductors"]
assert order["proved"] and sorted(n for n in names if n != "GND") == sorted(signals), names
mine = figures(names, signals)
told = {aim: round(order["cost"][aim] * (1000 if aim == "noise" else 1)) for aim in mine}
assert mine == told, f"FAULT: figures {mine}, pinfold says {told}"
LIMIT = tuple(mine.values())
best = best_figures(signals, len(names), fixed)
print(f"{mine} in the order chosen; the least of all orders: {best}")
assert best == LIMIT, "FAULT: there is a better order"
