"""A dive: rows are decided as the linear programme has them, and it is solved anew for the rest.

A dive that may turn back (limited discrepancy search; Harvey and Ginsberg 1995) decides
the next best row where it came to nothing, at few places of one way down.
"""

from ....numbers.ordering import in_order
from ..branching import INTEGRAL
from ..column_generation import TOLERANCE, ColumnGeneration
from ..columns import WarmStart
from ..problem import PatternRun, Problem, cost_of
from .greedy import Remaining, complete

NEARLY = 0.99999  # what the linear programme's costs are right to
NEARLY_WHOLE = 0.6  # an amount above which a row goes with the best, where it may turn back
MOST_OTHERS = 3  # rows at one place that are decided instead of the best before any of the others there
MOST_PASSED_OVER = 6  # such places on one way down


class Dive:
    """A dive from the solution of a linear programme.

    Takes: problem, with every way to lie decided; solution, [(column, amount)] to begin with;
    turns, how often it may turn back.
    Has: done; layouts, those found since they were last taken.
    """

    def __init__(self, problem, pool, solution, areas, usable, turns=0):
        self.problem = problem
        self.pool = pool
        self.areas = areas
        self.usable = usable
        self.layouts = []
        self.done = False
        self.effort = 0
        self.remaining = Remaining(problem, [])
        self.relaxation = None
        self.turns, self.others, self.later, self.passed_over = turns, [], [], 0
        self._decide(solution, [1 for _ in problem.demand])

    def step(self, cost):
        """Do a little of the work; cost is what a layout must be below."""
        relaxation = self.relaxation
        if relaxation is None:
            self._begin()
        elif relaxation.step():
            bound = cost_of(self.problem, self.remaining.layout) + relaxation.cost()
            if not relaxation.is_feasible() or bound * NEARLY > cost - 1 + TOLERANCE:
                self._turn_back()
            else:
                self._decide(relaxation.solution(), relaxation.values)
            self.effort += relaxation.effort
            self.relaxation = None

    def _begin(self):
        remaining = self.remaining
        problem = Problem(remaining.demand, self.problem.row_types, remaining.stores, self.areas)
        self.columns = [column for column in self.columns if self._fits(column)]
        self.relaxation = ColumnGeneration(problem, self.pool, [], WarmStart(self.columns), self._fits)

    def _fits(self, column):
        remaining = self.remaining
        if column.store is not None and column.take > remaining.stores[column.store]:
            return False
        for count, demand in zip(column.counts, remaining.demand):
            if count > demand:
                return False
        if column.store is None and remaining.rows_left(column.runs[0].type_number) == 0:
            return False
        return self.usable(column)

    def _decide(self, solution, values):
        # all whole rows, or else the one that is nearest to whole; where it may turn back, that at first
        decided, whole, parts = False, [], []
        self.columns = [column for column, _ in solution]
        for column, amount in solution:
            times = int(amount + INTEGRAL)
            if times and self.usable(column):
                whole.append((column, times))
            elif self._fits(column):
                parts.append((column, amount))
        for column, times in whole if not self.turns or not parts else []:
            decided = self._take(column, times) or decided
        if not decided:
            parts = in_order(parts, lambda part: -part[1])
            if not parts:
                self._turn_back()
                return
            if self.turns and len(parts) > 1 and self.passed_over < MOST_PASSED_OVER:
                kept = (list(self.remaining.layout), self.columns, values, self.passed_over + 1)
                self.others.append((kept, parts[1 : 1 + MOST_OTHERS]))
                if len(parts) > 1 + MOST_OTHERS:
                    self.later.append((kept, parts[1 + MOST_OTHERS :]))
            self._take(parts[0][0], 1)
            for column, amount in parts[1:] if self.turns else []:
                if amount > NEARLY_WHOLE and self._fits(column):
                    self._take(column, 1)
        self._complete(values)

    def _complete(self, values):
        for compared in (values, self.areas):
            layout, effort = complete(self.problem, self.remaining.layout, compared)
            self.layouts.append(layout)
            self.effort += effort
        self.done = max(self.remaining.demand) == 0

    def _turn_back(self):
        # to the last place where another row is left to be decided
        if not self.others:
            self.others, self.later = self.later, []
        self.done = not self.turns or not self.others
        if self.done:
            return
        self.turns -= 1
        (layout, self.columns, values, self.passed_over), parts = self.others.pop()
        if len(parts) > 1:
            kept = (layout, self.columns, values, self.passed_over + 1)
            if kept[3] <= MOST_PASSED_OVER:
                self.others.append((kept, parts[1:]))
        self.remaining = Remaining(self.problem, layout)
        self._take(parts[0][0], 1)
        self._complete(values)

    def _take(self, column, times):
        if column.store is None:
            left = self.remaining.rows_left(column.runs[0].type_number)
            times = times if left is None else min(times, left)
        for run in column.runs:
            if times:
                self.remaining.take(PatternRun(run.type_number, run.row_type, run.counts, run.times * times))
        return times > 0
