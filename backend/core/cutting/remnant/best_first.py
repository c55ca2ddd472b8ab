"""Best-first search for the dearest layout with limited quantities: the most promising part first.

A part is a piece, or two parts put together, beside or behind each other
(Viswanathan and Bagchi 1993): each part looked at is put together with all those
looked at before, as long as the quantities allow it. What a layout that holds the
part may be worth is bounded by the part's own value and that of the best layout round
it (`outer_bound.py`), under a Lagrangian multiplier for each size of limited quantity
(`lagrangian.py`), so that few parts are worth making. A part *dominated* by another, no
larger and worth no less of the same limited pieces, is left. When none is left whose bound is
above the best layout, that layout is proven.
"""

from .dynamic_programme import ACROSS, ALONG

MOST_BUCKETS = 2000


class PartialLayout:
    """A part of a layout: where it ends, what it holds and how it is cut.

    Has: across and along, the points where it ends; level, of its cuts where stages are
    counted; value; reduced, the same less the multipliers of its pieces; counts, of each
    limited size; tree, how it is cut: (axis, [trees]), or the piece that it is.
    """

    def __init__(self, across, along, level, value, reduced, counts, tree):
        self.across = across
        self.along = along
        self.level = level
        self.value = value
        self.reduced = reduced
        self.counts = counts
        self.tree = tree


class BestFirst:
    """The search over parts, resumable.

    Takes: pieces, [(point across, point along, value, size)]; limits, the most of
    each size, None for any; multipliers for each size in parts of `scale`, 0 for one
    without limit; outer, OuterBounds that are done, for those multipliers; value, to be
    beaten; beam, how many parts at most are looked at that end at the same place, None
    for any, which alone proves anything.
    `best` is the best part found or None, `value` what it is worth.
    """

    def __init__(self, pieces, limits, multipliers, scale, outer, value, beam=None):
        self.limited = [size for size, most in enumerate(limits) if most is not None]
        self.limits = [limits[size] for size in self.limited]
        self.scale, self.outer, self.value = scale, outer, value
        self.base = 0
        for size in self.limited:
            self.base += multipliers[size] * limits[size]
        self.points = outer.programme.points
        self.top = len(outer.columns) - 1
        self.beam, self.looked_at = beam, {}
        self.best = None
        # the parts looked at, by level; those still open, by bound in buckets, the highest first
        self.closed, self.buckets, self.bucket = [[] for _ in outer.columns], None, 0
        self.known = {}
        singles = []
        for across, along, own, size in pieces:
            if limits[size] == 0:
                continue
            counts = tuple([1 if other == size else 0 for other in self.limited])
            tree = (across, along, size)
            singles.append(
                PartialLayout(across, along, 0, own, own * scale - multipliers[size], counts, tree)
            )
        self.upper = self.value
        for part in singles:
            self.upper = max(self.upper, self._bound(part))
        self.bucket_width = (self.upper - self.value) // MOST_BUCKETS + 1
        self.buckets = [[] for _ in range((self.upper - self.value) // self.bucket_width + 1)]
        for part in singles:
            self._keep(part)

    def bound(self):
        """Return what no layout is worth more than."""
        if self.bucket == len(self.buckets):
            return self.value
        return max(self.value, self.upper - self.bucket * self.bucket_width)

    def advance(self):
        """Look at the next part; returns the steps that took, 0 when all is proven."""
        while self.bucket < len(self.buckets) and not self.buckets[self.bucket]:
            self.bucket += 1
        if self.bound() <= self.value:
            return 0
        part = self.buckets[self.bucket].pop()
        if self._bound(part) <= self.value or self.beam and self._crowded(part):
            return 4
        steps = 8
        if self.top == 0:
            self.closed[0].append(part)
            steps += self._join(part, self.closed[0], 0, ACROSS)
            steps += self._join(part, self.closed[0], 0, ALONG)
            return steps
        level, programme = part.level, self.outer.programme
        self.closed[level].append(part)
        if level:
            steps += self._join(part, self.closed[level - 1], level, programme.axis(level))
        if level < self.top:
            across = len(self.points[ACROSS].at) - 1 if level + 1 == self.top else part.across
            self._keep(
                PartialLayout(across, part.along, level + 1, part.value, part.reduced, part.counts, part.tree)
            )
            steps += self._join(part, self.closed[level + 1], level + 1, programme.axis(level + 1))
        return steps

    def _crowded(self, part):
        spot = (part.level, part.across, part.along)
        count = self.looked_at.get(spot, 0) + 1
        self.looked_at[spot] = count
        return count > self.beam

    def _bound(self, part):
        outside = self.outer.columns[part.level][part.across][part.along]
        return (part.reduced + outside + self.base) // self.scale

    def _join(self, part, others, level, axis):
        # with each of the others that leaves the hope of a better layout
        columns = self.outer.columns[level]
        needed = (self.value + 1) * self.scale - self.base - part.reduced
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
            counts = self._counts_of_both(part.counts, other.counts)
            if counts is None:
                continue
            if axis == ACROSS:
                ends = up[other.across], max(along, other.along)
            else:
                ends = max(across, other.across), up[other.along]
            value, reduced = part.value + other.value, part.reduced + other.reduced
            tree = (axis, [part.tree, other.tree])
            self._keep(PartialLayout(ends[0], ends[1], level, value, reduced, counts, tree))
        return len(others) + len(hopeful) * (16 + len(self.limits) // 2)

    def _counts_of_both(self, one, other):
        counts = []
        for place, most in enumerate(self.limits):
            count = one[place] + other[place]
            if count > most:
                return None
            counts.append(count)
        return tuple(counts)

    def _keep(self, part):
        bound = self._bound(part)
        if part.value > self.value:
            self.value, self.best = part.value, part
        elif bound <= self.value:
            return
        rivals = self.known.get((part.level, part.counts))
        if rivals is None:
            rivals = self.known[(part.level, part.counts)] = []
        # dominance
        for across, along, value in rivals:
            if across <= part.across and along <= part.along and value >= part.value:
                return
        rivals.append((part.across, part.along, part.value))
        if bound > self.value:
            place = max(self.bucket, (self.upper - min(bound, self.upper)) // self.bucket_width)
            self.buckets[place].append(part)
