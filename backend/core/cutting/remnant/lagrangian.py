"""Lagrangian relaxation of the quantities: multipliers such that no size is wanted more than there is.

With a multiplier charged for each piece of a size, and what all of them cost given
back, the dearest layout of any quantities bounds every layout within them. Multipliers
follow what the layout takes too much or too little of (subgradients; Held, Wolfe and
Crowder 1974), in steps that aim a little below the lowest bound so far; that bound and
its multipliers are kept. The layout less what it takes too much of is a layout within
the quantities.
"""

from ...numbers.rounding import half_up

PATIENCE = 4
AIM = 0.05
HARDLY = 1024  # a bound lower by less than such a part of it is hardly lower
SHORTEST = 0.03125  # a step that is shorter moves nothing worth the round


class Lagrangian:
    """The rounds of multipliers, resumable.

    Takes: make_programme, a function of [value of each piece] that returns a dynamic
    programme to be worked out; pieces, [(point across, point along, value, size)]; limits,
    the most of each size, None for any; scale, parts of a unit of value; most_rounds;
    trial, the multipliers to begin with.
    `bound` is the lowest bound so far in whole units, None at first, `multipliers`
    what gave it, `value` and `best` the best layout within the quantities.
    """

    def __init__(self, make_programme, pieces, limits, scale, most_rounds, trial=None):
        self.make_programme, self.pieces, self.limits, self.scale = make_programme, pieces, limits, scale
        self.most_rounds = most_rounds
        self.trial = trial or [0] * len(limits)
        self.multipliers, self.lowest, self.bound = self.trial, None, None
        self.value, self.best = 0, None
        self.rounds, self.step_size, self.idle = 0, 1.0, 0
        self.done = False
        self._begin()

    def _begin(self):
        values = [value * self.scale - self.trial[size] for _, _, value, size in self.pieces]
        self.programme = self.make_programme([max(value, 0) for value in values])

    def advance(self):
        """Go on by a line or a round; returns the steps that took."""
        steps = self.programme.advance()
        if self.programme.done:
            self._end_round()
        return steps

    def _end_round(self):
        total = self.programme.best()
        for size, most in enumerate(self.limits):
            if most:
                total += self.trial[size] * most
        tree = self._named(self.programme.trace())
        taken, value = self._within_limits(tree)
        if value > self.value:
            self.value, self.best = value, tree
        self.idle += 1
        if self.lowest is None or total < self.lowest:
            if self.lowest is None or total < self.lowest - self.lowest // HARDLY:
                self.idle = 0
            self.lowest, self.multipliers = total, self.trial
            self.bound = total // self.scale
        self.rounds += 1
        if self.idle == PATIENCE:
            self.step_size, self.idle = self.step_size / 2, 0
        subgradient = [self._subgradient(size, taken) for size in range(len(self.limits))]
        square = 0
        for one in subgradient:
            square += one * one
        ended = self.bound <= self.value or self.rounds >= self.most_rounds or square == 0
        self.done = ended or self.step_size < SHORTEST
        if not self.done:
            self._move(subgradient, square, total)
            self._begin()

    def _subgradient(self, size, taken):
        most = self.limits[size]
        if most is None or taken[size] < most and self.trial[size] == 0:
            return 0
        return taken[size] - most

    def _move(self, subgradient, square, total):
        step = self.step_size * (total - self.lowest + AIM * self.lowest) / square
        self.trial = [max(0, trial + half_up(step * one)) for trial, one in zip(self.trial, subgradient)]

    def _named(self, tree):
        # the points of a piece → the piece that is worth most there
        dearest = {}
        for across, along, value, size in self.pieces:
            own = value * self.scale - self.trial[size]
            spot = (across, along)
            if spot not in dearest or own > dearest[spot][0]:
                dearest[spot] = (own, size)
        return with_pieces_named(tree, lambda across, along: (across, along, dearest[(across, along)][1]))

    def _within_limits(self, tree):
        # how many of each size a layout takes; what those within the limits are worth
        taken, total = [0] * len(self.limits), 0
        own = {}
        for across, along, value, size in self.pieces:
            own[(across, along, size)] = value
        for leaf in leaves(tree):
            most = self.limits[leaf[2]]
            if most is None or taken[leaf[2]] < most:
                total += own[leaf]
            taken[leaf[2]] += 1
        return taken, total


def leaves(tree):
    """List the pieces of a traced layout, in the order in which they lie."""
    found, waiting = [], [tree]
    while waiting:
        part = waiting.pop()
        if part is not None and isinstance(part[1], list):
            waiting += reversed(part[1])
        elif part is not None:
            found.append(part)
    return found


def with_pieces_named(tree, name):
    """Copy a traced layout with each piece named anew."""
    top = [None]
    waiting = [(tree, top, 0)]
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
