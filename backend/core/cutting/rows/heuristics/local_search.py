"""Local search: rows of a layout are taken out and cut again another way; what is no worse stays.

The way is chosen by numbers that look like chance and are the same each time.
"""

from ..problem import PatternRun, cost_of, is_within_stores, lies_alike, rank
from .fill import fill
from .greedy import complete
from .trim import trim

MOST_OUT = 5  # rows that are taken out at once
SPREAD = 45  # percent by which the value of a piece is changed at most


class LocalSearch:
    """A layout that is changed again and again.

    Has: layout and rank, the last that was no worse than the one before.
    """

    def __init__(self, problem, layout):
        self.problem = problem
        self.take_over(layout)
        self.random = 1
        self.moves = 0

    def take_over(self, layout):
        """Go on from another layout."""
        self.layout, self.rank = layout, rank(self.problem, layout)

    def step(self, problem, values, bound):
        """Change the layout once; returns the effort.

        Takes: problem, with every way to lie decided; values to start from; bound,
        a cost that no layout is below.
        """
        changed = [1 + value * (80 + self._number(SPREAD)) // 100 for value in values]
        self.moves += 1
        if self.moves % 4 == 0:
            layout, effort = complete(problem, self._few_out(), changed)
        else:
            layout, effort = self._refilled(problem, changed, bound)
        if layout is None or not lies_alike(layout):
            return effort
        layout = trim(self.problem, layout)
        new = rank(self.problem, layout)
        if new <= self.rank and is_within_stores(self.problem, layout):
            self.layout, self.rank = layout, new
        return effort

    def _number(self, below):
        # of 53125 numbers in a mixed order; small enough for the phone
        self.random = (self.random * 171 + 11213) % 53125
        return self.random * below // 53125

    def _few_out(self):
        # the layout without a few rows that are bought, and some stores empty
        emptied = [self._number(5) < 2 for _ in self.problem.stores]
        kept = [
            run
            for run in _together(self.layout)
            if run.row_type.store is None or not emptied[run.row_type.store]
        ]
        for _ in range(1 + self._number(MOST_OUT)):
            self._take_out(kept)
        return kept

    def _take_out(self, kept):
        # one row of those that are bought, all alike likely
        bought = [place for place, run in enumerate(kept) if run.row_type.store is None]
        count = 0
        for place in bought:
            count += kept[place].times
        out = self._number(count) if count else 0
        for place in bought:
            run = kept[place]
            if out < run.times:
                kept[place] = PatternRun(run.type_number, run.row_type, run.counts, run.times - 1)
                if run.times == 1:
                    kept.pop(place)
                return
            out -= run.times

    def _refilled(self, problem, values, bound):
        # from nothing or from some of the rows: all into less than it took, or into the least it may take
        kept, share = [], 20 * self._number(4)
        if self._number(2):
            for run in _together(self.layout):
                times = (run.times * share + self._number(100)) // 100
                if times:
                    kept.append(PatternRun(run.type_number, run.row_type, run.counts, times))
        cost = self.rank[0]
        budget = cost - 1 if self._number(3) else max(bound, 1)
        order = list(range(len(problem.stores)))
        mixed, first = [], [store for store in order if store in problem.stores_first]
        for own in (first, [store for store in order if store not in first]):
            while own:
                mixed.append(own.pop(self._number(len(own))))
        mixed.insert(self._number(len(mixed) + 1) if self._number(10) < 3 else len(mixed), None)
        budget = min(budget, cost if bound >= cost else cost - 1) - cost_of(problem, kept)
        return fill(problem, kept, values, budget, mixed) if budget >= 0 else (None, 1)


def _together(layout):
    # like rows counted together
    places, together = {}, []
    for run in layout:
        key = (run.type_number, tuple(run.counts), tuple([turned for _, _, turned in run.row_type.pieces]))
        if key in places:
            one = together[places[key]]
            together[places[key]] = PatternRun(
                one.type_number, one.row_type, one.counts, one.times + run.times
            )
        else:
            places[key] = len(together)
            together.append(run)
    return together
