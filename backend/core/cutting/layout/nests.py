"""Nests: strips of several sizes over each other in a row, where an increment less is bought so.

The search for rows stacks strips of one size alone. From the best of its layouts a local search
goes on that has rows of mixed stacks, too (`nested_row.py`): some rows are taken out and cut
again, so that all may fit into an increment less. It proves nothing; what `bar_bound.py`
proves holds for its layouts as for any.
"""

from ...numbers.rounding import ceil
from ..rows.heuristics.local_search import LocalSearch
from ..rows.problem import PatternRun, Problem
from .nested_row import NestedRow
from .placing import Laid, length_of
from .totals import Totals

MOVES = 60  # of the local search, before it ends with nothing found
HEAD_START = 2000  # the effort that the search for rows has before it, unless that is done
MOST_EFFORT = 30000  # a tenth of the steps that a layout has unless it is told otherwise


class Nests:
    """A search for nests on one bolt beside that for rows, both in turns, a little of the work at a time.

    Takes: component, with stacking; bars, its BarBound.
    Has: done; effort, of both; laid, the best layout it knows, and key, by which layouts are compared:
    (area left out, what is paid); both None before it has begun.
    """

    def __init__(self, component, bars):
        self.component, self.bars = component, bars
        self.own_effort, self.moves_left = 0, 0
        self.laid, self.key, self.seen, self.local_search = None, None, None, None
        stacked = [row_type for row_type in component.search.problem.row_types if row_type.stacked]
        self.may_nest = len(component.bolts) == 1 and len(stacked) > 0
        self._look_on()

    def step(self):
        """Do a little of the work."""
        search = self.component.search
        if not self.is_busy or self.own_effort + HEAD_START > search.effort and not search.done:
            search.step()
        elif self.seen is not search.layout:
            self._look_at_rows()
        elif self._is_least():
            self.moves_left = 0
        else:
            self._move()
        self._look_on()

    def _look_on(self):
        # a better layout of the search for rows is begun from anew
        search = self.component.search
        more = self.moves_left > 0 or self.seen is not search.layout
        self.is_busy = self.may_nest and more and self.own_effort < MOST_EFFORT
        self.effort = self.own_effort + search.effort
        self.done = search.done and not self.is_busy

    def _look_at_rows(self):
        self.own_effort += 1
        if self.local_search is None:
            self.problem, self.numbers = _with_nested_rows(self.component)
        self.seen = self.component.search.layout
        layout = [
            PatternRun(self.numbers[run.type_number], run.row_type, run.counts, run.times)
            for run in self.seen
        ]
        other = LocalSearch(self.problem, layout)
        if self.local_search is None or other.rank < self.local_search.rank:
            self.local_search, self.moves_left = other, MOVES
            self._look_at(layout)

    def _look_at(self, layout):
        laid = Laid(self.component, layout)
        key = self.component.key_of(laid)
        if self.key is None or key < self.key:
            self.laid, self.key, self.moves_left = laid, key, MOVES
        self.target = self._target(laid)

    def _bought(self):
        # (the bolt, what is bought of it, what would be less)
        index = self.component.bolts[0]
        cloth = self.component.cloths[index]
        used = length_of(self.laid.rows[self.component.cloth_numbers[index]])
        bought = cloth.length_to_buy(cloth.length_needed(used))
        return cloth, bought, max(bought - cloth.given["shop_increment"], cloth.given["minimum_cut"])

    def _target(self, laid):
        # the cost at which less is bought
        index = self.component.bolts[0]
        cloth, _, less = self._bought()
        over = length_of(laid.rows[self.component.cloth_numbers[index]]) - cloth.usable_length(less)
        rate = self.component.rates[index] / self.component.cost_unit
        return self.local_search.rank[0] - ceil(over * rate)

    def _is_least(self):
        _, bought, less = self._bought()
        totals = Totals()
        totals.add(self.component, self.laid, self.bars)
        return less >= bought or totals.optimal_to_buy

    def _move(self):
        own, before, rank = self.local_search, self.local_search.layout, self.local_search.rank
        for row_type in self.problem.row_types:
            if isinstance(row_type, NestedRow):
                row_type.forget([run.counts for run in before if run.row_type is row_type])
        self.own_effort += own.step(self.problem, self.problem.areas, self.target)
        self.moves_left -= 1
        if own.rank < rank:
            self._look_at(own.layout)


def _with_nested_rows(component):
    # the problem of a component with a nested row for each that is stacked; new numbers of its types
    problem, row_types, numbers = component.search.problem, [], []
    for row_type in problem.row_types:
        numbers.append(len(row_types))
        row_types.append(row_type)
        if row_type.stacked and not row_type.napped:
            cloth = component.cloths[row_type.origin]
            lying = [
                (size, extent, high, turned)
                for size, strip in enumerate(component.strips)
                for extent, high, turned in component.ways(strip, cloth)
                if high <= row_type.height
            ]
            row_types.append(NestedRow(row_type, lying))
    nested = Problem(problem.demand, row_types, problem.stores, problem.areas, problem.charges, problem.first)
    return nested, numbers
