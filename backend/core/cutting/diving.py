"""A dive: rows are decided as the linear programme has them, and it is solved anew for the rest."""

from .columns import Basis
from .generating import SMALL, Programme
from .greedy import Rest, complete
from .parting import WHOLE
from .plan import Plan, Rows, cost_of


class Dive:
    """A dive from what a linear programme found.

    Takes: plan, with every way to lie decided; found, [(column, amount)] to begin with.
    Has: done; layouts, those found since they were last taken.
    """

    def __init__(self, plan, fillings, found, areas, usable):
        self.plan = plan
        self.fillings = fillings
        self.areas = areas
        self.usable = usable
        self.layouts = []
        self.done = False
        self.effort = 0
        self.rest = Rest(plan, [])
        self.programme = None
        self._decide(found, [1 for _ in plan.wanted])

    def step(self, cost):
        """Do a little of the work; cost is what a layout must be below."""
        programme = self.programme
        if programme is None:
            self._begin()
        elif programme.step():
            least = cost_of(self.plan, self.rest.layout) + programme.cost()
            if not programme.held() or least > cost - 1 + SMALL:
                self.done = True
            else:
                self._decide(programme.found(), programme.worths)
            self.effort += programme.effort
            self.programme = None

    def _begin(self):
        rest = self.rest
        plan = Plan(rest.wanted, self.plan.kinds, rest.stores, self.areas)
        self.basis = [column for column in self.basis if self._fits(column)]
        self.programme = Programme(plan, self.fillings, [], Basis(self.basis), self._fits)

    def _fits(self, column):
        rest = self.rest
        if column.store is not None and column.take > rest.stores[column.store]:
            return False
        for count, wanted in zip(column.counts, rest.wanted):
            if count > wanted:
                return False
        if column.store is None and rest.rows_left(column.rows[0].kind) == 0:
            return False
        return self.usable(column)

    def _decide(self, found, worths):
        # all whole rows, or else the one that is nearest to whole
        decided, best, most = False, None, 0.0
        self.basis = [column for column, _ in found]
        for column, amount in found:
            times = int(amount + WHOLE)
            if times and self.usable(column):
                decided = self._take(column, times) or decided
            elif amount > most and self._fits(column):
                best, most = column, amount
        if not decided:
            if best is None:
                self.done = True
                return
            self._take(best, 1)
        for values in (worths, self.areas):
            layout, effort = complete(self.plan, self.rest.layout, values)
            self.layouts.append(layout)
            self.effort += effort
        self.done = max(self.rest.wanted) == 0

    def _take(self, column, times):
        if column.store is None:
            left = self.rest.rows_left(column.rows[0].kind)
            times = times if left is None else min(times, left)
        for rows in column.rows:
            if times:
                self.rest.take(Rows(rows.kind, rows.lying, rows.counts, rows.times * times))
        return times > 0
