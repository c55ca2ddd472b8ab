"""Days by products: how much goes on a day, and each product's share of it, though some sold out."""

ROUNDS = 10
LEAST_PIECES = 0.5  # what a product begins with that never sold


class Row:
    """What was sold of one product on one day, in the hours it was there.

    Takes: day and product, as numbers; left, the hours after it had sold out; asked, how often it was asked
    for.
    """

    def __init__(self, day, product, sold, hours, left=0.0, asked=0):
        self.day = day
        self.product = product
        self.sold = sold
        self.hours = hours
        self.left = left
        self.asked = asked


def fit_two_ways(rows, days, products):
    """Fit sold = level of the day × share of the product × hours it was there.

    Takes: rows; days and products, how many there are. A sell-out ends the hours of a row: what was not
    there tells nothing.
    Returns: (levels, shares), pieces an hour by day and parts of 1 by product; 0 for what has no rows.
    Source: maximum likelihood of Poisson's law with an offset, by turns (Deming & Stephan 1940).
    Example: fit_two_ways([Row(0, 0, 3, 1.0), Row(0, 1, 1, 1.0)], 1, 2) == ([4.0], [0.75, 0.25])
    """
    # a phone goes through plain tuples in half the time, and this is all that it waits for
    cells = [(row.day, row.product, row.hours) for row in rows]
    of_day, of_product = [0.0] * days, [0.0] * products
    for row in rows:
        of_day[row.day] += row.sold
        of_product[row.product] += row.sold
    shares = list(of_product)
    for _, product, _ in cells:
        shares[product] = max(LEAST_PIECES, shares[product])
    shares = scaled(shares)
    levels = _levels(cells, shares, of_day)
    for _ in range(ROUNDS):
        seen = [0.0] * products
        for day, product, hours in cells:
            seen[product] += levels[day] * hours
        shares = scaled([ratio(*one) for one in zip(of_product, seen)])
        levels = _levels(cells, shares, of_day)
    return levels, shares


def exposures(rows, levels, products):
    """Add up by product the pieces that would have sold of it, were it all there is."""
    seen = [0.0] * products
    for row in rows:
        seen[row.product] += levels[row.day] * row.hours
    return seen


def _levels(cells, shares, of_day):
    there = [0.0] * len(of_day)
    for day, product, hours in cells:
        there[day] += shares[product] * hours
    return [ratio(*one) for one in zip(of_day, there)]


def ratio(part, whole):
    """Divide; 0 by nothing, which tells nothing. Example: ratio(3.0, 4.0) == 0.75"""
    return part / whole if whole > 0 else 0.0


def scaled(parts):
    """Scale parts so that they add up to 1; nothing stays nothing.

    Example: scaled([3.0, 1.0]) == [0.75, 0.25]
    """
    whole = 0.0
    for part in parts:
        whole += part
    return [ratio(part, whole) for part in parts]
