"""What rolls of elastic cost, for the search for the least."""

from ..numbers.whole_parts import divisor_of

SHARES = 1000  # what a roll's length is told in, where fewest rolls leave a choice


class RollCosts:
    """What a roll costs in the whole numbers of the search: money before rolls, or rolls before their length.

    Takes: rolls, as they are given; longest, the longest of them in whole parts; most_rolls,
    more than which no sensible way of cutting takes.
    Has: prices, of each roll in minor units, nothing where it is there already, or None where
    one that is to be bought has none; by_price, whether money is what is to be least; each,
    the cost of a roll, or of `unit` minor units, with all that is only a choice among equals;
    left_out, of one piece: more than all rolls cost.
    """

    def __init__(self, rolls, longest, most_rolls):
        self.prices = prices_of(rolls)
        self.longest = longest
        # where every roll costs as much, the fewest cost least
        self.by_price = self.prices is not None and min(self.prices) < max(self.prices)
        if self.by_price:
            self.each, self.unit = most_rolls + 1, divisor_of(self.prices)
            self.left_out = (max(self.prices) // self.unit * self.each + 1) * (most_rolls + 1)
        else:
            self.each = most_rolls * SHARES + 1 if len(rolls) > 1 else 1
            self.left_out = self.each * (most_rolls + 1)

    def of(self, number, capacity):
        """Return what one roll costs, so long in whole parts."""
        if self.by_price:
            return self.prices[number] // self.unit * self.each + 1
        return self.each + (capacity * (SHARES - 1) // self.longest if self.each > 1 else 0)

    def least(self, bound, missing):
        """Return what a proven cost says no way of cutting takes less of: (rolls, money or None)."""
        for count in missing:
            bound -= count * self.left_out
        least = max(0, bound // self.each)
        if self.by_price:
            money = least * self.unit
            return -(-money // max(self.prices)), money
        return least, None


def prices_of(rolls):
    """List what each roll costs, nothing where it is there; None where one to be bought has no price."""
    prices = [roll["price"] for roll in rolls]
    bought = [price for roll, price in zip(rolls, prices) if roll["count"] is None]
    if not [price for price in prices if price is not None] or None in bought:
        return None
    return [price or 0 for price in prices]
