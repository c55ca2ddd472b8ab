"""The linear programme of what a cloth's length is best used for, in any parts.

A column uses up a part of the length and holds so many of each size; what is left out of
a size costs what it is worth. So the duals say what one more of each size is worth, and one
more of the length (Gilmore and Gomory 1961); `rows/simplex.py` solves it.
"""

from ..rows.columns import Column, WarmStart
from ..rows.problem import Problem
from ..rows.simplex import RestrictedMaster

LEAST_GAIN = 1e-6  # a column that gains less, of the dearest size's value, gains nothing
VALUE_OF_ALL = 268435456  # in whole numbers that small, patterns are compared
A_CELL = 8  # cells of the basis that are as much work as a step


class PricedLength:
    """The programme over columns, resumable.

    Takes: values and demand, of each size, the demand above 0.
    `duals` are the worth of one more of each size, at last of all of the length, in the
    dearest size's value.
    """

    def __init__(self, values, demand):
        self.sizes = len(values)
        self.dearest = max(values)
        self.demand = demand
        left_out = [
            Column((None,), (), [(size, 1.0)], value / self.dearest) for size, value in enumerate(values)
        ]
        self.master = RestrictedMaster(Problem(demand, [], [1], []), 1, [], WarmStart([]), left_out)
        self.steps = 0

    def add(self, pattern, amounts, share):
        """Take a column into the programme if it gains something; returns whether it does.

        Takes: pattern, what it stands for; amounts, {size: how many}; share, of the length.
        """
        cells = [(size, float(amounts[size])) for size in range(self.sizes) if size in amounts]
        cells.append((self.sizes, share))
        gain = self.duals[self.sizes] * share
        for size, amount in cells[:-1]:
            gain += amount * self.duals[size]
        if gain < LEAST_GAIN:
            return False
        self.master.add(Column((pattern,), (), cells, 0.0))
        return True

    def pivot(self):
        """Bring in one column; returns whether there was any to bring in."""
        master = self.master
        seen, rows = master.columns_seen, len(master.rhs)
        gained = master.pivot() or master.refactorise()
        self.steps = 8 * rows + rows * rows // A_CELL + 8 * (master.columns_seen - seen)
        if not gained:
            self.duals = master.duals = master.compute_duals()
        return gained

    def whole_values(self):
        """Tell the duals as whole numbers, and how many there are of them in the dearest size's value."""
        total = 0.0
        for dual, count in zip(self.duals, self.demand):
            total += max(0.0, dual) * count
        parts = VALUE_OF_ALL / total if total > 0 else 1.0
        return [int(max(0.0, dual) * parts) for dual in self.duals[: self.sizes]], parts

    def amounts(self):
        """List what is used: [(amount, pattern)]."""
        found = []
        for column, amount in zip(self.master.basis, self.master.amounts):
            if column.runs and column.runs[0] is not None:
                found.append((amount, column.runs[0]))
        return found
