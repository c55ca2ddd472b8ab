"""The linear programme over fillings of rows: the revised simplex method, columns made as they are wanted.

Least cost of rows, in any parts, such that their fillings hold all pieces
wanted and the numbers of rows of a kind keep within bounds. Rows that are bought
come one by one; a store is used up in one of many ways, or in parts of several.
Its dual values say what a piece of each size is worth; nothing is claimed from
them but what `proof.py` then proves in whole numbers.
Source: Gilmore and Gomory, A linear programming approach to the cutting-stock
problem, Operations Research 9 (1961).
"""

from .columns import Basis, Column, are_alike

SMALL = 1e-9
HAIR = 2e-7
LEAST_PIVOT = 1e-6  # less than that loses too many bits
ASTRAY = 1e-5  # what no row may be off its number by
BLOCK = 32  # columns that are looked at before the best of them is taken
OLDEST = 400  # pivots after which a basis is made anew, for the last bits that each loses
LEFT_OUT = 10.0  # what leaving a piece out costs, in dearest rows


class Master:
    """The programme under certain bounds.

    Takes: plan; scale, the cost that counts as 1; bounds, a list of Bound;
    basis, a Basis to begin with; columns, more that are known.
    Has: pool, [(column, cells)], which may grow; looked, the columns looked at.
    """

    def __init__(self, plan, scale, bounds, basis, columns):
        self.plan = plan
        self.scale = scale
        self.bounds = bounds
        self.sizes = len(plan.wanted)
        self.fixed_rows = self.sizes + len(plan.stores)
        self.right = [float(number) for number in plan.wanted] + [1.0 for _ in plan.stores]
        self.at_least = [True] * self.sizes + [False] * len(plan.stores)
        self.on_rows, self.on_pieces = [], []
        for row, bound in enumerate(bounds):
            (self.on_rows if bound.size is None else self.on_pieces).append((self.fixed_rows + row, bound))
            self.right.append(bound.number / bound.scale)
            self.at_least.append(bound.at_least)
        # all a hair apart, or where many are equal it would turn in a circle
        self.right = [right + HAIR * (1 + row % 7 + row / 64) for row, right in enumerate(self.right)]
        self.at, self.slacks, self.looked = 0, None, 0
        if self.may_resume(basis):
            self._resume(basis.ended)
            self.pool = self._longer(basis.pool, len(basis.ended.right))
        else:
            self._begin(basis.columns)
            self.pool = [(column, self.cells_of(column)) for column, _ in basis.pool]
        for column in columns:
            self.add(column)

    def add(self, column):
        """Take a column into the pool."""
        self.looked += 1 + len(self.bounds) // 4
        self.pool.append((column, self.cells_of(column)))

    def _longer(self, pool, known):
        # with the cells in the rows of new bounds
        for row in range(known, len(self.right)):
            pool = [(column, self._with_row(column, cells, row)) for column, cells in pool]
        return list(pool)

    def _begin(self, columns):
        # a slack for each row, then what was best before
        self.basis = [self._slack(row) for row in range(len(self.right))]
        self.basis_cells = [column.cells for column in self.basis]
        self.inverse = [[0.0] * len(self.right) for _ in self.right]
        for row, column in enumerate(self.basis):
            self.inverse[row][row] = 1.0 / column.cells[0][1]
        self.amounts = [right * line[row] for row, (right, line) in enumerate(zip(self.right, self.inverse))]
        self.worth = self.duals()
        self.age = 0
        for column in columns:
            if column.rows:
                self._enter(column, self.cells_of(column))

    def may_resume(self, basis):
        """Say whether it can go on where another ended."""
        ended = basis.ended
        return ended is not None and ended.age < OLDEST and are_alike(ended.bounds, self.bounds)

    def _resume(self, ended):
        # the very basis that was best before the last bounds came, which they may break
        known, rows = len(ended.right), len(self.right)
        self.age = ended.age
        self.basis, self.basis_cells = list(ended.basis), list(ended.basis_cells)
        self.inverse = [line + [0.0] * (rows - known) for line in ended.inverse]
        self.amounts = list(ended.amounts)
        for row in range(known):
            more = self.right[row] - ended.right[row]
            if more:
                self.amounts = [amount + more * line[row] for amount, line in zip(self.amounts, self.inverse)]
        for row in range(known, rows):
            self._add_line(row, known)
        # what a new bound has to spare costs nothing
        self.worth = ended.worth + [0.0] * (rows - known)

    def _add_line(self, row, known):
        # what a new bound has to spare, below nothing where it is broken
        sign = -1.0 if self.at_least[row] else 1.0
        line, amount = [0.0] * len(self.right), sign * self.right[row]
        for place in range(known):
            cells = self._with_row(self.basis[place], self.basis_cells[place], row)
            if cells is not self.basis_cells[place]:
                self.basis_cells[place] = cells
                factor = sign * cells[-1][1]
                amount -= factor * self.amounts[place]
                line = [value - factor * other for value, other in zip(line, self.inverse[place])]
        line[row] = sign
        self.inverse.append(line)
        self.amounts.append(amount)
        self.basis.append(Column([], (), [(row, sign)], 0.0))
        self.basis_cells.append(self.basis[-1].cells)

    def _with_row(self, column, cells, row):
        # cells with that in the row of a bound, if there is one
        bound = self.bounds[row - self.fixed_rows]
        cell = bound.rows_in(column.rows) if bound.size is None else bound.pieces_in(column.rows)
        return cells + [(row, cell / bound.scale)] if cell else cells

    def cost(self):
        """Add up what is found and what is left out, in parts of the scale."""
        total = 0.0
        for column, amount in zip(self.basis, self.amounts):
            total += column.cost * amount
        return total

    def settle(self):
        """Make the basis anew if too many last bits were lost on the way; returns whether that was so."""
        short = list(self.right)
        for cells, amount in zip(self.basis_cells, self.amounts):
            for row, cell in cells:
                short[row] -= cell * amount
        if max(short) < ASTRAY and min(short) > -ASTRAY:
            return False
        self._begin(self.basis)
        return True

    def ended(self, gain, known):
        """Tell where it ended, for a programme with more bounds to go on from.

        Takes: gain, a cost: columns that would cost more than that are let go; known,
        how many columns there are.
        """
        pool = []
        for column, cells in self.pool:
            less = column.cost - gain
            for row, cell in cells:
                less -= cell * self.worth[row]
            if less <= 0:
                pool.append((column, cells))
        self.pool, self.slacks = pool, None
        return Basis(self.basis, pool, known, self)

    def _slack(self, row):
        # leaving something out where the row is not held without it
        if self.at_least[row]:
            return Column([], (), [(row, 1.0)], LEFT_OUT)
        return Column([], (), [(row, 1.0)], 0.0)

    def cells_of(self, column):
        """List the cells of a column, those in the rows of bounds with it."""
        if not column.rows or not self.bounds:
            return column.cells
        cells = list(column.cells)
        for row, bound in self.on_rows:
            cell = bound.rows_in(column.rows)
            if cell:
                cells.append((row, cell / bound.scale))
        for row, bound in self.on_pieces:
            cell = bound.pieces_in(column.rows)
            if cell:
                cells.append((row, float(cell)))
        return cells

    def duals(self):
        """Work out anew what one more in each row of the programme would cost."""
        worth = [0.0] * len(self.right)
        for place, column in enumerate(self.basis):
            cost = column.cost
            if cost:
                worth = [value + cost * cell for value, cell in zip(worth, self.inverse[place])]
        return worth

    def restore(self):
        """Bring in a column for the bound that is broken most, at least cost; false where none is broken."""
        out, least = -1, -SMALL
        for place, amount in enumerate(self.amounts):
            if amount < least:
                out, least = place, amount
        if out < 0:
            return False
        column, cells = self._cheapest_for(self.inverse[out])
        if column is None or self.age > 2 * OLDEST:
            self._begin(self.basis)
        else:
            self._exchange(column, cells, out, self._change(cells))
        return True

    def _cheapest_for(self, line):
        # of the columns that make up for what is broken
        best, best_cells, ratio, most, worth = None, None, 0.0, 0.0, self.worth
        if self.slacks is None:
            self.slacks = [way for row in range(len(line)) for way in self._slacks(row)]
        self.looked += len(self.pool)
        for column, cells in self.slacks + self.pool:
            rate = 0.0
            for row, cell in cells:
                rate -= line[row] * cell
            if rate > LEAST_PIVOT:
                less = column.cost
                for row, cell in cells:
                    less -= cell * worth[row]
                new = max(0.0, less) / rate
                if best is None or new < ratio or (new == ratio and rate > most):
                    best, best_cells, ratio, most = column, cells, new, rate
        return best, best_cells

    def _slacks(self, row):
        # ways to break the row's balance: something left out, given back or left free
        ways = [self._slack(row)]
        if self.at_least[row]:
            ways.append(Column([], (), [(row, -1.0)], 0.0))
        return [(column, column.cells) for column in ways]

    def pivot(self):
        """Bring in a column that gains, the most of some that are looked at; false where there is none."""
        best, best_cells, gain, worth = None, None, -1e-7, self.worth
        for row, value in enumerate(worth):
            # giving some back, or leaving some free
            less = value if self.at_least[row] else -value
            if less < gain:
                best, gain = Column([], (), [(row, -1.0 if self.at_least[row] else 1.0)], 0.0), less
                best_cells = best.cells
        scanned, at, known = 0, self.at, len(self.pool)
        while scanned < known and (best is None or scanned % BLOCK):
            scanned += 1
            at = at + 1 if at + 1 < known else 0
            column, cells = self.pool[at]
            less = column.cost
            for row, cell in cells:
                less -= cell * worth[row]
            if less < gain:
                best, best_cells, gain = column, cells, less
        self.at = at
        self.looked += scanned
        return best is not None and self._enter(best, best_cells)

    def _enter(self, column, cells):
        change = self._change(cells)
        out, least = -1, 0.0
        for place, rate in enumerate(change):
            if rate > SMALL:
                ratio = self.amounts[place] / rate
                if out < 0 or ratio < least - SMALL or (ratio < least + SMALL and rate > change[out]):
                    out, least = place, ratio
        if out < 0:
            return False
        self._exchange(column, cells, out, change)
        return True

    def _exchange(self, column, cells, out, change):
        # bring the column in for what is out
        pivot = change[out]
        line = [cell / pivot for cell in self.inverse[out]]
        self.inverse[out] = line
        self.amounts[out] /= pivot
        held = self.amounts[out]
        for place, factor in enumerate(change):
            if place != out and factor:
                self.inverse[place] = [cell - factor * own for cell, own in zip(self.inverse[place], line)]
                self.amounts[place] -= factor * held
                if -HAIR < self.amounts[place] < 0:
                    self.amounts[place] = 0.0
        self.basis[out], self.basis_cells[out] = column, cells
        gain = column.cost
        for row, cell in cells:
            gain -= cell * self.worth[row]
        self.worth = [value + gain * cell for value, cell in zip(self.worth, line)]
        self.age += 1

    def _change(self, cells):
        # what one of a column changes in the amounts
        change = []
        for line in self.inverse:
            moved = 0.0
            for row, cell in cells:
                moved += line[row] * cell
            change.append(moved)
        return change
