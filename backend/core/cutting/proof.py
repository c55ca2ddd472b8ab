"""The proof of a bound, in whole numbers alone.

Give each size any whole worth. Let a kind's *reach* be the most that one of its
rows can hold, by worth: found exactly, or never too low. No row is empty, so a
reach is below nothing where every piece is a loss. All rows of a layout
then reach at least the worth of all pieces wanted. Where a branch holds the
number of some rows at most or at least, whole weights for that may be taken off
or added on both sides. So a cost for which even the dearest choice of rows
reaches less, with no store overdrawn, is a cost that no layout has. Worths and
weights come from the linear programme, but the proof asks nothing of them: poor
ones give a weak bound, never a wrong one.
"""

from .fullest import fullest

MOST_STEPS = 1000
FEW_STEPS = 60  # whole rows seldom prove more than parts of rows: that is worth a short look
FINE = 8192  # the bound found is below what the rows prove by less than this part of it


class Proof:
    """One bound and what it took.

    Takes: plan; reaches, the most one row of each kind holds; total, the worth of all pieces.
    Has: effort.
    """

    def __init__(self, plan, reaches, total):
        self.effort = 10
        self.plan = plan
        # what all stores can reach is taken off: the rest must be reached by rows that are bought
        self.reaches = [0 if kind.store is not None else reach for kind, reach in zip(plan.kinds, reaches)]
        self.total = total
        for store, room in enumerate(plan.stores):
            self.total -= self._from_store(reaches, store, room)

    def _from_store(self, reaches, store, room):
        rows = [
            (reaches[number], kind.take, room if kind.most is None else kind.most)
            for number, kind in enumerate(self.plan.kinds)
            if kind.store == store and kind.pieces
        ]
        return self._most(room, rows, MOST_STEPS, None)

    def _most(self, room, rows, most_steps, enough):
        _, _, upper, steps = fullest(room, rows, most_steps, enough)
        self.effort += 1 + steps // 16
        return upper

    def _in_reach(self, cost, bought):
        return self._most(cost, bought, FEW_STEPS, self.total) >= self.total

    def least_cost(self, upto):
        """Find a whole cost that no layout is below; `upto` if all below it are out of reach."""
        if self.total <= 0:
            return 0
        bought = []
        for number, kind in enumerate(self.plan.kinds):
            if kind.store is None and kind.pieces:
                bought.append((self.reaches[number], kind.cost, upto if kind.most is None else kind.most))
        low, high = _at_best_rate(bought, self.total), upto - 1
        if low >= upto or not self._in_reach(high, bought):
            return upto
        # in steps of twice the length, then of half
        leap = 1
        while high - low > low // FINE:
            middle = min(low + leap - 1, (low + high) // 2)
            leap *= 2
            if self._in_reach(middle, bought):
                high, leap = middle, high
            else:
                low = middle + 1
        return low


def _at_best_rate(bought, rest):
    # what the rest costs at the best rate of reach for cost, in whole costs
    least = None
    for reach, cost, most in bought:
        if reach > 0 and most:
            part = -(-rest * cost // reach)
            if least is None or part < least:
                least = part
    return least or 0
