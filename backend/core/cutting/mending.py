"""Mending: rows of a layout are taken out and cut again another way; what is no worse stays.

The way is chosen by numbers that look like chance and are the same each time.
"""

from .greedy import complete
from .packing import pack
from .plan import Rows, cost_of, lies_alike, rank
from .tidying import tidy

MOST_OUT = 5  # rows that are taken out at once
SPREAD = 45  # percent by which the worth of a piece is changed at most


class Mending:
    """A layout that is changed again and again.

    Has: layout and rank, the last that was no worse than the one before.
    """

    def __init__(self, plan, layout):
        self.plan = plan
        self.take_over(layout)
        self.state = 1
        self.turn = 0

    def take_over(self, layout):
        """Go on from another layout."""
        self.layout, self.rank = layout, rank(self.plan, layout)

    def step(self, plan, worths, least):
        """Change the layout once; returns the effort.

        Takes: plan, with every way to lie decided; worths to start from; least,
        a cost that no layout is below.
        """
        changed = [1 + worth * (80 + self._number(SPREAD)) // 100 for worth in worths]
        self.turn += 1
        if self.turn % 4 == 0:
            layout, effort = complete(plan, self._few_out(), changed)
        else:
            layout, effort = self._packed(plan, changed, least)
        if layout is None or not lies_alike(layout):
            return effort
        layout = tidy(self.plan, layout)
        new = rank(self.plan, layout)
        if new <= self.rank:
            self.layout, self.rank = layout, new
        return effort

    def _number(self, below):
        # of 53125 numbers in a mixed order; small enough for the phone
        self.state = (self.state * 171 + 11213) % 53125
        return self.state * below // 53125

    def _few_out(self):
        # the layout without a few rows that are bought, and some stores empty
        emptied = [self._number(5) < 2 for _ in self.plan.stores]
        kept = [
            rows
            for rows in _together(self.layout)
            if rows.lying.store is None or not emptied[rows.lying.store]
        ]
        for _ in range(1 + self._number(MOST_OUT)):
            self._take_out(kept)
        return kept

    def _take_out(self, kept):
        # one row of those that are bought, all alike likely
        bought = [place for place, rows in enumerate(kept) if rows.lying.store is None]
        count = 0
        for place in bought:
            count += kept[place].times
        out = self._number(count) if count else 0
        for place in bought:
            rows = kept[place]
            if out < rows.times:
                kept[place] = Rows(rows.kind, rows.lying, rows.counts, rows.times - 1)
                if rows.times == 1:
                    kept.pop(place)
                return
            out -= rows.times

    def _packed(self, plan, worths, least):
        # from nothing or from some of the rows: all into less than it took, or into the least it may take
        kept, share = [], 20 * self._number(4)
        if self._number(2):
            for rows in _together(self.layout):
                times = (rows.times * share + self._number(100)) // 100
                if times:
                    kept.append(Rows(rows.kind, rows.lying, rows.counts, times))
        cost = self.rank[0]
        budget = cost - 1 if self._number(3) else max(least, 1)
        order = list(range(len(plan.stores)))
        mixed, first = [], [store for store in order if store in plan.stores_first]
        for own in (first, [store for store in order if store not in first]):
            while own:
                mixed.append(own.pop(self._number(len(own))))
        mixed.insert(self._number(len(mixed) + 1) if self._number(10) < 3 else len(mixed), None)
        budget = min(budget, cost if least >= cost else cost - 1) - cost_of(plan, kept)
        return pack(plan, kept, worths, budget, mixed) if budget >= 0 else (None, 1)


def _together(layout):
    # like rows counted together
    places, together = {}, []
    for rows in layout:
        key = (rows.kind, tuple(rows.counts), tuple([turned for _, _, turned in rows.lying.pieces]))
        if key in places:
            one = together[places[key]]
            together[places[key]] = Rows(one.kind, one.lying, one.counts, one.times + rows.times)
        else:
            places[key] = len(together)
            together.append(rows)
    return together
