"""Elastic for what is planned: cut from the rolls at home first, the rest from rolls to buy."""

from ..cutting import elastic_rolls
from ..declaring.errors import Problems, problem
from ..numbers.rounding import ceil

MOST_STEPS = 24000  # of all elastics together; few plans take a hundredth of it


def elastics_of(strips, rolls):
    """Begin the work on each elastic that strips need, in the order they first name it.

    Takes: strips and rolls as buy-list does; a roll gives elastic of its name alone.
    Raises: Problems on each strip whose elastic is longer than every roll to buy.
    """
    pieces = [
        (number, strip["elastic"], strip["quantity"], strip["elastic_name"])
        for number, strip in enumerate(strips)
        if strip["elastic"] is not None
    ]
    _refuse_too_long(pieces, rolls)
    names = []
    for piece in pieces:
        if piece[3] not in names:
            names.append(piece[3])
    return [
        Elastic(
            name, _merged([piece for piece in pieces if piece[3] == name]), rolls, MOST_STEPS // len(names)
        )
        for name in names
    ]


class Elastic:
    """One elastic of a plan in the middle of the work.

    Takes: wanted, [{length, quantity}], each length once; rolls, of which those of its
    name give it: with a count they are at home, without one to be bought; most_steps.
    """

    def __init__(self, name, wanted, rolls, most_steps):
        self.name, self.most_steps = name, most_steps
        self.wanted = wanted
        ours = [number for number, roll in enumerate(rolls) if roll["name"] == name]
        self.to_buy = [number for number in ours if rolls[number]["count"] is None]
        home = [number for number in ours if rolls[number]["count"]]
        first = [number for number in home if rolls[number]["use_first"]]
        # what one part of the rolls leaves is the next one's
        self.home = [_Part(first, rolls), _Part([number for number in home if number not in first], rolls)]
        self.shop = _Part(self.to_buy, rolls)
        self.rest = wanted
        self.advance(0)

    def advance(self, steps):
        """Work on until so many steps are done in all; returns whether all is done."""
        steps = min(steps, self.most_steps)
        done, self.rest = True, self.wanted
        for part in self.home:
            done = part.advance(self.rest, steps) and done
            self.rest = part.left()
        done = self.shop.advance(self.rest, steps) and done
        return done or steps == self.most_steps

    def patterns(self):
        """List how each roll is cut, those at home first, as elastic-rolls tells it, and whether at home."""
        found = []
        for part in self.home + [self.shop]:
            for pattern in part.patterns():
                told = dict(pattern)
                told.update({"roll": part.numbers[pattern["roll"]], "at_home": part is not self.shop})
                found.append(told)
        return found

    def unplaced(self):
        """List what no roll is there for: [{name, length, count}]."""
        rows = [] if self.to_buy else self.rest
        return [{"name": self.name, "length": row["length"], "count": row["quantity"]} for row in rows]

    def bound(self, bought):
        """Tell how many rolls at least are to be bought, whichever pieces are cut from those at home."""
        if not self.shop.search:
            return 0
        if not self._cut_at_home():
            return self.shop.told()["bound"]
        longest = max([roll["length"] for roll in self.shop.rolls])
        return min(bought, max(0, ceil(self._length_to_buy() / longest)))

    def cost_bound(self, cost):
        """Tell what at least is paid, in minor units, where all that is bought costs so much, or None."""
        if cost is None or not self.shop.search:
            return cost
        if not self._cut_at_home():
            proven = self.shop.told()["cost_bound"]
            return 0 if proven is None else proven
        rates = [(roll["price"] or 0) / roll["length"] for roll in self.shop.rolls]
        return min(cost, max(0, ceil(self._length_to_buy() * min(rates))))

    def _cut_at_home(self):
        return [part for part in self.home if part.search]

    def _length_to_buy(self):
        # what the rolls at home do not hold, whichever pieces are cut from them
        needed = length_of(self.wanted)
        for part in self.home:
            for roll in part.rolls:
                needed -= roll["length"] * roll["count"]
        return needed

    def effort(self):
        """Tell how many steps the search took."""
        steps = 0
        for part in self.home + [self.shop]:
            steps += part.search.search.effort if part.search else 0
        return steps


class _Part:
    """Rolls that are cut before others or after them, and the search for how."""

    def __init__(self, numbers, rolls):
        self.numbers = numbers
        # of rolls at home none has to be paid for
        self.rolls = [
            {
                "length": rolls[number]["length"],
                "count": rolls[number]["count"],
                "price": rolls[number]["price"] if rolls[number]["count"] is None else None,
            }
            for number in numbers
        ]
        self.lengths, self.search = None, None
        self.layout, self.found = None, []

    def advance(self, lengths, steps):
        """Work on the lengths wanted until so many steps are done; returns whether all is done."""
        if lengths != self.lengths:
            # begun anew where more is found before it, and worked on as far as if begun so
            self.lengths, self.search = lengths, self._begin(lengths)
        return self.search is None or elastic_rolls.advance(self.search, steps - self.search.steps)

    def _begin(self, lengths):
        longest = max([roll["length"] for roll in self.rolls] + [0.0])
        known = [row for row in lengths if row["length"] <= longest]
        return elastic_rolls.start({"lengths": known, "rolls": self.rolls}) if known else None

    def patterns(self):
        """List how each roll is cut, as far as is found."""
        layout = self.search.search.layout if self.search else None
        if layout is not self.layout:
            # told once for each that is found, however often it is asked for
            self.layout = layout
            self.found = elastic_rolls.best(self.search)[0]["patterns"] if layout else []
        return self.found

    def left(self):
        """List the lengths that are not cut from these rolls: [{length, quantity}]."""
        cut = {}
        for pattern in self.patterns():
            for row in pattern["cuts"]:
                cut[row["length"]] = cut.get(row["length"], 0) + row["count"] * pattern["times"]
        rows = [(row["length"], row["quantity"] - cut.get(row["length"], 0)) for row in self.lengths]
        return [{"length": length, "quantity": quantity} for length, quantity in rows if quantity]

    def told(self):
        """Tell all that is found and proven of these rolls, as elastic-rolls does."""
        return elastic_rolls.best(self.search)[0]


def length_of(rows):
    """Add up the elastic in pieces: [{length, quantity}]."""
    length = 0.0
    for row in rows:
        length += row["length"] * row["quantity"]
    return length


def _merged(pieces):
    quantities = {}
    for _, length, quantity, _ in pieces:
        quantities[length] = quantities.get(length, 0) + quantity
    lengths = []
    for _, length, _, _ in pieces:
        if length not in lengths:
            lengths.append(length)
    return [{"length": length, "quantity": quantities[length]} for length in lengths]


def _refuse_too_long(pieces, rolls):
    problems = []
    for number, length, _, name in pieces:
        to_buy = [roll["length"] for roll in rolls if roll["name"] == name and roll["count"] is None]
        if to_buy and length > max(to_buy):
            field = "strips." + str(number) + ".elastic"
            problems.append(problem(field, "roll_short", length, max(to_buy), "length"))
    if problems:
        raise Problems(problems)
