"""The least that an order can have by the aims that do not ask for names, and every row that has it.

Nothing of the search is used, and its way is not gone: the supplies are laid first, in every way there is,
which makes harm a matter of the place alone; for each way the row is filled from its first conductor on,
and of all beginnings that use up the same kinds and end in the same three of them only the best are kept
(dynamic programming; Held and Karp 1962 went so through subsets). Figures are ranked by weighing each
above all that the later ones can come to.
"""

import itertools

from order_model import BY_NAME, REACH, alike

RADIX = 10**7  # above any one figure of an order


class Table:
    """`first`: the figures, in their ranking, of an order that none should beat."""

    def __init__(self, model, first):
        assert not BY_NAME & {*first} and all(figure < RADIX for figure in first.values())
        self.model = model
        self.worth = {aim: RADIX ** (len(first) - k) for k, aim in enumerate(first, 1)}
        self.most = sum(self.worth[aim] * figure for aim, figure in first.items())
        like = kinds_of(model)
        self.kinds = sorted({*like.values()})
        self.left = [sum(model.copies(i) for i, k in like.items() if k == kind) for kind in self.kinds]
        self.loud = [[model.noise_of(a, b) * self.worth.get("noise", 0) for b in self.kinds]
                     for a in self.kinds]
        self.is_ground = [model.kind(k) == "ground" for k in self.kinds] + [False]
        self.is_fast = [model.items[k]["fast"] for k in self.kinds] + [False]
        self.is_supply = [model.kind(k) == "supply" for k in self.kinds] + [False]

    def least(self):
        """The least sum of all figures, and the rows that have it: sets of (conductor, kind) where items
        begin. None and no rows if all orders have more than `first`."""
        best, rows = self.most, set()
        for supplies in self.ways_of_supplies():
            sum_here, rows_here = self.fill(supplies, best)
            if sum_here is None:
                continue
            rows = rows_here | (rows if sum_here == best else set())
            best = sum_here
        return (best if rows else None), rows

    def figures(self, total):
        return {aim: total // worth % RADIX for aim, worth in self.worth.items()}

    def ways_of_supplies(self):
        """{conductor: kind} in every way."""
        ways = [{}]
        for k, kind in enumerate(self.kinds):
            if self.is_supply[k]:
                free = [p for p in range(self.model.size) if self.model.fixed.get(p, (kind,))[0] == kind]
                ways = [{**way, **dict.fromkeys(places, k)} for way in ways
                        for places in itertools.combinations([p for p in free if p not in way], self.left[k])]
        return ways

    def harm(self, supplies):
        """By conductor and kind, with the supplies where they are."""
        n, shift = self.model.size, self.model.problem["shift"]
        harm = [[0] * len(self.kinds) for _ in range(n)]
        for p, s in supplies.items():
            for q in (n - 1 - p, p + shift, p - shift):
                for k, kind in enumerate(self.kinds):
                    if 0 <= q < n and self.model.harms(self.kinds[s], kind):
                        harm[q][k] += self.worth.get("hazards", 0)
        return harm

    def harm_ahead(self, harm, supplies):
        """The least harm from each conductor on, whatever lies where no supply does."""
        others = [k for k in range(len(self.kinds)) if not self.is_supply[k]]
        least = [harm[q][supplies[q]] if q in supplies else min((harm[q][k] for k in others), default=0)
                 for q in range(self.model.size)]
        return [sum(least[q:]) for q in range(self.model.size + 1)]

    def may(self, supplies):
        """The kinds that may begin on each conductor, and how wide they are."""
        m = self.model
        may = [[] for _ in range(m.size)]
        for p, (k, kind) in itertools.product(range(m.size), enumerate(self.kinds)):
            ways = [[(p, (kind, 0))]]
            if m.is_pair(kind):
                ways = [[(p, (kind, h)), (p + 1, (kind, 1 - h))] for h in (0, 1)]
            fits = any(all(q < m.size and (q in supplies) == self.is_supply[k] and supplies.get(q, k) == k
                           and m.fixed.get(q, label) == label for q, label in way) for way in ways)
            if fits:
                may[p].append((k, m.width(kind)))
        return may

    def fill(self, supplies, most):
        """The least sum that is at most `most`, and the rows that have it."""
        harm, may, none = self.harm(supplies), self.may(supplies), len(self.kinds)
        ahead = self.harm_ahead(harm, supplies)
        layers = [{} for _ in range(self.model.size + 1)]
        layers[0][tuple(self.left), (none,) * REACH] = (0, [])
        for p, layer in enumerate(layers[:-1]):
            for state, (cost, _) in layer.items():
                left, window = state
                for k, width in may[p]:
                    if not left[k]:
                        continue
                    total, after = cost, window
                    for half in range(width):
                        total += self.cost(after, k, half) + harm[p + half][k]
                        after = (k, *after[:-1])
                    if total + ahead[p + width] > most:
                        continue
                    then = (*left[:k], left[k] - 1, *left[k + 1:]), after
                    known = layers[p + width].get(then)
                    if known is None or total < known[0]:
                        layers[p + width][then] = total, [(p, k, state)]
                    elif total == known[0]:
                        known[1].append((p, k, state))
        ends = {state: cost + self.cost(state[1], none, 0) for state, (cost, _) in layers[-1].items()}
        best = min(ends.values(), default=most + 1)
        if best > most:
            return None, set()
        rows = set()
        for state, cost in ends.items():
            if cost == best:
                rows |= set(self.back(layers, self.model.size, state))
        return best, rows

    def back(self, layers, p, state):
        if p == 0:
            yield frozenset()
        else:
            for q, k, before in layers[p][state][1]:
                for row in self.back(layers, q, before):
                    yield row | {(q, self.kinds[k])}

    def cost(self, window, k, half):
        """What a kind adds behind those of a window, nearest first; `half` 1 if its pair began there. The
        kind after the last stands for the end of the ribbon on both sides."""
        total, end = 0, len(self.kinds)
        last = window[0]
        if half == 0 and not self.is_ground[k]:
            guards = self.is_fast[last]
            total += guards * self.worth.get("guards", 0)
            alone = self.is_supply[last] and not self.is_ground[window[1]]
            total += alone * self.worth.get("returns", 0)
        if half == 0 and self.is_fast[k] and not self.is_ground[last]:
            total += self.worth.get("guards", 0)
        if k == end:
            return total
        grounds = 0
        for d, other in enumerate(window, 1):
            if other == end:
                break
            if not (half and d == 1):
                total += self.model.weight(d, grounds) * self.loud[k][other]
            grounds += self.is_ground[other]
        return total


def kinds_of(model):
    """Each item's kind: the first of those that are alike to the aims without names."""
    groups, _ = alike(model)
    return {i: i for i in range(len(model.items))} | {i: group[0] for group in groups for i in group}
