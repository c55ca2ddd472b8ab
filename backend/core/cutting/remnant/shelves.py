"""Rows right across a cloth: good layouts soon, however large it is and however small its strips.

A row is stacks of like strips side by side, one strip high where cuts have two stages. Rows
of one size each come first, as anybody would lay them: no answer is worth less. The
linear programme over rows says which of them use the length best within the quantities
(Gilmore and Gomory 1961); those that it takes whole are laid, or the one that it takes most
of, and it is worked out anew for what is left (a dive). What is left over of the cloth is filled
with what is left of the strips, as the stages allow. Then some rows of a good layout are taken
out, and it is completed anew, again and again; now and then by a dive from the rows that stay.
"""

from ..knapsack import solve_knapsack
from .bars import kinds_of, steps_of
from .filling import Filling, by_density
from .grid import ENOUGH
from .heights import row_heights
from .priced import PricedLength
from .row import MOST_STEPS, Row, RowFinder

DIVE_EVERY = 8  # layouts of which one is by a dive
MOST_IDLE = 400  # layouts completed anew without a better one
HARDLY = 500  # such a part of the best's value below it is hardly worse
WHOLE = 0.999999  # of a row; more is all of it
LARGEST = 9007199254740991


class Shelves:
    """Layouts in rows with the first cuts right across, resumable.

    Takes: cloth, sizes, limits and stages, as `Solver` does; swapped, whether across and along
    are exchanged; most_steps.
    `value` and `tree` are the best layout: (axis, [trees]), (size, turned) for a strip.
    """

    def __init__(self, cloth, sizes, limits, stages, swapped, most_steps):
        self.cloth, self.stages, self.swapped = cloth, stages, swapped
        self.most_steps, self.taken = most_steps, 0
        self.kinds, self.values, demand, self.lying = kinds_of(cloth, sizes, limits)
        self.demand = [min(most, ENOUGH) for most in demand]
        self.value, self.tree = 0, None
        self.ended = not self.kinds
        if self.ended:
            return
        self.finder = RowFinder(cloth[0], self.lying, stages)
        self.heights = row_heights(self.lying, cloth[1], stages, self.finder.mixes)
        self.enough = 0
        for value, most in zip(self.values, self.demand):
            self.enough += value * most
        self._clear()
        self._complete([self._densest_height()], self.values)
        self._end()
        self._clear()
        self._lay_one_by_one()
        self._end()
        self._clear()
        self.columns, self.idle, self.number = [], 0, 1
        self.dived = self.again = False
        self._begin_programme()

    def done(self):
        """Say whether nothing is left to do."""
        return self.ended

    def advance(self):
        """Go on by a pivot, a row or a layout; returns the steps that took."""
        steps = self._step() if not self.dived else self._improve()
        self.taken += steps
        if not self.ended and self.taken >= self.most_steps:
            if not self.dived:
                steps += self._try(self.rows, self.values)
            self.ended = True
        return steps

    def _step(self):
        if self.place is None:
            if not self.programme.pivot():
                self.place, self.gained = 0, False
                self.whole_values, _ = self.programme.whole_values()
            return self.programme.steps
        if self.place < len(self.usable) and (self.passes == 0 or not self.again):
            self.place += 1
            return self._price(self.usable[self.place - 1])
        self.place = None
        self.passes += 1
        if self.gained:
            return 1
        value, steps = self.value, self._fix()
        if not self.again or self._is_full():
            steps += self._try(self.rows, self.values)
        if self.value > value:
            self.idle = 0
        if self._is_full():
            self.dived = True
        else:
            self._begin_programme()
        return steps

    def _improve(self):
        # the best layout without some of its rows, completed anew by values that are a little off
        self.idle += 1
        if self.idle > MOST_IDLE or self.value >= self.enough:
            self.ended = True
            return 1
        rows = [row for row, times in self.kept for _ in range(times)]
        if self.idle % DIVE_EVERY == 0:
            return self._dive_again(rows)
        out = [self._drawn(len(rows)) for _ in range(2 + self._drawn(3))]
        values = self.values
        if self.enough <= LARGEST // 16:
            values = [value * (8 + self._drawn(5)) for value in values]
        value = self.value
        steps = self._try([(row, 1) for place, row in enumerate(rows) if place not in out], values, True)
        if self.value > value:
            self.idle = 0
        return steps

    def _dive_again(self, rows):
        # from about half of the rows, and not always by the one that the programme takes most of
        self._clear()
        share = 2 + self._drawn(6)
        for row in rows:
            if self._drawn(8) < share:
                self._lay(row, 1)
        if max(self.left) > 0:
            self.dived, self.again = False, True
            self._begin_programme()
        return len(rows)

    def _drawn(self, below):
        # the same numbers in the same order everywhere
        self.number = (self.number * 1103515 + 12345) % 1048573
        return self.number % below

    def _densest_height(self):
        best, dearest = None, 0.0
        for wide, high, kind, _ in self.lying:
            rate = self.values[kind] / (float(wide) * high)
            if rate > dearest:
                best, dearest = high, rate
        return best or self.lying[0][1]

    # the linear programme

    def _begin_programme(self):
        left = [(kind, most) for kind, most in enumerate(self.left) if most]
        self.numbers = [kind for kind, _ in left]
        self.programme = PricedLength(
            [self.values[kind] for kind in self.numbers], [most for _, most in left]
        )
        self.usable = [height for height in self.heights if height <= self.length]
        self.passes = 0
        self.programme.duals = [0.0] * len(left) + [1.0]
        for row in self.columns:
            self._add(row)
        self.place = None

    def _add(self, row):
        amounts = {}
        for number, kind in enumerate(self.numbers):
            count = min(row.counts.get(kind, 0), self.left[kind])
            if count:
                amounts[number] = count
        if not amounts or row.height > self.length:
            return False
        return self.programme.add(row, amounts, float(row.height) / self.length)

    def _price(self, height):
        row, steps = self.finder.best(height, self._duals(), self.left)
        if row is not None and self._add(row):
            self.columns.append(row)
            self.gained = True
        return steps

    def _duals(self):
        # what one more of each kind is worth in the programme
        values = [0] * len(self.values)
        for number, kind in enumerate(self.numbers):
            values[kind] = self.whole_values[number]
        return values

    def _fix(self):
        # the rows that the programme takes whole, else the one it takes most of
        most, chosen, rows = 0.0, None, len(self.rows)
        for amount, row in self.programme.amounts():
            times = int(amount + 1 - WHOLE)
            if times:
                self._lay(row, min(times, row.times_in(self.left, self.length)))
            else:
                if self.again:
                    amount *= 1 + self._drawn(8)
                if amount > most:
                    most, chosen = amount, row
        if len(self.rows) > rows:
            return len(self.left)
        if chosen is None:
            self.usable = []
            return 1
        # what of it there still is, and more
        row, steps = self.finder.best(chosen.height, self.values, self.left)
        if row is not None:
            self._lay(row, 1)
        return steps

    def _is_full(self):
        return not self.usable or max(self.left) == 0 or self.length < self.heights[-1]

    # rows

    def _clear(self):
        self.rows, self.left, self.length = [], list(self.demand), self.cloth[1]

    def _lay_one_by_one(self):
        # rows of one size each, the dearest for its area first
        for way in by_density(self.lying, self.values):
            wide, high, kind, _ = self.lying[way]
            beside = self.cloth[0] // wide
            count = min(self.left[kind], beside * (self.length // high))
            for strips, times in ((beside, count // beside), (count % beside, 1)):
                if strips and times:
                    self._lay(Row(high, [([(way, 1)], strips)], {kind: strips}), times)

    def _lay(self, row, times):
        # more strips than are laid out are enough
        pieces = ENOUGH
        for most, left in zip(self.demand, self.left):
            pieces -= most - left
        times = min(times, -(-pieces // row.pieces()))
        if times < 1:
            self.length = 0
            return
        self.rows.append((row, times))
        self.length -= row.height * times
        for kind in range(len(self.left)):
            self.left[kind] -= row.counts.get(kind, 0) * times

    def _complete(self, heights, values):
        # the rest of the length in rows of most value together, one after the other as strips run out
        steps = 1
        while True:
            rows = []
            for height in heights:
                if height <= self.length:
                    row, more = self.finder.best(height, values, self.left)
                    steps += more
                    if row is not None:
                        rows.append(row)
            laid, more = self._lay_best(rows, values)
            steps += more
            if not laid:
                return steps

    def _lay_best(self, rows, values):
        # of the rows that are worth most together in the length, the one worth most for its height
        items, able = [], []
        for row in rows:
            times = row.times_in(self.left, self.length)
            if times:
                able.append(row)
                items.append((worth_of(row.counts, values), row.height, times))
        _, taken, _, steps = solve_knapsack(self.length, items, MOST_STEPS)
        best, rate, most = None, 0.0, 0
        for row, (value, height, _), times in zip(able, items, taken):
            if times and value / height > rate:
                best, rate, most = row, value / height, times
        if best is not None:
            self._lay(best, most)
        return best is not None, steps_of(items, steps) + 2 * len(rows)

    # the layout

    def _end(self):
        # of all rows, with the rest filled
        filling = Filling(self, list(self.left))
        tree = filling.layout(self.rows, self.length)
        value = 0
        for own, most, left in zip(self.values, self.demand, filling.left):
            value += own * (most - left)
        if value > self.value:
            self.value, self.tree = value, tree
        # a layout hardly worse may lead to a better one
        if value >= self.value - self.value // HARDLY:
            self.kept = self.rows
        return filling.steps

    def _try(self, rows, values, known=False):
        # these rows and what completes them, rows that are known already first
        laid = self.rows, self.left, self.length
        self._clear()
        for row, times in rows:
            self._lay(row, times)
        steps, again = 1, known
        while again:
            again, more = self._lay_best(self.columns, values)
            steps += more
        steps += self._complete(self.heights, values) + self._end()
        self.rows, self.left, self.length = laid
        return steps


def worth_of(counts, values):
    """Add up what so many of each kind are worth."""
    worth = 0
    for kind, value in enumerate(values):
        worth += value * counts.get(kind, 0)
    return worth
