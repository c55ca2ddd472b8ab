"""Rows as a tree of cuts, and what they leave over filled with strips that are still wanted.

Beside the stacks of a row, above each of them and behind the last row there is cloth left.
Where cuts have two stages a strip may lie beside; with three also stacked on what lies there;
with any number, blocks of like strips are laid in what is left, and again in what those leave.
"""

from ...numbers.ordering import in_order
from .dynamic_programme import ACROSS, ALONG


class Filling:
    """Takes: shelves, `Shelves`; left, of each kind, which is less what is filled in."""

    def __init__(self, shelves, left):
        self.cloth, self.kinds, self.values = shelves.cloth, shelves.kinds, shelves.values
        self.lying, self.stages, self.left = shelves.lying, shelves.stages, left
        self.beside, self.behind = (ALONG, ACROSS) if shelves.swapped else (ACROSS, ALONG)
        self.finder, self.steps = shelves.finder, 1
        self.by_density = by_density(self.lying, self.values)

    def layout(self, rows, length):
        """Make the tree of rows, [(row, times)], and of what lies in the `length` behind them."""
        parts, waiting = [], []
        for row, times in rows:
            for _ in range(times):
                parts.append(self._row(row, waiting))
        if self.stages == 0:
            parts.append(None)
            waiting.append((self.cloth[0], length, parts, len(parts) - 1))
            # the smallest first: what fits there fits elsewhere, too
            for wide, high, owner, place in in_order(waiting, lambda one: float(one[0]) * one[1]):
                if max(self.left) > 0:
                    owner[place] = self._filled(wide, high)
        return (self.behind, parts)

    def _row(self, row, waiting):
        stacks, used = [], 0
        for stack, times in row.groups:
            wide, above = self.finder.wide(stack), row.height - self.finder.high(stack)
            used += wide * times
            self.steps += 8 + 2 * times
            pieces = [self._piece(way) for way, copies in stack for _ in range(copies)]
            if self.stages == 0:
                group = [(self.behind, pieces)] * times
                stacks.append((self.behind, [(self.beside, group), None]))
                waiting.append((wide * times, above, stacks[-1][1], 1))
            else:
                for _ in range(times):
                    stacks.append((self.behind, pieces + self._more_above(wide, above)))
        if self.stages == 0:
            stacks.append(None)
            waiting.append((self.cloth[0] - used, row.height, stacks, len(stacks) - 1))
        else:
            self._lay_beside(stacks, self.cloth[0] - used, row.height)
        return (self.beside, stacks)

    def _piece(self, way):
        _, _, kind, turned = self.lying[way]
        return (self.kinds[kind], turned)

    def _more_above(self, wide, above):
        # strips that lie on a stack and are no wider
        found = []
        while self.stages != 2 and max(self.left) > 0:
            way = self._densest(wide, above)
            if way is None:
                break
            self.left[self.lying[way][2]] -= 1
            above -= self.lying[way][1]
            found.append(self._piece(way))
        return found

    def _lay_beside(self, stacks, wide, high):
        while max(self.left) > 0:
            way = self._densest(wide, high)
            if way is None:
                return
            own, height, kind, _ = self.lying[way]
            copies = 1 if self.stages == 2 else min(high // height, self.left[kind])
            self.left[kind] -= copies
            wide -= own
            stack = [self._piece(way)] * copies
            stacks.append((self.behind, stack + self._more_above(own, high - height * copies)))

    def _densest(self, wide, high):
        self.steps += 2
        for way in self.by_density:
            across, along, kind, _ = self.lying[way]
            self.steps += 1
            if across <= wide and along <= high and self.left[kind]:
                return way
        return None

    def _filled(self, wide, high):
        # a block of like strips in the near left corner, the rest in two parts, and so on
        top = [None]
        waiting = [(wide, high, top, 0)]
        while waiting and max(self.left) > 0:
            wide, high, owner, place = waiting.pop()
            way = self._densest(wide, high)
            if way is None:
                continue
            across, along, kind, _ = self.lying[way]
            columns = min(wide // across, self.left[kind])
            rows = min(high // along, self.left[kind] // columns)
            self.left[kind] -= columns * rows
            row = (self.beside, [self._piece(way)] * columns)
            block = (self.behind, [row] * rows)
            # the larger of the parts that are left is as large as it can be
            wide_left, high_left = wide - columns * across, high - rows * along
            if float(wide_left) * high > float(wide) * high_left:
                inner = [(self.behind, [block, None]), None]
                owner[place] = (self.beside, inner)
                waiting += [(columns * across, high_left, inner[0][1], 1), (wide_left, high, inner, 1)]
            else:
                inner = [(self.beside, [block, None]), None]
                owner[place] = (self.behind, inner)
                waiting += [(wide_left, rows * along, inner[0][1], 1), (wide, high_left, inner, 1)]
        return top[0]


def by_density(lying, values):
    """List the ways to lie, those of most value for their area first."""

    def less_value_an_area(way):
        wide, high, kind, _ = lying[way]
        return -values[kind] / (float(wide) * high)

    return in_order(list(range(len(lying))), less_value_an_area)
