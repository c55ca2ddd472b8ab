"""A bound on any layout: along no line across the cloth lies more than fits side by side.

Give each size any value, spread evenly over a strip's height. Then a line across the cloth
is worth no more than the best pattern of its width, and the cloth no more than its length of
those, and for each strip what it is worth above that value. Values come from the linear
programme over such patterns, *bars*; the bound is made of them in whole numbers.
Source: Belov, Kartak, Rohling and Scheithauer, One-dimensional relaxations and LP bounds
for orthogonal packing, International Transactions in Operational Research 16 (2009), on bars.
"""

from ..knapsack import solve_knapsack
from .priced import PricedLength

MOST_STEPS = 1000
CLOSE = 1e-12


class Bars:
    """The bound by lines across, resumable.

    Takes: cloth, sizes and limits, as `Solver` does; most_steps.
    Has: `bound`, None until it is known first.
    """

    def __init__(self, cloth, sizes, limits, most_steps):
        self.cloth, self.most_steps, self.taken = cloth, most_steps, 0
        kinds, self.values, self.demand, self.lying = kinds_of(cloth, sizes, limits)
        self.bound = None
        self.ended = not kinds
        if kinds:
            self.highest = max([one[1] for one in self.lying])
            self.programme = PricedLength(self.values, self.demand)

    def done(self):
        """Say whether nothing is left to do."""
        return self.ended

    def advance(self):
        """Go on by a pivot or a pricing; returns the steps that took."""
        if self.programme.pivot():
            steps = self.programme.steps
        else:
            steps = self.programme.steps + self._price()
        self.taken += steps
        self.ended = self.ended or self.taken >= self.most_steps
        return steps

    def _price(self):
        values, parts = self.programme.whole_values()
        # the value of a line across, over the highest strip's height, rounded up
        items = [
            (-(-values[kind] * self.highest // high), wide, self.demand[kind])
            for wide, high, kind, _ in self.lying
        ]
        _, counts, upper, steps = solve_knapsack(self.cloth[0], items, MOST_STEPS)
        self._prove(values, parts / self.programme.dearest, upper)
        amounts = {}
        for (_, high, kind, _), count in zip(self.lying, counts):
            if count:
                amounts[kind] = amounts.get(kind, 0.0) + count * float(self.cloth[1]) / high
        self.ended = not self.programme.add(True, amounts, 1.0)
        return steps_of(items, steps)

    def _prove(self, values, parts, upper):
        total = float(upper) * self.cloth[1] / self.highest
        for own, value, count in zip(self.values, values, self.demand):
            total += max(0.0, own * parts * (1 + CLOSE) - value) * count
        bound = int(total / parts * (1 + CLOSE) + 1e-6)
        self.bound = bound if self.bound is None else min(self.bound, bound)


def kinds_of(cloth, sizes, limits):
    """Number the sizes of which a strip may lie on the cloth.

    Returns: (sizes by number; the value of each; how many there can be of it at most;
    ways to lie, [(units across, units along, number, turned)]).
    """
    kinds, values, demand, lying = [], [], [], []
    for across, along, value, size, turned in sizes:
        if limits[size] == 0:
            continue
        if size not in kinds:
            kinds.append(size)
            values.append(value)
            most = int(float(cloth[0]) * cloth[1] / (float(across) * along) * (1 + CLOSE))
            demand.append(most if limits[size] is None else min(most, limits[size]))
        lying.append((across, along, kinds.index(size), turned))
    return kinds, values, demand, lying


def steps_of(items, steps):
    """Estimate the steps of a knapsack: of putting its items in order, and of its search."""
    return 4 + 4 * len(items) + len(items) * len(items) // 16 + 4 * steps
