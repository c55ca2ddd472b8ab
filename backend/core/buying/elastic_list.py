"""Elastic for what is planned: cut from the rolls at home first, the rest from rolls to buy."""

from ..cutting import elastic_rolls
from ..errors import Problems, problem
from ..rounding import ceil

MOST_STEPS = 3000  # what elastic-rolls looks for by itself; few plans take a tenth of it


class Elastic:
    """The elastic of a plan in the middle of the work.

    Takes: pieces, [(strip, length, quantity)], the strip by its number; rolls,
    those with a count at home, those without to be bought.
    Raises: Problems on a strip whose elastic is longer than every roll to buy.
    """

    def __init__(self, pieces, rolls):
        self.rolls = rolls
        self.at_home = [number for number, roll in enumerate(rolls) if roll["count"]]
        self.to_buy = [number for number, roll in enumerate(rolls) if roll["count"] is None]
        self.wanted = _merged(pieces)
        _refuse_too_long(pieces, [rolls[number]["length"] for number in self.to_buy])
        longest = max([rolls[number]["length"] for number in self.at_home] + [0.0])
        self.home = self._begin(self.at_home, [row for row in self.wanted if row["length"] <= longest])
        self.rest, self.shop = None, None
        self.advance(0)

    def _begin(self, numbers, lengths):
        if not numbers or not lengths:
            return None
        rolls = [{"length": self.rolls[at]["length"], "count": self.rolls[at]["count"]} for at in numbers]
        return elastic_rolls.start({"lengths": lengths, "rolls": rolls})

    def advance(self, steps):
        """Work on until so many steps are done in all; returns whether all is done."""
        steps = min(steps, MOST_STEPS)
        done = _until(self.home, steps)
        rest = self._left_by_home()
        if rest != self.rest:
            # begun anew where more is found at home, and worked on as far as if begun so
            self.rest, self.shop = rest, self._begin(self.to_buy, rest)
        return (_until(self.shop, steps) and done) or steps == MOST_STEPS

    def _left_by_home(self):
        if not self.home:
            return self.wanted
        cut = {}
        for pattern in elastic_rolls.best(self.home)[0]["patterns"]:
            for row in pattern["cuts"]:
                cut[row["length"]] = cut.get(row["length"], 0) + row["count"] * pattern["times"]
        left = [(row["length"], row["quantity"] - cut.get(row["length"], 0)) for row in self.wanted]
        return [{"length": length, "quantity": quantity} for length, quantity in left if quantity]

    def patterns(self):
        """List how each roll is cut, those at home first, as elastic-rolls tells it, and whether at home."""
        found = []
        for search, numbers, at_home in ((self.home, self.at_home, True), (self.shop, self.to_buy, False)):
            for pattern in elastic_rolls.best(search)[0]["patterns"] if search else []:
                pattern["roll"] = numbers[pattern["roll"]]
                pattern["at_home"] = at_home
                found.append(pattern)
        return found

    def unplaced(self):
        """List what no roll is there for: [{length, count}]."""
        if self.to_buy:
            return []
        return [{"length": row["length"], "count": row["quantity"]} for row in self.rest]

    def bound(self, bought):
        """Tell how many rolls at least are to be bought, whichever pieces are cut from those at home."""
        if not self.shop:
            return 0
        if not self.home:
            return elastic_rolls.best(self.shop)[0]["bound"]
        needed = length_of(self.wanted)
        for number in self.at_home:
            needed -= self.rolls[number]["length"] * self.rolls[number]["count"]
        longest = max([self.rolls[number]["length"] for number in self.to_buy])
        return min(bought, max(0, ceil(needed / longest)))

    def effort(self):
        """Tell how many steps the search took."""
        steps = 0
        for search in (self.home, self.shop):
            steps += search.search.effort if search else 0
        return steps


def length_of(rows):
    """Add up the elastic in pieces: [{length, quantity}]."""
    length = 0.0
    for row in rows:
        length += row["length"] * row["quantity"]
    return length


def _until(search, steps):
    return search is None or elastic_rolls.advance(search, steps - search.steps)


def _merged(pieces):
    quantities = {}
    for _, length, quantity in pieces:
        quantities[length] = quantities.get(length, 0) + quantity
    lengths = []
    for _, length, _ in pieces:
        if length not in lengths:
            lengths.append(length)
    return [{"length": length, "quantity": quantities[length]} for length in lengths]


def _refuse_too_long(pieces, rolls):
    longest = max(rolls + [0.0])
    problems = [
        problem("strips." + str(number) + ".elastic", "roll_short", length, longest, "length")
        for number, length, _ in pieces
        if rolls and length > longest
    ]
    if problems:
        raise Problems(problems)
