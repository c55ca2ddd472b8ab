"""What to put into a box of so many places: always the piece that is likeliest to bring most."""

from ..numbers.counts import added_up, left_above
from ..numbers.rounding import GUARD


class Wanted:
    """How many of one product are wanted, and what a piece of it brings.

    Takes: parts, the chances that 0, 1, … are wanted, more than there are pieces or places; stock; gain of a
    piece sold, carry of one brought back; at_least, pieces that come in any case.
    """

    def __init__(self, parts, stock, gain, carry=0, at_least=0):
        self.up_to, self.above = added_up(parts), left_above(parts)
        self.stock = stock
        self.gain = gain
        self.carry = carry
        self.at_least = at_least

    def worth(self, number):
        """Tell what one piece more is worth beside so many.

        Example: Wanted([0.25, 0.75], 2, 100, 20).worth(0) == 70.0
        """
        return self.gain * self.above[number] - self.carry * self.up_to[number]

    def sold(self, number):
        """Tell how many of so many sell, on average. Example: Wanted([0.25, 0.75], 2, 100).sold(2) == 0.75"""
        return _total(self.above[:number])

    def left(self, number):
        """Tell how many of so many stay, on average. Example: Wanted([0.25, 0.75], 2, 100).left(2) == 1.25"""
        return _total(self.up_to[:number])


def _total(values):
    whole = 0.0
    for value in values:
        whole += value
    return whole


def fill_box(products, capacity):
    """Choose how many of each product come: at_least first, then always the piece worth most.

    Of equal worths the first in the list; worths that differ by a float's last bits are equal, and so is
    next to nothing to nothing. What one piece more of a product is worth never rises, so no other box is
    worth more.
    Returns: (pieces by product, what one place more would be worth, [the product that each place went to]):
    a smaller box holds the first of these places.
    """
    bring, order = [], []
    for place, product in enumerate(products):
        bring.append(min(product.at_least, product.stock, capacity))
        capacity -= bring[-1]
        order += [place] * bring[-1]
    worths = [_next_worth(*one) for one in zip(products, bring)]
    while True:
        best = None
        for place, worth in enumerate(worths):
            if worth > 0 and (best is None or worth > worths[best] * (1 + GUARD)):
                best = place
        if best is None:
            return bring, 0.0, order
        if not capacity:
            return bring, worths[best], order
        order.append(best)
        bring[best] += 1
        capacity -= 1
        worths[best] = _next_worth(products[best], bring[best])


def _next_worth(product, number):
    if number >= product.stock:
        return 0.0
    worth = product.worth(number)
    return worth if worth > GUARD * max(1.0, abs(product.gain), product.carry) else 0.0
