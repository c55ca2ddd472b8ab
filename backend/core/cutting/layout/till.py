"""What is paid at the till for the bolts of a plan: in the steps that each shop cuts, at its price."""

from ...numbers.money import cost_of
from ...numbers.rounding import ceil, floor
from ...numbers.whole_parts import FINEST, divisor_of, in_parts, parts_for


class Till:
    """What lengths of some bolts cost: minor units, or mm where not all have a price.

    Takes: numbers of the bolts and bolts, {number: Cloth}; priced, whether all have a
    price; heights, {number: the height of the lowest row on it}.
    Has: least, {number: the fewest steps that are worth buying}; of fewer none would hold a
    row, or they would cost as much.
    """

    def __init__(self, numbers, bolts, priced, heights):
        self.numbers, self.bolts, self.priced = numbers, bolts, priced
        self.least = {number: self._fewest(number, heights[number]) for number in numbers}
        self.rounded_off = 0.5 if priced else 0.0  # what money is at most rounded down by, of one bolt
        self.parts, self.lattice = self._lattice()

    def _fewest(self, number, height):
        cloth = self.bolts[number]
        step, minimum = cloth.given["shop_increment"], cloth.given["minimum_cut"]
        return max(1, floor(minimum / step), ceil(cloth.length_needed(height) / step))

    def _lattice(self):
        # (parts of one, how many of them all that can be paid is whole times of)
        single = []
        for number in self.numbers:
            cloth = self.bolts[number]
            step, minimum = cloth.given["shop_increment"], cloth.given["minimum_cut"]
            each = cloth.given["price"] / cloth.given["price_length"] if self.priced else 1.0
            single += [length * each for length in (step, minimum) if length]
        parts = parts_for(single)
        if self.priced and parts > 1:
            return 1, 1
        return parts, divisor_of([in_parts(one, parts) for one in single]) if parts != FINEST else 0

    def price_of(self, number, length_to_buy):
        """Return what a length of one bolt costs, as the shop cuts it."""
        given = self.bolts[number].given
        return cost_of(length_to_buy, given["price"], given["price_length"]) if self.priced else length_to_buy

    def price_of_steps(self, number, steps):
        """Return what so many steps of one bolt cost, or the least that is cut of it."""
        given = self.bolts[number].given
        return self.price_of(number, max(steps * given["shop_increment"], given["minimum_cut"]))

    def usable_length(self, number, steps):
        """Return what of so many steps of one bolt can be cut."""
        return self.bolts[number].usable_length(steps * self.bolts[number].given["shop_increment"])

    def price_of_rows(self, number, used):
        """Return what one bolt costs of which rows use so much; nothing where they use nothing."""
        cloth = self.bolts[number]
        return self.price_of(number, cloth.length_to_buy(cloth.length_needed(used)))

    def raised(self, price):
        """Raise a price that none is below to the next that can be paid."""
        if not self.lattice:
            return price
        steps = ceil(price * self.parts / self.lattice)
        return steps * self.lattice / self.parts
