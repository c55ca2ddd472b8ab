"""The dearest layout with limited quantities: parts put together, the most promising first.

Best-first search over parts (Viswanathan and Bagchi 1993): a part is put together
with all those looked at before, beside and behind, as long as the quantities allow
it. What a layout that holds the part may be worth is bounded by the part's own
worth and the worth of the rest beside it (`rests.py`) under a price for each size of
limited quantity (see `quantity_prices.py`), so that few parts are worth making. When
none is left whose bound is above the best layout, that layout is proven.
"""

from .worths import ACROSS, ALONG

MOST_BUCKETS = 2000


class Part:
    """A part of a layout: where it ends, what it holds and how it was made."""

    def __init__(self, across, along, level, worth, reduced, held, made):
        self.across = across
        self.along = along
        self.level = level
        self.worth = worth
        self.reduced = reduced
        self.held = held
        self.made = made


class Search:
    """The search over parts, resumable.

    Takes: pieces, [(point across, point along, worth, size)]; limits, the most of
    each size, None for any; prices for each size in parts of `scale`, 0 for one
    without limit; rests, done, for those prices; worth, to be beaten.
    `best` is the best part found or None, `worth` what it is worth.
    """

    def __init__(self, pieces, limits, prices, scale, rests, worth, room=None):
        self.limited = [size for size, most in enumerate(limits) if most is not None]
        self.limits = [limits[size] for size in self.limited]
        self.scale, self.rests, self.worth = scale, rests, worth
        self.base = 0
        for size in self.limited:
            self.base += prices[size] * limits[size]
        self.points = rests.worths.points
        self.top = len(rests.columns) - 1
        self.room, self.looked_at = room, {}
        self.best = None
        self.met, self.closed, self.buckets, self.at = {}, [[] for _ in rests.columns], None, 0
        singles = []
        for across, along, own, size in pieces:
            if limits[size] == 0:
                continue
            held = tuple([1 if other == size else 0 for other in self.limited])
            made = (across, along, size)
            singles.append(Part(across, along, 0, own, own * scale - prices[size], held, made))
        self.highest = self.worth
        for part in singles:
            self.highest = max(self.highest, self._bound(part))
        self.width = (self.highest - self.worth) // MOST_BUCKETS + 1
        self.buckets = [[] for _ in range((self.highest - self.worth) // self.width + 1)]
        for part in singles:
            self._keep(part)

    def bound(self):
        """Return what no layout is worth more than."""
        return (
            max(self.worth, self.highest - self.at * self.width)
            if self.at < len(self.buckets)
            else self.worth
        )

    def advance(self):
        """Look at the next part; returns the steps that took, 0 when all is proven."""
        while self.at < len(self.buckets) and not self.buckets[self.at]:
            self.at += 1
        if self.bound() <= self.worth:
            return 0
        part = self.buckets[self.at].pop()
        if self._bound(part) <= self.worth or self.room and self._crowded(part):
            return 4
        steps = 8
        if self.top == 0:
            self.closed[0].append(part)
            steps += self._join(part, self.closed[0], 0, ACROSS)
            steps += self._join(part, self.closed[0], 0, ALONG)
            return steps
        level, worths = part.level, self.rests.worths
        self.closed[level].append(part)
        if level:
            steps += self._join(part, self.closed[level - 1], level, worths.axis(level))
        if level < self.top:
            across = len(self.points[ACROSS].at) - 1 if level + 1 == self.top else part.across
            self._keep(Part(across, part.along, level + 1, part.worth, part.reduced, part.held, part.made))
            steps += self._join(part, self.closed[level + 1], level + 1, worths.axis(level + 1))
        return steps

    def _crowded(self, part):
        spot = (part.level, part.across, part.along)
        count = self.looked_at.get(spot, 0) + 1
        self.looked_at[spot] = count
        return count > self.room

    def _bound(self, part):
        rest = self.rests.columns[part.level][part.across][part.along]
        return (part.reduced + rest + self.base) // self.scale

    def _join(self, part, others, level, axis):
        # with each of the others that leaves the hope of a better layout
        columns = self.rests.columns[level]
        needed = (self.worth + 1) * self.scale - self.base - part.reduced
        across, along = part.across, part.along
        if axis == ACROSS:
            up = self.points[ACROSS].up(across)
            hopeful = [
                other
                for other in others
                if other.reduced + columns[up[other.across]][max(along, other.along)] >= needed
            ]
        else:
            up = self.points[ALONG].up(along)
            hopeful = [
                other
                for other in others
                if other.reduced + columns[max(across, other.across)][up[other.along]] >= needed
            ]
        for other in hopeful:
            held = self._together(part.held, other.held)
            if held is None:
                continue
            if axis == ACROSS:
                ends = up[other.across], max(along, other.along)
            else:
                ends = max(across, other.across), up[other.along]
            worth, reduced = part.worth + other.worth, part.reduced + other.reduced
            self._keep(Part(ends[0], ends[1], level, worth, reduced, held, (axis, [part.made, other.made])))
        return len(others) + len(hopeful) * (16 + len(self.limits) // 2)

    def _together(self, one, other):
        held = []
        for place, most in enumerate(self.limits):
            count = one[place] + other[place]
            if count > most:
                return None
            held.append(count)
        return tuple(held)

    def _keep(self, part):
        bound = self._bound(part)
        if part.worth > self.worth:
            self.worth, self.best = part.worth, part
        elif bound <= self.worth:
            return
        known = self.met.get((part.level, part.held))
        if known is None:
            known = self.met[(part.level, part.held)] = []
        for across, along, worth in known:
            if across <= part.across and along <= part.along and worth >= part.worth:
                return
        known.append((part.across, part.along, part.worth))
        if bound > self.worth:
            place = max(self.at, (self.highest - min(bound, self.highest)) // self.width)
            self.buckets[place].append(part)
