"""What a piece of each size should be charged, so that none is wanted more than there is.

Lagrangian relaxation of the quantities: with a price on each piece of a size, and
what all of them cost given back, the dearest layout of any quantities bounds every
layout within them. Prices follow what the layout takes too much or too little of
(subgradients; Held, Wolfe and Crowder 1974), in steps that aim a little below the
lowest bound so far; that bound and its prices are kept. The layout less what it
takes too much of is a layout within the quantities.
"""

from ..rounding import half_up

PATIENCE = 4
AIM = 0.05


class QuantityPrices:
    """The rounds of prices, resumable.

    Takes: make, a function of [worth of each piece] that returns Worths to be
    worked out; pieces, [(point across, point along, worth, size)]; limits, the
    most of each size, None for any; scale, parts of a unit of worth; most_rounds;
    trial, the prices to begin with.
    `bound` is the lowest bound so far in whole units, None at first, `prices`
    what gave it, `worth` and `best` the best layout within the quantities.
    """

    def __init__(self, make, pieces, limits, scale, most_rounds, trial=None):
        self.make, self.pieces, self.limits, self.scale = make, pieces, limits, scale
        self.most_rounds = most_rounds
        self.trial = trial or [0] * len(limits)
        self.prices, self.lowest, self.bound = self.trial, None, None
        self.worth, self.best = 0, None
        self.rounds, self.pace, self.idle = 0, 1.0, 0
        self.done = False
        self._begin()

    def _begin(self):
        worths = [worth * self.scale - self.trial[size] for _, _, worth, size in self.pieces]
        self.worths = self.make([max(worth, 0) for worth in worths])

    def advance(self):
        """Go on by a line or a round; returns the steps that took."""
        steps = self.worths.advance()
        if self.worths.done:
            self._end_round()
        return steps

    def _end_round(self):
        total = self.worths.best()
        for size, most in enumerate(self.limits):
            if most:
                total += self.trial[size] * most
        made = self._named(self.worths.trace())
        taken, worth = self._held_back(made)
        if worth > self.worth:
            self.worth, self.best = worth, made
        self.idle += 1
        if self.lowest is None or total < self.lowest:
            self.lowest, self.prices, self.idle = total, self.trial, 0
            self.bound = total // self.scale
        self.rounds += 1
        if self.idle == PATIENCE:
            self.pace, self.idle = self.pace / 2, 0
        over = [self._over(size, taken) for size in range(len(self.limits))]
        square = 0
        for one in over:
            square += one * one
        self.done = self.bound <= self.worth or self.rounds >= self.most_rounds or square == 0
        if not self.done:
            self._charge(over, square, total)
            self._begin()

    def _over(self, size, taken):
        most = self.limits[size]
        if most is None or taken[size] < most and self.trial[size] == 0:
            return 0
        return taken[size] - most

    def _charge(self, over, square, total):
        step = self.pace * (total - self.lowest + AIM * self.lowest) / square
        self.trial = [max(0, price + half_up(step * one)) for price, one in zip(self.trial, over)]

    def _named(self, made):
        # the points of a piece → the piece that is worth most there
        dearest = {}
        for across, along, worth, size in self.pieces:
            own = worth * self.scale - self.trial[size]
            spot = (across, along)
            if spot not in dearest or own > dearest[spot][0]:
                dearest[spot] = (own, size)
        return relabelled(made, lambda across, along: (across, along, dearest[(across, along)][1]))

    def _held_back(self, made):
        # how many of each size a layout takes; what those within the limits are worth
        taken, worth = [0] * len(self.limits), 0
        own = {}
        for across, along, value, size in self.pieces:
            own[(across, along, size)] = value
        for leaf in leaves(made):
            most = self.limits[leaf[2]]
            if most is None or taken[leaf[2]] < most:
                worth += own[leaf]
            taken[leaf[2]] += 1
        return taken, worth


def leaves(made):
    """List the pieces of what was traced, in the order in which they lie."""
    found, waiting = [], [made]
    while waiting:
        part = waiting.pop()
        if part is not None and isinstance(part[1], list):
            waiting += reversed(part[1])
        elif part is not None:
            found.append(part)
    return found


def relabelled(made, name):
    """Copy what was traced with each piece named anew."""
    top = [None]
    waiting = [(made, top, 0)]
    while waiting:
        part, owner, place = waiting.pop()
        if part is None:
            continue
        if not isinstance(part[1], list):
            owner[place] = name(part[0], part[1])
            continue
        inner = [None] * len(part[1])
        owner[place] = (part[0], inner)
        waiting += [(one, inner, index) for index, one in enumerate(part[1])]
    return top[0]
