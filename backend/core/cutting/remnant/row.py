"""One row right across a cloth: the stacks of strips side by side that are worth most.

Where cuts have two stages a stack is one strip. Else it is strips of one size over each other,
and where there are few ways to lie, what is worth most of any that are no wider.
"""

from ..knapsack import solve_knapsack
from .bars import steps_of

MOST_STEPS = 200
FEW_WAYS = 24


class Row:
    """Stacks side by side: groups, [([(way to lie, strips of it)], stacks)]; counts, {number: strips}."""

    def __init__(self, height, groups, counts):
        self.height = height
        self.groups = groups
        self.counts = counts

    def pieces(self):
        """Count its strips."""
        pieces = 0
        for stack, times in self.groups:
            for _, copies in stack:
                pieces += copies * times
        return pieces

    def times_in(self, left, length):
        """Say how many such rows there is cloth and strips for."""
        times = length // self.height
        for kind, most in enumerate(left):
            if self.counts.get(kind, 0):
                times = min(times, most // self.counts[kind])
        return times


class RowFinder:
    """Finds rows of a cloth so wide; lying is of `kinds_of`, stages as `Solver` has them."""

    def __init__(self, width, lying, stages):
        self.width, self.lying, self.stages = width, lying, stages
        self.mixes = stages != 2 and len(lying) <= FEW_WAYS

    def best(self, height, values, left):
        """Find the row of a height that is worth most: (row, None where there is none; steps)."""
        ways = [
            way
            for way, (wide, high, kind, _) in enumerate(self.lying)
            if high <= height and left[kind] and values[kind]
        ]
        if not ways:
            return None, 4
        stacks, steps = self._of_one_size(ways, height, left)
        if self.mixes:
            mixed, more = self._mixed(ways, height, values, left)
            stacks += mixed
            steps += more
        items = []
        for stack, times in stacks:
            value = 0
            for way, copies in stack:
                value += values[self.lying[way][2]] * copies
            wide = self.wide(stack)
            items.append((value, wide, min(times, self.width // wide)))
        _, taken, _, more = solve_knapsack(self.width, items, MOST_STEPS)
        groups, counts = [], {}
        for (stack, _), times in zip(stacks, taken):
            # all stacks share what there is
            times = min(times, self._times(stack, left, counts)) if times else 0
            if times:
                groups.append((stack, times))
                for way, copies in stack:
                    kind = self.lying[way][2]
                    counts[kind] = counts.get(kind, 0) + copies * times
        return Row(height, groups, counts) if groups else None, steps + steps_of(items, more)

    def wide(self, stack):
        """Tell how wide a stack is."""
        return max([self.lying[way][0] for way, _ in stack])

    def high(self, stack):
        """Tell how high a stack is."""
        high = 0
        for way, copies in stack:
            high += self.lying[way][1] * copies
        return high

    def _times(self, stack, left, counts):
        # how many such stacks there are strips for
        own, least = {}, None
        for way, copies in stack:
            kind = self.lying[way][2]
            own[kind] = own.get(kind, 0) + copies
            times = (left[kind] - counts.get(kind, 0)) // own[kind]
            least = times if least is None else min(least, times)
        return least

    def _of_one_size(self, ways, height, left):
        # as many over each other as there is height for, and one stack of what is left of the size
        stacks, narrowest = [], {}
        for way in ways:
            wide, high, kind, _ = self.lying[way]
            most = 1 if self.stages == 2 else height // high
            if most == 1 and kind in narrowest and self.lying[narrowest[kind]][0] <= wide:
                continue
            narrowest[kind] = way
            for copies, times in ((most, left[kind] // most), (left[kind] % most, 1)):
                if copies and times:
                    stacks.append(([(way, copies)], times))
        return stacks, len(ways)

    def _mixed(self, ways, height, values, left):
        # for each width the most that lies over each other and is no wider
        stacks, steps, known = [], 1, {}
        for widest in ways:
            width = self.lying[widest][0]
            if width in known:
                continue
            known[width] = True
            inside = [way for way in ways if self.lying[way][0] <= width]
            items = []
            for way in inside:
                _, high, kind, _ = self.lying[way]
                items.append((values[kind], high, min(left[kind], height // high)))
            _, taken, _, more = solve_knapsack(height, items, MOST_STEPS)
            steps += steps_of(items, more)
            stack = [(way, copies) for way, copies in zip(inside, taken) if copies]
            # of one size there is one already, and of lesser width, too
            if len(stack) > 1 and self.wide(stack) == width:
                times = self._times(stack, left, {})
                if times:
                    stacks.append((stack, times))
        return stacks, steps
