"""The restricted master of column generation, by the revised simplex method.

Least cost of rows, in any parts, such that their patterns hold the demand and the
constraints of a node are kept. A column is one row that is bought, or one way to use
up a store, of which parts of several may be taken. The duals say what a piece of each
size is worth; nothing is claimed from them but what `dual_bound.py` then proves in
whole numbers.
Source: Gilmore and Gomory, A linear programming approach to the cutting-stock
problem, Operations Research 9 (1961).
"""

from .columns import Column, WarmStart, only_tightened

EPSILON = 1e-9  # a rate, a ratio's lead or a broken row of less is none
PERTURBATION = 2e-7  # of each right side, or where many are equal it would turn in a circle
LEAST_REDUCED_COST = -1e-7  # above that a column gains nothing
LEAST_PIVOT = 1e-6  # less than that loses too many bits
LARGEST_RESIDUAL = 1e-5  # what no row may be off its right side by
BLOCK = 32  # columns that are looked at before the best of them is taken
OLDEST = 400  # pivots after which a basis is made anew, for the last bits that each loses
PENALTY = 10.0  # what leaving a piece out costs, in dearest rows


class RestrictedMaster:
    """The linear programme over the columns known, under the constraints of a node.

    Takes: problem; scale, the cost that counts as 1; constraints, a list of Constraint;
    start, a WarmStart; columns, more that are known.
    Has: pool, [(column, cells)], which may grow; duals; columns_seen, how many were looked at.
    """

    def __init__(self, problem, scale, constraints, start, columns):
        self.problem = problem
        self.scale = scale
        self.constraints = constraints
        self.sizes = len(problem.demand)
        self.fixed_rows = self.sizes + len(problem.stores)
        self.rhs = [float(number) for number in problem.demand] + [1.0 for _ in problem.stores]
        self.at_least = [True] * self.sizes + [False] * len(problem.stores)
        self.on_rows, self.on_pieces = [], []
        for row, constraint in enumerate(constraints):
            kept = self.on_rows if constraint.size is None else self.on_pieces
            kept.append((self.fixed_rows + row, constraint))
            self.rhs.append(constraint.rhs / constraint.scale)
            self.at_least.append(constraint.at_least)
        self.rhs = [rhs + PERTURBATION * (1 + row % 7 + row / 64) for row, rhs in enumerate(self.rhs)]
        self.at, self.slacks, self.columns_seen = 0, None, 0
        if self._can_resume(start.master):
            self._resume(start.master)
            self.pool = self._longer(start.pool, len(start.master.rhs))
        else:
            self._begin(start.columns)
            self.pool = [(column, self.cells_of(column)) for column, _ in start.pool]
        for column in columns:
            self.add(column)

    def add(self, column):
        """Take a column into the pool."""
        self.columns_seen += 1 + len(self.constraints) // 4
        self.pool.append((column, self.cells_of(column)))

    def _longer(self, pool, known):
        # with the cells in the rows of new constraints
        for row in range(known, len(self.rhs)):
            pool = [(column, self._with_row(column, cells, row)) for column, cells in pool]
        return list(pool)

    def _begin(self, columns):
        # a slack for each row, then what was best before
        self.basis = [self._slack(row) for row in range(len(self.rhs))]
        self.basis_cells = [column.cells for column in self.basis]
        self.inverse = [[0.0] * len(self.rhs) for _ in self.rhs]
        for row, column in enumerate(self.basis):
            self.inverse[row][row] = 1.0 / column.cells[0][1]
        self.amounts = [rhs * line[row] for row, (rhs, line) in enumerate(zip(self.rhs, self.inverse))]
        self.duals = self.compute_duals()
        self.age = 0
        for column in columns:
            if column.runs:
                self._enter(column, self.cells_of(column))

    def _can_resume(self, ended):
        if ended is None or ended.is_old():
            return False
        return only_tightened(ended.constraints, self.constraints)

    def is_old(self):
        """Say whether so many pivots led here that a basis made anew is the better start."""
        return self.age >= OLDEST

    def _resume(self, ended):
        # the very basis that was best before the last constraints came, which they may break
        known, rows = len(ended.rhs), len(self.rhs)
        self.age = ended.age
        self.basis, self.basis_cells = list(ended.basis), list(ended.basis_cells)
        self.inverse = [line + [0.0] * (rows - known) for line in ended.inverse]
        self.amounts = list(ended.amounts)
        for row in range(known):
            more = self.rhs[row] - ended.rhs[row]
            if more:
                self.amounts = [amount + more * line[row] for amount, line in zip(self.amounts, self.inverse)]
        for row in range(known, rows):
            self._add_line(row, known)
        # what a new constraint has to spare costs nothing
        self.duals = ended.duals + [0.0] * (rows - known)

    def _add_line(self, row, known):
        # the slack of a new constraint, below nothing where it is broken
        sign = -1.0 if self.at_least[row] else 1.0
        line, amount = [0.0] * len(self.rhs), sign * self.rhs[row]
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
        # cells with that in the row of a constraint, if there is one
        constraint = self.constraints[row - self.fixed_rows]
        if constraint.size is None:
            cell = constraint.weight_of(column.runs)
        else:
            cell = constraint.pieces_in(column.runs)
        return cells + [(row, cell / constraint.scale)] if cell else cells

    def cost(self):
        """Add up what is found and what is left out, in parts of the scale."""
        total = 0.0
        for column, amount in zip(self.basis, self.amounts):
            total += column.cost * amount
        return total

    def refactorise(self):
        """Make the basis anew if too many last bits were lost on the way; returns whether that was so."""
        short = list(self.rhs)
        for cells, amount in zip(self.basis_cells, self.amounts):
            for row, cell in cells:
                short[row] -= cell * amount
        if max(short) < LARGEST_RESIDUAL and min(short) > -LARGEST_RESIDUAL:
            return False
        self._begin(self.basis)
        return True

    def warm_start(self, gain, known):
        """Tell where it ended, for a programme with more constraints to go on from.

        Takes: gain, a cost: columns that would cost more than that are let go; known,
        how many columns there are.
        """
        pool = []
        for column, cells in self.pool:
            reduced_cost = column.cost - gain
            for row, cell in cells:
                reduced_cost -= cell * self.duals[row]
            if reduced_cost <= 0:
                pool.append((column, cells))
        self.pool, self.slacks = pool, None
        return WarmStart(self.basis, pool, known, self)

    def _slack(self, row):
        # leaving something out where the row is not held without it
        if self.at_least[row]:
            return Column([], (), [(row, 1.0)], PENALTY)
        return Column([], (), [(row, 1.0)], 0.0)

    def cells_of(self, column):
        """List the cells of a column, those in the rows of constraints with it."""
        if not column.runs or not self.constraints:
            return column.cells
        cells = list(column.cells)
        for row, constraint in self.on_rows:
            cell = constraint.weight_of(column.runs)
            if cell:
                cells.append((row, cell / constraint.scale))
        for row, constraint in self.on_pieces:
            cell = constraint.pieces_in(column.runs)
            if cell:
                cells.append((row, float(cell)))
        return cells

    def compute_duals(self):
        """Work out anew what one more in each row of the programme would cost."""
        duals = [0.0] * len(self.rhs)
        for place, column in enumerate(self.basis):
            cost = column.cost
            if cost:
                duals = [value + cost * cell for value, cell in zip(duals, self.inverse[place])]
        return duals

    def dual_pivot(self):
        """Bring in a column for the row that is broken most, at least cost; false where none is broken."""
        out, least = -1, -EPSILON
        for place, amount in enumerate(self.amounts):
            if amount < least:
                out, least = place, amount
        if out < 0:
            return False
        column, cells = self._entering_for(self.inverse[out])
        if column is None or self.age > 2 * OLDEST:
            self._begin(self.basis)
        else:
            self._exchange(column, cells, out, self._direction(cells))
        return True

    def _entering_for(self, line):
        # the ratio test of the dual simplex method: of the columns that make up for what is broken
        best, best_cells, ratio, most, duals = None, None, 0.0, 0.0, self.duals
        if self.slacks is None:
            self.slacks = [way for row in range(len(line)) for way in self._slacks(row)]
        self.columns_seen += len(self.pool)
        for column, cells in self.slacks + self.pool:
            rate = 0.0
            for row, cell in cells:
                rate -= line[row] * cell
            if rate > LEAST_PIVOT:
                reduced_cost = column.cost
                for row, cell in cells:
                    reduced_cost -= cell * duals[row]
                new = max(0.0, reduced_cost) / rate
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
        """Bring in the column of least reduced cost of some; false where none of all is below nothing."""
        best, best_cells, least, duals = None, None, LEAST_REDUCED_COST, self.duals
        for row, value in enumerate(duals):
            # giving some back, or leaving some free
            reduced_cost = value if self.at_least[row] else -value
            if reduced_cost < least:
                best, least = Column([], (), [(row, -1.0 if self.at_least[row] else 1.0)], 0.0), reduced_cost
                best_cells = best.cells
        scanned, at, known = 0, self.at, len(self.pool)
        while scanned < known and (best is None or scanned % BLOCK):
            scanned += 1
            at = at + 1 if at + 1 < known else 0
            column, cells = self.pool[at]
            reduced_cost = column.cost
            for row, cell in cells:
                reduced_cost -= cell * duals[row]
            if reduced_cost < least:
                best, best_cells, least = column, cells, reduced_cost
        self.at = at
        self.columns_seen += scanned
        return best is not None and self._enter(best, best_cells)

    def _enter(self, column, cells):
        # the ratio test: out goes what is used up first
        direction = self._direction(cells)
        out, least = -1, 0.0
        for place, rate in enumerate(direction):
            if rate > EPSILON:
                ratio = self.amounts[place] / rate
                if out < 0 or ratio < least - EPSILON or (ratio < least + EPSILON and rate > direction[out]):
                    out, least = place, ratio
        if out < 0:
            return False
        self._exchange(column, cells, out, direction)
        return True

    def _exchange(self, column, cells, out, direction):
        # bring the column in for what is out
        pivot = direction[out]
        line = [cell / pivot for cell in self.inverse[out]]
        self.inverse[out] = line
        self.amounts[out] /= pivot
        entering = self.amounts[out]
        for place, factor in enumerate(direction):
            if place != out and factor:
                self.inverse[place] = [cell - factor * own for cell, own in zip(self.inverse[place], line)]
                self.amounts[place] -= factor * entering
                if -PERTURBATION < self.amounts[place] < 0:
                    self.amounts[place] = 0.0
        self.basis[out], self.basis_cells[out] = column, cells
        reduced_cost = column.cost
        for row, cell in cells:
            reduced_cost -= cell * self.duals[row]
        self.duals = [value + reduced_cost * cell for value, cell in zip(self.duals, line)]
        self.age += 1

    def _direction(self, cells):
        # what one of a column changes in the amounts
        direction = []
        for line in self.inverse:
            moved = 0.0
            for row, cell in cells:
                moved += line[row] * cell
            direction.append(moved)
        return direction
