"""A bound on layouts of any cuts: across the cloth lies no more anywhere than fits side by side.

Give each size any value, spread evenly over a strip's height. Then a line across
a cloth is worth no more than the best pattern of its width, and the cloth is
as long as the value of all strips needs. Values come from the linear programme
over such patterns, *bars*, each for any part of the length; the proof asks nothing
of them and is done in whole numbers.
Source: Belov, Kartak, Rohling and Scheithauer, One-dimensional relaxations and LP
bounds for orthogonal packing, International Transactions in Operational Research
16 (2009), on bars.
"""

from ...numbers.whole_parts import divisor_of
from ..knapsack import effort_of, solve_knapsack
from ..rows.columns import Column, WarmStart
from ..rows.problem import Problem
from ..rows.simplex import RestrictedMaster

VALUE_OF_ALL = 268435456  # keeps the whole numbers small on the phone
MOST_STEPS = 3000
LEAST_REDUCED_COST = -1e-6  # above that a bar gains nothing


class BarBound:
    """The programme over patterns of a line across, a pivot or a pricing at a time.

    Takes: component.
    Has: done; effort; bound, in mm of bolt or minor units as the rates of the component
    are: what the rows of no layout come to less than.
    """

    def __init__(self, component):
        self.component = component
        self.effort, self.bound = 1, 0.0
        self.ways = [self._ways(cloth) for cloth in component.cloths]
        on_bolts = [size for index in component.bolts for size, _, _ in self.ways[index]]
        # what no bolt takes may be left out: it asks for nothing
        self.demand = [count if size in on_bolts else 0 for size, count in enumerate(component.demand)]
        self.lengths = [self._length(cloth, own) for cloth, own in zip(component.cloths, self.ways)]
        self.done = not on_bolts
        self.highest = max([high for own in self.ways for _, high, _ in own] + [1])
        problem = Problem(self.demand, [], component.stores, [])
        self.master = RestrictedMaster(problem, 1, [], WarmStart([]), [])

    def _ways(self, cloth):
        # (size, height, extent) in whole parts; a strip itself is not as high as the print's repeat
        found = []
        for size, strip in enumerate(self.component.strips):
            for extent, _, turned in self.component.ways(strip, cloth):
                found.append((size, self.component.to_parts(cloth.height_of(strip, turned)), extent))
        return found

    def _length(self, cloth, ways):
        # of a remnant, what strips one behind the other can take of its length
        if cloth.length is None:
            return None
        capacity = self.component.to_parts(cloth.length)
        pieces = [(high, high, self.demand[size]) for size, high, _ in ways]
        _, _, upper, steps = solve_knapsack(capacity, pieces, MOST_STEPS)
        self.effort += effort_of(len(pieces), steps)
        return min(upper, capacity)

    def step(self):
        """Do a little of the work."""
        if self.done:
            return
        before = self.master.columns_seen
        if self.master.pivot() or self.master.refactorise():
            rows = len(self.master.rhs)
            self.effort += 3 + (rows * rows + 4 * (self.master.columns_seen - before)) // 90
        else:
            self._price()

    def _price(self):
        duals = self.master.duals = self.master.compute_duals()
        total = 0.0
        for value, count in zip(duals, self.demand):
            total += max(0.0, value) * count
        factor = VALUE_OF_ALL / total if total else 1.0
        values = [int(max(0.0, value) * factor) for value in duals[: len(self.demand)]]
        bars = [self._best_bar(index, values) for index in range(len(self.ways))]
        self.bound = max(self.bound, self._proven(values, [upper for upper, _ in bars]))
        self.done = True
        for index, (_, counts) in enumerate(bars):
            column = self._column(index, counts)
            reduced_cost = column.cost
            for row, cell in column.cells:
                reduced_cost -= cell * duals[row]
            if reduced_cost < LEAST_REDUCED_COST:
                self.master.add(column)
                self.done = False

    def _best_bar(self, index, values):
        # the value of a line across, over the highest strip's height, rounded up: (upper, counts)
        pieces = [
            (-(-values[size] * self.highest // high), extent, self.demand[size])
            for size, high, extent in self.ways[index]
        ]
        _, counts, upper, steps = solve_knapsack(self.component.width_of(index), pieces, MOST_STEPS)
        self.effort += effort_of(len(pieces), steps)
        return upper, counts

    def _column(self, index, counts):
        # of a bolt so much as the highest strip is high, of a remnant all of it
        component, amounts = self.component, {}
        length = self.lengths[index]
        on_bolt = length is None
        if on_bolt:
            length = self.highest
        for (size, high, _), count in zip(self.ways[index], counts):
            if count:
                amounts[size] = amounts.get(size, 0.0) + count * length / high
        cells = [(size, amounts[size]) for size in range(len(self.demand)) if size in amounts]
        # it stands for a row, as a slack does not
        rows = (component.cloths[index],)
        if on_bolt:
            return Column(rows, (), cells, component.rates[index] / max(component.rates))
        store = (len(self.demand) + component.store_of(index), 1.0)
        return Column(rows, (), cells + [store], 0.0)

    def _proven(self, values, uppers):
        # what the bolts must hold beside the remnants, and what that takes at least of one of them
        component, rest, least = self.component, 0, None
        for value, count in zip(values, self.demand):
            rest += value * count * self.highest
        # one part more, where heights are not whole parts
        more = 0 if component.is_exact() else 1
        for length, upper in zip(self.lengths, uppers):
            if length is not None:
                rest -= upper * (length + more)
        for index in component.bolts:
            if rest > 0 and uppers[index]:
                length = self._in_steps(rest, uppers[index]) * component.rates[index] / component.parts_of_mm
                least = length if least is None else min(least, length)
        return least or 0.0

    def _in_steps(self, rest, upper):
        # rows are as high as whole numbers of strips, or of a print's repeat
        component = self.component
        if not component.is_exact():
            return rest // upper
        heights = [high for index in component.bolts for _, high, _ in self.ways[index]]
        step = divisor_of(heights + component.repeats_of_bolts())
        return -(-rest // (upper * step)) * step
