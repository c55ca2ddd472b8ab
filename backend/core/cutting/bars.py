"""A bound on layouts of any cuts: across the cloth lies no more anywhere than fits side by side.

Give each size any worth, spread evenly over a strip's height. Then a line across
a cloth is worth no more than the fullest filling of its width, and the cloth is
as long as the worth of all strips needs. Worths come from the linear programme
over such fillings, each for any part of the length; the proof asks nothing of
them and is done in whole numbers.
Source: Belov, Kartak, Rohling and Scheithauer, One-dimensional relaxations and LP
bounds for orthogonal packing, International Transactions in Operational Research
16 (2009), on bars.
"""

from .columns import Basis, Column
from .fullest import fullest
from .grid import FINEST, divisor_of, in_parts
from .master import Master
from .plan import Plan

WORTH_OF_ALL = 268435456  # keeps the whole numbers small on the phone
MOST_STEPS = 3000
SMALL = 1e-6


class Bars:
    """The programme over fillings of a line across, a pivot or a pricing at a time.

    Takes: part.
    Has: done; effort; least, in mm of bolt or minor units as the rates of the part
    are: what the rows of no layout come to less than.
    """

    def __init__(self, part):
        self.part = part
        self.effort, self.least = 1, 0.0
        self.ways = [self._ways(cloth) for cloth in part.cloths]
        on_bolts = [size for index in part.bolts for size, _, _ in self.ways[index]]
        # what no bolt takes may be left out: it asks for nothing
        wanted = part.search.plan.wanted
        self.wanted = [count if size in on_bolts else 0 for size, count in enumerate(wanted)]
        self.lengths = [self._length(cloth, own) for cloth, own in zip(part.cloths, self.ways)]
        self.done = not on_bolts
        self.high = max([high for own in self.ways for _, high, _ in own] + [1])
        plan = Plan(self.wanted, [], part.search.plan.stores, [])
        self.master = Master(plan, 1, [], Basis([]), [])

    def _ways(self, cloth):
        # (size, height, reach) in whole parts; a strip itself is not as high as the print's repeat
        found = []
        for size, strip in enumerate(self.part.strips):
            for reach, _, turned in self.part.ways(strip, cloth):
                height = (strip["length"] if turned else strip["width"]) + 2 * cloth.loss
                found.append((size, in_parts(height, self.part.parts), reach))
        return found

    def _length(self, cloth, ways):
        # of a remnant, what strips one behind the other can take of its length
        if cloth.length is None:
            return None
        room = in_parts(cloth.length, self.part.parts)
        pieces = [(high, high, self.wanted[size]) for size, high, _ in ways]
        _, _, upper, steps = fullest(room, pieces, MOST_STEPS)
        self.effort += 1 + steps // 16
        return min(upper, room)

    def step(self):
        """Do a little of the work."""
        if self.done:
            return
        looked = self.master.looked
        if self.master.pivot() or self.master.settle():
            rows = len(self.master.right)
            self.effort += 3 + (rows * rows + 4 * (self.master.looked - looked)) // 90
        else:
            self._price()

    def _price(self):
        worth = self.master.worth = self.master.duals()
        total = 0.0
        for value, count in zip(worth, self.wanted):
            total += max(0.0, value) * count
        factor = WORTH_OF_ALL / total if total else 1.0
        worths = [int(max(0.0, value) * factor) for value in worth[: len(self.wanted)]]
        fullest_of = [self._fullest(index, worths) for index in range(len(self.ways))]
        self.least = max(self.least, self._proven(worths, [upper for upper, _ in fullest_of]))
        self.done = True
        for index, (_, counts) in enumerate(fullest_of):
            column = self._column(index, counts)
            less = column.cost
            for row, cell in column.cells:
                less -= cell * worth[row]
            if less < -SMALL:
                self.master.add(column)
                self.done = False

    def _fullest(self, index, worths):
        # the worth of a line across, over the highest strip's height, rounded up: (upper, counts)
        pieces = [
            (-(-worths[size] * self.high // high), reach, self.wanted[size])
            for size, high, reach in self.ways[index]
        ]
        room = in_parts(self.part.cloths[index].width, self.part.parts)
        _, counts, upper, steps = fullest(room, pieces, MOST_STEPS)
        self.effort += 1 + steps // 16
        return upper, counts

    def _column(self, index, counts):
        # of a bolt so much as the highest strip is high, of a remnant all of it
        held, cloth = {}, self.part.cloths[index]
        length = self.high if cloth.length is None else self.lengths[index]
        for (size, high, _), count in zip(self.ways[index], counts):
            if count:
                held[size] = held.get(size, 0.0) + count * length / high
        cells = [(size, held[size]) for size in range(len(self.wanted)) if size in held]
        if cloth.length is None:
            return Column((cloth,), (), cells, self.part.rates[index] / max(self.part.rates))
        store = len([one for one in self.part.cloths[:index] if one.length is not None])
        return Column((cloth,), (), cells + [(len(self.wanted) + store, 1.0)], 0.0)

    def _proven(self, worths, uppers):
        # what the bolts must hold beside the remnants, and what that takes at least of one of them
        rest, least = 0, None
        for value, count in zip(worths, self.wanted):
            rest += value * count * self.high
        # one part more, where heights are not whole parts
        more = 1 if self.part.parts == FINEST else 0
        for length, upper in zip(self.lengths, uppers):
            if length is not None:
                rest -= upper * (length + more)
        for index in self.part.bolts:
            if rest > 0 and uppers[index]:
                length = self._in_steps(rest, uppers[index]) * self.part.rates[index] / self.part.parts
                least = length if least is None else min(least, length)
        return least or 0.0

    def _in_steps(self, rest, upper):
        # rows are as high as whole numbers of strips, or of a print's repeat
        if self.part.parts == FINEST:
            return rest // upper
        heights = [high for index in self.part.bolts for _, high, _ in self.ways[index]]
        for index in self.part.bolts:
            heights.append(in_parts(self.part.cloths[index].given["repeat"], self.part.parts))
        step = divisor_of(heights)
        return -(-rest // (upper * step)) * step
