"""The problem of a conductor order, as `pinfold order --format json` prints it, put to general solvers.

The meaning of every aim is written down here anew, from its definition; nothing of the search is used.
`figures` counts; `linear_programme`, `minizinc` and `answer_set` write the same model in three languages.
An aim before others in the ranking is minimised before them: `limits` holds those that are settled.
"""

import itertools

REACH = 3
AIMS = ("guards", "hazards", "noise", "crossings", "mismatch", "returns")


class Model:
    """Labels are what may lie on a conductor: (item, half)."""

    def __init__(self, problem):
        self.problem, self.size = problem, problem["conductors"]
        self.items, self.ranking = problem["items"], problem["ranking"]
        self.labels = [(i, h) for i, item in enumerate(self.items) for h in range(len(item["names"]))]
        self.fixed = {f["conductor"] - 1: (f["item"], f["half"]) for f in problem["fixed"]}
        self.pairs = [i for i, item in enumerate(self.items) if item["kind"] == "pair"]

    def kind(self, item):
        return self.items[item]["kind"]

    def is_pair(self, item):
        return self.kind(item) == "pair"

    def width(self, item):
        return 2 if self.is_pair(item) else 1

    def copies(self, item):
        return self.items[item]["copies"]

    def of_kind(self, kind):
        return [i for i, item in enumerate(self.items) if item["kind"] == kind]

    def weight(self, distance, grounds):
        """Thousandths of what arrives between two neighbours."""
        return self.problem["coupling"][distance - 1][grounds] if grounds < REACH else 0

    def noise_of(self, one, other):
        a, b = self.items[one], self.items[other]
        return a["strength"] * b["sensitivity"] + b["strength"] * a["sensitivity"]

    def harms(self, supply, met):
        """Whether a supply must not meet an item: another that does not stand it; all stand open."""
        return met != supply and self.kind(met) != "open" and supply not in self.items[met]["withstands"]

    def crosses(self, left, right):
        """Traces that cross when label `left` lies before label `right`: one on each board whose pads lie
        the other way round; of several pads the nearest serves."""
        count = 0
        for board in (0, 1):
            l = self.items[left[0]]["pads_um"][left[1]][board]
            r = self.items[right[0]]["pads_um"][right[1]][board]
            count += bool(l) and bool(r) and min(l) > max(r)
        return count

    def lateral(self, pads, conductor):
        here = (2 * conductor + 1 - self.size) * self.problem["pitch_um"] // 2
        return min((abs(pad - here) for pad in pads), default=0)

    def mismatch(self, pair, first, flipped):
        """Of a fast pair whose first conductor is `first`: its halves' ways sideways against each other,
        and their mean."""
        if not self.items[pair]["fast"]:
            return 0
        way = [0, 0]
        for half, board in itertools.product((0, 1), (0, 1)):
            pads = self.items[pair]["pads_um"][half][board]
            way[half] += self.lateral(pads, first + (half != flipped))
        return abs(way[0] - way[1]) + sum(way) // 2

    def figures(self, order):
        """The six figures of an order: a list of labels, or None if it breaks a rule."""
        count = dict.fromkeys(AIMS, 0)
        at = lambda p: order[p][0] if 0 <= p < self.size else None
        is_ground = lambda p: at(p) is not None and self.kind(at(p)) == "ground"
        wanted = sorted((l for l in self.labels for _ in range(self.copies(l[0]))))
        if sorted(order) != wanted or any(order[c] != l for c, l in self.fixed.items()):
            return None
        if any(abs(order.index((i, 0)) - order.index((i, 1))) != 1 for i in self.pairs):
            return None
        for p, (item, half) in enumerate(order):
            mate = (item, 1 - half) if self.is_pair(item) else None
            if self.items[item]["fast"]:
                count["guards"] += sum(not is_ground(q) and not (0 <= q < self.size and order[q] == mate)
                                       for q in (p - 1, p + 1))
            if self.kind(item) == "supply":
                for q in (self.size - 1 - p, p + self.problem["shift"], p - self.problem["shift"]):
                    count["hazards"] += at(q) is not None and self.harms(item, at(q))
                count["returns"] += not is_ground(p - 1) and not is_ground(p + 1)
            for d in range(1, REACH + 1):
                if p + d < self.size and order[p + d] != mate:
                    grounds = sum(map(is_ground, range(p + 1, p + d)))
                    count["noise"] += self.weight(d, grounds) * self.noise_of(item, at(p + d))
            for other in order[p + 1:]:
                same_net = other[0] == item and not self.is_pair(item)
                count["crossings"] += 0 if same_net else self.crosses((item, half), other)
        for i in self.pairs:
            first = min(order.index((i, 0)), order.index((i, 1)))
            count["mismatch"] += self.mismatch(i, first, order[first] == (i, 1))
        return count


def named(problem, conductors):
    """The order as labels, from the names of its conductors; the copies of equal names are alike."""
    label = {name: (i, h) for i, item in enumerate(problem["items"]) for h, name in enumerate(item["names"])}
    return [label[name] for name in conductors]


class Linear:
    """An integer programme in the LP format that GLPK and CBC read."""

    def __init__(self, model):
        self.model, self.rows, self.binary, self.names = model, [], [], itertools.count()
        self.aims = {aim: {} for aim in AIMS}
        self.constant = dict.fromkeys(AIMS, 0)
        self.place()
        for aim in AIMS:
            getattr(self, aim)()

    def row(self, terms, sense, bound):
        """`terms`: (factor, variable); a variable is a name, or a sum of names."""
        sums = {}
        for factor, variable in terms:
            for name in [variable] if isinstance(variable, str) else variable:
                sums[name] = sums.get(name, 0) + factor
        text = " ".join(f"{'+' if f >= 0 else '-'} {abs(f)} {n}" for n, f in sums.items() if f)
        self.rows.append(f" {text or '0 one'} {sense} {bound}")

    def new(self, prefix):
        return f"{prefix}{next(self.names)}"

    def product(self, aim, weight, whole, but=()):
        """Adds `weight` to an aim when all of `whole` are 1 and none of `but`."""
        if weight == 0 or any(w == [] for w in whole):
            return
        name = self.new("z")
        self.row([(1, name)] + [(-1, w) for w in whole] + [(1, b) for b in but], ">=", 1 - len(whole))
        self.aims[aim][name] = weight

    def place(self):
        """x: an item lies from a conductor on; each conductor once, each item as often as it has copies."""
        m, self.x = self.model, {}
        for i in range(len(m.items)):
            for flipped in (0, 1)[:m.width(i)]:
                for p in range(m.size - m.width(i) + 1):
                    laid = [(p, (i, flipped))] + ([(p + 1, (i, 1 - flipped))] if m.is_pair(i) else [])
                    if all(m.fixed.get(q, label) == label for q, label in laid):
                        self.x[i, flipped, p] = f"x{i}_{flipped}_{p}"
        self.binary += self.x.values()
        for i in range(len(m.items)):
            self.row([(1, [v for (j, _, _), v in self.x.items() if j == i])], "=", m.copies(i))
        for p in range(m.size):
            self.row([(1, [v for (i, _, q), v in self.x.items() if q <= p < q + m.width(i)])], "=", 1)
        self.ground = [self.lying("ground", p) for p in range(m.size)]

    def starts(self, item, p):
        return [self.x[item, f, p] for f in (0, 1) if (item, f, p) in self.x]

    def lying(self, kind, p):
        return [v for i in self.model.of_kind(kind) for v in self.starts(i, p)] if 0 <= p < self.model.size else []

    def on(self, item, p):
        """The item lies on a conductor."""
        if not 0 <= p < self.model.size:
            return []
        return [v for q in range(p - self.model.width(item) + 1, p + 1) for v in self.starts(item, q)]

    def guards(self):
        m = self.model
        fast = [i for i in m.pairs if m.items[i]["fast"]]
        for p in range(m.size - 1):
            begins = [v for i in fast for v in self.starts(i, p)]
            for side in (p - 1, p + 2):
                ground = self.ground[side] if 0 <= side < m.size else []
                self.product("guards", 1, [begins], [ground])

    def hazards(self):
        m = self.model
        for s, p in itertools.product(m.of_kind("supply"), range(m.size)):
            for q in (m.size - 1 - p, p + m.problem["shift"], p - m.problem["shift"]):
                met = [v for i in range(len(m.items)) if m.harms(s, i) for v in self.on(i, q)]
                if q != p:
                    self.product("hazards", 1, [self.on(s, p), met])

    def noise(self):
        """Items of equal strength and sensitivity are one class; of a pair its first and second conductor
        are told apart, for the second of one meets the first of another."""
        m, classes = self.model, {}
        for i, item in enumerate(m.items):
            for half in range(m.width(i)):
                classes.setdefault((item["strength"], item["sensitivity"], m.is_pair(i), half), []).append(i)
        lies = lambda k, p: [v for i in classes[k] for v in self.starts(i, p - k[3])]
        for d, p, k, l in itertools.product(range(1, REACH + 1), range(m.size), classes, classes):
            loud = k[0] * l[1] + l[0] * k[1]
            own = d == 1 and k[2] and l[2] and k[3] == 0 and l[3] == 1
            if p + d >= m.size or loud == 0 or own:
                continue
            both, between = [lies(k, p), lies(l, p + d)], self.ground[p + 1:p + d]
            weights = [m.weight(d, g) for g in range(d)] + [0]
            assert weights == sorted(weights, reverse=True), "more grounds must not couple more"
            self.product("noise", loud * weights[d - 1], both)
            for g in range(d - 1):  # at most g grounds between: no g + 1 of them
                self.fewer(loud * (weights[g] - weights[g + 1]), both, between, g + 1)

    def fewer(self, weight, both, between, many):
        """Adds to the noise when both lie there and fewer than `many` grounds between."""
        if weight == 0 or [] in both:
            return
        name = self.new("z")
        for some in itertools.combinations(between, len(between) - many + 1):
            self.row([(1, name)] + [(-1, b) for b in both] + [(1, s) for s in some], ">=", -1)
        self.aims["noise"][name] = weight

    def crossings(self):
        m = self.model
        items = [i for i in range(len(m.items)) if m.kind(i) not in ("ground", "open")]
        whole = lambda u, v: sum(m.crosses((u, a), (v, b)) for a in range(m.width(u)) for b in range(m.width(v)))
        for i in m.pairs:
            for (j, flipped, _), name in self.x.items():
                if j == i:
                    self.add("crossings", name, m.crosses((i, flipped), (i, 1 - flipped)))
        for u, v in itertools.combinations(items, 2):
            if m.kind(u) == m.kind(v) == "supply":
                for p, q in itertools.permutations(range(m.size), 2):
                    both = [self.on(u, p), self.on(v, q)]
                    self.product("crossings", whole(u, v) if p < q else whole(v, u), both)
            elif "supply" in (m.kind(u), m.kind(v)):
                supply, other = (u, v) if m.kind(u) == "supply" else (v, u)
                self.with_supply(supply, other, whole)
            else:
                self.in_turn(u, v, whole(u, v), whole(v, u))

    def add(self, aim, name, weight):
        if weight:
            self.aims[aim][name] = self.aims[aim].get(name, 0) + weight

    def up_to(self, item, p):
        return [v for q in range(p + 1) for v in self.starts(item, q)]

    def with_supply(self, supply, other, whole):
        for p in range(self.model.size):
            here = self.on(supply, p)
            self.product("crossings", whole(supply, other), [here], [self.up_to(other, p)])
            self.product("crossings", whole(other, supply), [here, self.up_to(other, p)])

    def in_turn(self, u, v, before, after):
        """t is 1 where u comes before v."""
        if before == after:
            self.constant["crossings"] += before
            return
        t = self.new("t")
        self.binary.append(t)
        self.add("crossings", t, before - after)
        self.constant["crossings"] += after
        for p in range(self.model.size):
            here = self.starts
            self.row([(1, t), (-1, here(u, p)), (1, self.up_to(v, p))], ">=", 0)
            self.row([(1, t), (1, here(v, p)), (-1, self.up_to(u, p))], "<=", 1)

    def mismatch(self):
        for (i, flipped, p), name in self.x.items():
            if self.model.is_pair(i):
                self.add("mismatch", name, self.model.mismatch(i, p, flipped))

    def returns(self):
        m = self.model
        for s, p in itertools.product(m.of_kind("supply"), range(m.size)):
            sides = [self.ground[q] for q in (p - 1, p + 1) if 0 <= q < m.size]
            self.product("returns", 1, [self.on(s, p)], sides)

    def text(self, aim, limits):
        """The programme that makes `aim` least; `limits` are the most that other aims may come to."""
        rows = list(self.rows)
        for other, most in limits.items():
            self.row([(w, n) for n, w in self.aims[other].items()], "<=", most - self.constant[other])
        aimed = " ".join(f"{'+' if w >= 0 else '-'} {abs(w)} {n}" for n, w in self.aims[aim].items())
        every = [r for r in self.rows]
        self.rows = rows
        lines = ["Minimize", f" cost: {aimed or '0 one'}", "Subject To", *every, " one = 1", "Bounds"]
        lines += [f" 0 <= {n} <= 1" for a in AIMS for n in self.aims[a] if n[0] == "z"]
        return "\n".join([*lines, "Binary", *(f" {n}" for n in self.binary), "End", ""])


def table(values):
    return "[" + ", ".join(str(int(v)) for v in values) + "]"


BY_NAME = {"crossings", "mismatch"}  # the other aims do not tell items apart that are alike


def alike(model):
    """Items that are the same to all aims but those by name, in groups of two or more."""
    groups, fixed = {}, {item for item, _ in model.fixed.values()}
    for i, item in enumerate(model.items):
        if item["kind"] in ("pair", "single") and i not in fixed:
            key = [item[k] for k in ("kind", "fast", "withstands", "strength", "sensitivity")]
            groups.setdefault(str(key), []).append(i)
    return groups.values(), fixed


def minizinc(model, settled, goal):
    """A constraint model: labels on conductors, and where labels of one copy lie.

    `settled`: {aim: most}. `goal`: the aim to minimise.
    """
    m, n = model, model.size
    number = {label: k + 1 for k, label in enumerate(m.labels)}
    single = [k for label, k in number.items() if m.copies(label[0]) == 1]
    where = {k: j + 1 for j, k in enumerate(single)}
    kinds = [m.kind(i) for i, _ in m.labels]
    several = [k for k in number.values() if k not in where and kinds[k - 1] == "supply"]
    out = ['include "global_cardinality.mzn";', f"array[1..{n}] of var 1..{len(m.labels)}: at;",
           f"array[1..{len(single)}] of var 1..{n}: place;",
           f"array[1..{len(m.labels)}] of bool: ground = [{', '.join(str(k == 'ground').lower() for k in kinds)}];",
           f"constraint global_cardinality(at, [i | i in 1..{len(m.labels)}], "
           f"{table(m.copies(i) for i, _ in m.labels)});",
           f"array[1..{n}] of var 0..1: g;",
           f"constraint forall(p in 1..{n})(g[p] = bool2int(ground[at[p]]));"]
    for k in single:
        out.append(f"constraint forall(p in 1..{n})(at[p] = {k} <-> place[{where[k]}] = p);")
    for i in m.pairs:
        out.append(f"constraint abs(place[{where[number[i, 0]]}] - place[{where[number[i, 1]]}]) = 1;")
    if not BY_NAME & {goal, *settled}:
        groups, fixed = alike(m)
        for one, other in ((a, b) for group in groups for a, b in zip(group, group[1:])):
            out.append(f"constraint place[{where[number[one, 0]]}] < place[{where[number[other, 0]]}];")
        for i in set(m.pairs) - fixed:
            out.append(f"constraint place[{where[number[i, 0]]}] < place[{where[number[i, 1]]}];")
    out += [f"constraint at[{p + 1}] = {number[label]};" for p, label in m.fixed.items()]
    out += costs(m, number, where, several)
    for aim, most in settled.items():
        out.append(f"constraint {aim} <= {most};")
    out.append(f"solve :: int_search(at, input_order, indomain_min) minimize {goal};")
    out.append('output [show(at), "\\n"] ++ [' + ", ".join(f'"{a}=", show({a}), "\\n"' for a in AIMS) + "];")
    return "\n".join(out) + "\n"


def costs(m, number, where, several):
    n, labels = m.size, len(m.labels)
    fast = [m.items[i]["fast"] for i, _ in m.labels]
    mate = {number[l]: number[l[0], 1 - l[1]] for l in m.labels if m.is_pair(l[0])}
    lines, terms = [], {aim: ["0"] for aim in AIMS}
    lines.append(f"array[1..{labels}] of bool: fast = [{', '.join(str(f).lower() for f in fast)}];")
    lines.append(f"array[1..{labels}] of int: mate = {table(mate.get(k, 0) for k in number.values())};")
    for p in range(1, n + 1):
        for q in (p - 1, p + 1):
            guarded = f" /\\ g[{q}] = 0 /\\ at[{q}] != mate[at[{p}]]" if 1 <= q <= n else ""
            terms["guards"].append(f"bool2int(fast[at[{p}]]{guarded})")
    harm = [m.kind(a) == "supply" and m.harms(a, b) for a, _ in m.labels for b, _ in m.labels]
    bare = [m.kind(a) == "supply" for a, _ in m.labels]
    lines.append(f"array[1..{labels}, 1..{labels}] of int: harm = array2d(1..{labels}, 1..{labels}, {table(harm)});")
    lines.append(f"array[1..{labels}] of int: supply = {table(bare)};")
    for p in range(1, n + 1):
        for q in (n + 1 - p, p + m.problem["shift"], p - m.problem["shift"]):
            if 1 <= q <= n and q != p:
                terms["hazards"].append(f"harm[at[{p}], at[{q}]]")
        sides = [f"g[{q}]" for q in (p - 1, p + 1) if 1 <= q <= n]
        terms["returns"].append(f"bool2int(supply[at[{p}]] = 1 /\\ {' + '.join(sides)} = 0)")
    for d in range(1, REACH + 1):
        rows = [m.weight(d, g) * m.noise_of(a[0], b[0]) * (mate.get(number[a]) != number[b])
                for g in range(d) for a in m.labels for b in m.labels]
        lines.append(f"array[0..{d - 1}, 1..{labels}, 1..{labels}] of int: noise{d} = "
                     f"array3d(0..{d - 1}, 1..{labels}, 1..{labels}, {table(rows)});")
        for p in range(1, n + 1 - d):
            between = " + ".join(f"g[{q}]" for q in range(p + 1, p + d)) or "0"
            terms["noise"].append(f"noise{d}[{between}, at[{p}], at[{p + d}]]")
    for a, b in itertools.permutations(m.labels, 2):
        if "ground" in (m.kind(a[0]), m.kind(b[0])) or "open" in (m.kind(a[0]), m.kind(b[0])):
            continue
        if crossed := m.crosses(a, b):
            j, k = number[a], number[b]
            if j in where and k in where:
                terms["crossings"].append(f"{crossed} * bool2int(place[{where[j]}] < place[{where[k]}])")
            elif j in where or k in where:
                before = f"place[{where[j]}] < p" if j in where else f"p < place[{where[k]}]"
                lot = k if j in where else j
                terms["crossings"].append(
                    f"{crossed} * sum(p in 1..{n})(bool2int(at[p] = {lot} /\\ {before}))")
            else:
                terms["crossings"].append(
                    f"{crossed} * sum(p, q in 1..{n} where p < q)(bool2int(at[p] = {j} /\\ at[q] = {k}))")
    for i in m.pairs:
        rows = [m.mismatch(i, min(p, q), q < p) if abs(p - q) == 1 else 0 for p in range(n) for q in range(n)]
        if any(rows):
            lines.append(f"array[1..{n}, 1..{n}] of int: way{i} = array2d(1..{n}, 1..{n}, {table(rows)});")
            terms["mismatch"].append(f"way{i}[place[{where[number[i, 0]]}], place[{where[number[i, 1]]}]]")
    lines += [f"var int: {aim} = {' + '.join(terms[aim])};" for aim in AIMS]
    return lines


def answer_set(model, settled, aims):
    """A logic programme that makes `aims` least, the first before the others; `settled`: {aim: most}.

    If no aim asks for names, items that are alike lie in their own order, and pairs one way round.
    """
    m, n = model, model.size
    out = []
    if not BY_NAME & {*aims, *settled}:
        groups, fixed = alike(m)
        for one, other in ((a, b) for group in groups for a, b in zip(group, group[1:])):
            out.append(f":- on({one},0,P), upto({other},0,P).")
        out += [f":- x({i},1,P)." for i in set(m.pairs) - fixed]
    for i in range(len(m.items)):
        for flipped in (0, 1)[:m.width(i)]:
            for p in range(n - m.width(i) + 1):
                laid = [(p, (i, flipped))] + ([(p + 1, (i, 1 - flipped))] if m.is_pair(i) else [])
                if all(m.fixed.get(q, label) == label for q, label in laid):
                    out.append(f"may({i},{flipped},{p}).")
                    out += [f"on({j},{h},{q}) :- x({i},{flipped},{p})." for q, (j, h) in laid]
        out.append(f"{m.copies(i)} {{ x({i},F,P) : may({i},F,P) }} {m.copies(i)}.")
        out.append(f"lies({i},P) :- on({i},_,P). {m.kind(i)}({i}).")
        out.append(f"class({i},{m.items[i]['strength']},{m.items[i]['sensitivity']}).")
    out.append(f"1 {{ on(I,H,P) : label(I,H) }} 1 :- P=0..{n - 1}.")
    out += [f"label({i},{h})." for i, h in m.labels]
    out.append("g(P) :- lies(I,P), ground(I).")
    out += [f"fast({i})." for i in m.pairs if m.items[i]["fast"]]
    out += [f"harm({s},{i})." for s in m.of_kind("supply") for i in range(len(m.items)) if m.harms(s, i)]
    out.append("cost(guards,1,(P,a)) :- x(I,_,P), fast(I), not g(P-1).")
    out.append("cost(guards,1,(P,b)) :- x(I,_,P), fast(I), not g(P+2).")
    shift = m.problem["shift"]
    out.append(f"meets(P,{n - 1}-P,r) :- P=0..{n - 1}. meets(P,P+{shift},u) :- P=0..{n - 1}. "
               f"meets(P,P-{shift},d) :- P=0..{n - 1}.")
    out.append("cost(hazards,1,(P,W)) :- lies(S,P), harm(S,I), lies(I,Q), meets(P,Q,W).")
    out.append("cost(returns,1,P) :- lies(S,P), supply(S), not g(P-1), not g(P+1).")
    out.append("own(P) :- x(I,_,P), pair(I).")
    out.append("loud(A,B,C,D,A*D+C*B) :- class(_,A,B), class(_,C,D), A*D+C*B > 0.")
    out.append("level(A,B,P) :- lies(I,P), class(I,A,B).")
    for d in range(1, REACH + 1):
        for g in range(d):
            if weight := m.weight(d, g):
                between = ", ".join(f"g(P+{k})" for k in range(1, d))
                count = f", {g} {{ {between.replace(', ', '; ')} }} {g}" if between else ", not own(P)"
                out.append(f"cost(noise,{weight}*L,(P,{d})) :- level(A,B,P), level(C,D,P+{d}), "
                           f"loud(A,B,C,D,L){count}.")
    out.append(f"upto(I,H,P) :- on(I,H,P). upto(I,H,P+1) :- upto(I,H,P), P<{n - 1}.")
    for a, b in itertools.permutations(m.labels, 2):
        if {"ground", "open"} & {m.kind(a[0]), m.kind(b[0])} or not m.crosses(a, b):
            continue
        tag = f"{a[0]},{a[1]},{b[0]},{b[1]}"
        if m.copies(a[0]) == 1 == m.copies(b[0]):
            # What either turn costs is a fact; only the rest is left to choose.
            least = min(m.crosses(a, b), m.crosses(b, a))
            if least and a < b:
                out.append(f"cost(crossings,{least},({tag},least)).")
            if more := m.crosses(a, b) - least:
                out.append(f"cost(crossings,{more},({tag})) :- "
                           f"on({a[0]},{a[1]},P), not upto({b[0]},{b[1]},P).")
        elif m.copies(b[0]) == 1:
            out.append(f"cost(crossings,{m.crosses(a, b)},({tag},P)) :- "
                       f"on({a[0]},{a[1]},P), not upto({b[0]},{b[1]},P).")
        elif m.copies(a[0]) == 1:
            out.append(f"cost(crossings,{m.crosses(a, b)},({tag},P)) :- "
                       f"on({b[0]},{b[1]},P), upto({a[0]},{a[1]},P).")
        else:
            out.append(f"cost(crossings,{m.crosses(a, b)},({tag},P,Q)) :- "
                       f"on({a[0]},{a[1]},P), on({b[0]},{b[1]},Q), P<Q.")
    for i in m.pairs:
        for flipped, p in itertools.product((0, 1), range(n - 1)):
            if way := m.mismatch(i, p, bool(flipped)):
                out.append(f"cost(mismatch,{way},({i})) :- x({i},{flipped},{p}).")
    for aim, most in settled.items():
        out.append(f":- #sum {{ W,T : cost({aim},W,T) }} > {most}." if most else f":- cost({aim},_,_).")
    # An aim that nothing adds to would lose its place among the levels; nobody needs to idle.
    out.append("{ idle }.")
    for level, aim in enumerate(reversed(aims), 1):
        out.append(f"cost({aim},1,idle) :- idle.")
        out.append(f"#minimize {{ W@{level},T : cost({aim},W,T) }}.")
    return "\n".join([*out, "#show x/3.", ""])
