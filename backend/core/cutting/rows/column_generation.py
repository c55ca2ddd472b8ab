"""Column generation: the linear programme solved to the end, its columns made as they are wanted.

Each round solves the restricted master, then for each row type the pricing problem, a
knapsack: the pattern of most value by the duals. One of negative reduced cost becomes a
column; where there is none, the programme is solved.
"""

from ..knapsack import effort_of
from .columns import column_of
from .constraints import with_constraints
from .problem import PatternRun, fill_store
from .simplex import RestrictedMaster

VALUE_OF_ALL = 268435456  # keeps the whole numbers of the proof small on the phone
FINER = 4194304  # so much finer the whole numbers are where a bound hangs on their rounding
MOST_STEPS = 3000
MOST_PIVOTS = 6
A_STEP = 24  # columns looked at that are as much work as a step
TOLERANCE = 1e-5  # a reduced cost or an amount of less is none


class ColumnPool:
    """All columns known so far, each once.

    Takes: cost_scale, the cost that counts as 1 in the linear programme.
    """

    def __init__(self, cost_scale):
        self.cost_scale = cost_scale
        self.columns = []
        self.known = {}

    def add(self, runs, sizes):
        """Keep rows that are taken together; returns their column."""
        key = ()
        for run in runs:
            key += (run.type_number, run.times) + tuple(run.counts)
            if run.row_type.napped:
                key += tuple([run.row_type.turned(size) for size in range(sizes)])
        if key not in self.known:
            self.known[key] = column_of(runs, sizes, self.cost_scale)
            self.columns.append(self.known[key])
        return self.known[key]


class ColumnGeneration:
    """The linear programme of a problem under constraints, a pivot or the pricing of a family at a time.

    Takes: usable, a function that says whether a known column may be used; start, a WarmStart.
    Has, once `step` returns true: master; values, the duals of pieces in whole numbers;
    multipliers, how often each constraint is taken; row_values, for `dual_bound.py`.
    """

    def __init__(self, problem, pool, constraints, start, usable):
        self.problem = problem
        self.pool = pool
        start = start.with_only(usable)
        columns = [column for column in pool.columns[start.known :] if usable(column)]
        self.master = RestrictedMaster(problem, pool.cost_scale, constraints, start, columns)
        self.effort = 12 + len(start.columns) + self.master.columns_seen // A_STEP + self.effort_of_looking()
        self.family, self.values = None, None

    def step(self):
        """Do a little of the work; returns whether nothing more is gained."""
        if self.family is None:
            before = self.master.columns_seen
            solved = not (self.master.dual_pivot() or self.master.pivot() or self.master.refactorise())
            self.effort += self._effort_of_pivots(1) + (self.master.columns_seen - before) // A_STEP
            if solved:
                self.duals = self.master.duals = self.master.compute_duals()
                self._begin_pricing()
            return False
        self._price()
        self.family += 1
        if self.family < len(self.problem.families):
            return False
        self.family = None
        return not self.new

    def effort_of_looking(self):
        """Tell the effort that looking once at every known column is."""
        return len(self.master.pool) // A_STEP

    def _effort_of_pivots(self, pivots):
        rows = len(self.master.rhs)
        return pivots * (3 + rows * rows // 90)

    def _begin_pricing(self):
        self._in_whole_numbers(VALUE_OF_ALL)
        self.row_values, self.family, self.new = [0] * len(self.problem.row_types), 0, False

    def _in_whole_numbers(self, value_of_all):
        duals, master = self.duals, self.master
        total = 0.0
        for value, rhs in zip(duals, master.rhs):
            total += abs(value * rhs)
        self.dual_scale = value_of_all / total if total > 0 else 1.0
        self.values = [int(max(0.0, value) * self.dual_scale) for value in duals[: master.sizes]]
        # how often each constraint is taken: whole numbers too
        self.multipliers = []
        for value, constraint in zip(duals[master.fixed_rows :], master.constraints):
            self.multipliers.append(int(abs(value) * self.dual_scale / constraint.scale))
        nothing = [0] * len(self.problem.row_types)
        self.constraint_values, _ = with_constraints(nothing, 0, master.constraints, self.multipliers)

    def refine(self):
        """Work the row values out once more, in whole numbers so large that little is lost by rounding."""
        self._in_whole_numbers(VALUE_OF_ALL * FINER)
        for number, row_type in enumerate(self.problem.row_types):
            if self._may_be_used(row_type):
                values = self._values_in(number)
                value, _, upper, steps = row_type.best_pattern(values, self.problem.demand, MOST_STEPS)
                self.row_values[number] = upper if value else values[_most_valuable(row_type, values)]
                self.effort += 1 + effort_of(len(row_type.pieces), steps)

    def _may_be_used(self, row_type):
        return row_type.pieces and (
            row_type.store is None or row_type.take <= self.problem.stores[row_type.store]
        )

    def _price(self):
        # the pricing problem of each row type of one family
        problem, bought, stored, store = self.problem, [], [], None
        for number in problem.families[self.family]:
            row_type = problem.row_types[number]
            if not self._may_be_used(row_type):
                continue
            values = self._values_in(number)
            value, counts, upper, steps = row_type.best_pattern(values, problem.demand, MOST_STEPS)
            self.effort += effort_of(len(row_type.pieces), steps)
            if not value:
                # a row may be wanted for a constraint alone: it holds something all the same, at a loss
                size = _most_valuable(row_type, values)
                counts[size] = 1
                value = upper = values[size]
            self.row_values[number] = upper
            run, value = PatternRun(number, row_type, counts, 1), value + self.constraint_values[number]
            if row_type.store is not None:
                store = row_type.store
                stored.append((value, row_type.take, row_type.last, run))
            elif row_type.cost / self.pool.cost_scale - value / self.dual_scale < -TOLERANCE and max(counts):
                bought.append(run)
        for run in bought:
            self._keep([run])
        if stored:
            self._price_store(store, stored)

    def _price_store(self, store, stored):
        # the rows that together fill a store best
        items = [row[:3] for row in stored]
        value, counts, _, steps = fill_store(self.problem.stores[store], items, MOST_STEPS)
        self.effort += effort_of(len(items), steps)
        if -self.duals[self.master.sizes + store] - value / self.dual_scale < -TOLERANCE:
            self._keep([
                PatternRun(run.type_number, run.row_type, run.counts, count)
                for (_, _, _, run), count in zip(stored, counts)
                if count
            ])  # fmt: skip

    def _keep(self, runs):
        column = self.pool.add(runs, len(self.problem.demand))
        for known, _ in self.master.pool:
            if known is column:
                return
        self.master.add(column)
        self.new = True

    def _values_in(self, number):
        # what pieces are worth in rows of one type, with the constraints on pieces in them
        values = self.values
        if self.master.on_pieces:
            values = list(values)
            for row, constraint in self.master.on_pieces:
                if constraint.weights[number]:
                    multiplier = self.multipliers[row - self.master.fixed_rows]
                    values[constraint.size] += multiplier if constraint.at_least else -multiplier
        return values

    def warm_start(self, most):
        """Tell where it ended, for a programme with more constraints whose cost is to be below `most`."""
        gain = max(0.0, most - self.cost()) / self.pool.cost_scale + TOLERANCE
        return self.master.warm_start(gain, len(self.pool.columns))

    def solution(self):
        """List how much of each column is used: [(column, amount)]."""
        master = self.master
        return [
            (column, amount)
            for column, amount in zip(master.basis, master.amounts)
            if column.runs and amount > TOLERANCE
        ]

    def is_feasible(self):
        """Say whether nothing is left out or broken."""
        for column, amount in zip(self.master.basis, self.master.amounts):
            if not column.runs and column.cost and amount > TOLERANCE:
                return False
        return True

    def cost(self):
        """Add up what is found and what is left out, in whole costs and parts of them."""
        return self.master.cost() * self.pool.cost_scale

    def probe(self, constraints, warm_start):
        """Guess what the cost would be under more constraints, from a few pivots: strong branching.

        Takes: warm_start, as the method of that name told it. Returns: (cost, effort).
        """
        master = RestrictedMaster(self.problem, self.pool.cost_scale, constraints, warm_start, [])
        pivots = 0
        while pivots < MOST_PIVOTS and master.dual_pivot():
            pivots += 1
        effort = self._effort_of_pivots(pivots + 2) + master.columns_seen // A_STEP
        return master.cost() * self.pool.cost_scale, effort


def _most_valuable(row_type, values):
    best = row_type.pieces[0][0]
    for size, _, _ in row_type.pieces:
        if values[size] > values[best]:
            best = size
    return best
