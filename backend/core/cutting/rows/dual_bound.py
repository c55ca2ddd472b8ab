"""The dual bound: a cost that no layout is below, proven in whole numbers alone.

Give each size any whole value. Let a row type's *row value* be the most that one of
its rows can hold, by value: found exactly, or never too low. No row is empty, so it
is below nothing where every piece is a loss. All rows of a layout together are then
worth at least the value of all pieces demanded. Where a node holds the number of
some rows at most or at least, whole multiples of that may be taken off or added on
both sides. So a cost for which even the dearest choice of rows is worth less, with
no store overdrawn, is a cost that no layout has. Values and multipliers come from
the duals of the linear programme, but the proof asks nothing of them: poor ones give
a weak bound, never a wrong one.
"""

from ..knapsack import effort_of, solve_knapsack
from .problem import fill_store

MOST_STEPS = 1000
FEW_STEPS = 60  # whole rows seldom prove more than parts of rows: that is worth a short look
FINE = 8192  # the bound found is below what the rows prove by less than this part of it


class DualBound:
    """One bound and what it took.

    Takes: problem; row_values, the most one row of each type holds; total, the value of all pieces.
    Has: effort.
    """

    def __init__(self, problem, row_values, total):
        self.effort = 10
        self.problem = problem
        # what all stores can hold is taken off: the rest must be in rows that are bought
        self.row_values = [
            0 if row_type.store is not None else value
            for row_type, value in zip(problem.row_types, row_values)
        ]
        self.total = total
        for store, capacity in enumerate(problem.stores):
            self.total -= self._from_store(row_values, store, capacity)

    def _from_store(self, row_values, store, capacity):
        rows = [
            (row_values[number], row_type.take, row_type.last)
            for number, row_type in enumerate(self.problem.row_types)
            if row_type.store == store and row_type.pieces
        ]
        _, _, upper, steps = fill_store(capacity, rows, MOST_STEPS)
        self.effort += effort_of(len(rows), steps)
        return upper

    def _knapsack_bound(self, capacity, rows, most_steps, enough):
        _, _, upper, steps = solve_knapsack(capacity, rows, most_steps, enough)
        self.effort += effort_of(len(rows), steps)
        return upper

    def _may_hold_all(self, cost, bought):
        return self._knapsack_bound(cost, bought, FEW_STEPS, self.total) >= self.total

    def least_cost(self, upto):
        """Find a whole cost that no layout is below; `upto` if all below it are out of reach."""
        if self.total <= 0:
            return 0
        bought = []
        for number, row_type in enumerate(self.problem.row_types):
            if row_type.store is None and row_type.pieces:
                most = upto if row_type.most is None else row_type.most
                bought.append((self.row_values[number], row_type.cost, most))
        low, high = _at_best_rate(bought, self.total), upto - 1
        if low >= upto or not self._may_hold_all(high, bought):
            return upto
        # in steps of twice the length, then of half
        leap = 1
        while high - low > low // FINE:
            middle = min(low + leap - 1, (low + high) // 2)
            leap *= 2
            if self._may_hold_all(middle, bought):
                high, leap = middle, high
            else:
                low = middle + 1
        return low


def _at_best_rate(bought, rest):
    # what the rest costs at the best rate of value for cost, in whole costs
    least = None
    for value, cost, most in bought:
        if value > 0 and most:
            own = -(-rest * cost // value)
            if least is None or own < least:
                least = own
    return least or 0
