"""bring-to-market: how many of each product to put into the box for the next market."""

from ..costing.offer_check import DAY as DAY_OF_OFFER
from ..costing.price import MOST_PRICE
from ..declaring.errors import note, refuse
from ..declaring.spec import Calculator, Field, by_name
from ..numbers.counts import MOST_MEAN, chances
from ..numbers.money import to_hundredths
from ..numbers.rounding import at_most
from .box import Wanted, fill_box
from .demand import Learnt
from .known_days import any_sold, refuse_bad_days, rows_of
from .scoring import Scores, reaches

SPREAD_OF_A_GUESS = 0.6
FIRST_CHECKED = 4  # the fifth day
MOST_PIECES = 5000
LOW, HIGH = 0.1, 0.9

HOURS = by_name(DAY_OF_OFFER)["hours"]
PRODUCT = Field("product", "text", "The product", example="Everyday, lawn")
MARKET = Field("market", "text", "The market", example="Harbour market")

ROW = [
    PRODUCT,
    Field("sold", "count", "Pieces sold", highest=MOST_PIECES, example=8),
    Field("hours", "number", "Hours until it had sold out; left out where it had not", None, highest=1000),
    Field("asked", "count", "How often it was asked for with none left", 0, highest=MOST_PIECES),
]
DAY = [
    MARKET,
    HOURS,
    Field("rows", "list", "Each product that was there", fields=ROW, most=60),
]
PACKED = [
    PRODUCT,
    Field("group", "text", "What it is alike to, such as its size", example="Everyday"),
    Field("stock", "count", "Pieces there are", highest=MOST_PIECES, example=20),
    Field("gain", "money", "Price less fees and cost of a piece", lowest=-MOST_PRICE, highest=MOST_PRICE,
          example=400),
    Field("carry", "money", "What it costs to carry a piece there and back", 0, highest=MOST_PRICE),
    Field("at_least", "count", "Pieces that come in any case, as far as there are", 0, highest=MOST_PIECES),
    Field("mean", "number", "How many will be wanted, where you know better", None, highest=MOST_MEAN),
    Field("size", "number", "How even that is: the variance is mean + mean² ÷ size; left out with a mean, as "
          "even as chance lets it", None, lowest=0.1, highest=1000000),
]  # fmt: skip
INPUTS = [
    Field("products", "list", "What could come", fields=PACKED, fewest=1, most=60, group="The box"),
    Field("capacity", "count", "Pieces that the box holds", highest=MOST_PIECES, example=120,
          group="The box"),
    Field("market", "text", "The market it is for", example="Harbour market", group="The market"),
    Field("hours", "number", "Hours it is open, all its days together", lowest=0.1, highest=1000, example=6,
          group="The market"),
    Field("market_days", "count", "Days it lasts", 1, lowest=1, highest=31, group="The market"),
    Field("factor", "percent", "Season: 100 as usual, 150 for half as much again", 100, highest=1000,
          group="The market"),
    Field("days", "list", "Market days that are over, the latest last", [], fields=DAY, most=60,
          group="What is known"),
    Field("guess", "count", "Pieces wanted in all, where no day is known", None, highest=30000, example=60,
          group="What is known"),
    Field("asked_share", "percent", "How many of 100 who find nothing left ask and are noted; left out, it "
          "is worked out", None, group="What is known"),
    Field("check", "flag", "See how near it would have come on the days that are over", False,
          group="How good it is"),
    Field("steps", "count", "How many days to look at for that", 60, group="How good it is"),
]  # fmt: skip

TOLD = [
    PRODUCT,
    Field("bring", "count", "Pieces to bring"),
    Field("share", "percent", "Its share of what is wanted", None),
    Field("mean", "number", "How many will be wanted, on average"),
    Field("low", "count", "In nine of ten days at least so many"),
    Field("high", "count", "In nine of ten days at most so many"),
    Field("sell_out", "percent", "Chance that more are wanted than you bring", close=True),
    Field("sold", "number", "Pieces sold, on average", close=True),
    Field("left", "number", "Pieces brought back, on average", close=True),
]
CHECKED = [
    Field("crps", "number", "How far off it was, in pieces a product and day: the less the better", None,
          close=True),
    Field("last_time", "number", "How far off as many as last time would have been", None),
    Field("mean_sold", "number", "How far off the mean sold before would have been", None),
    Field("days", "count", "Days looked at"),
]  # fmt: skip
OUTPUTS = [
    Field("products", "list", "What to bring", fields=TOLD, most=60),
    Field("slot_worth", "money_each", "What room for one piece more would be worth", close=True,
          formula="the most that one more piece beyond {capacity} is worth: gain × chance that it is wanted "
                  "− carrying × chance that it is not"),
    Field("level", "number", "Pieces wanted an hour at this market", None,
          formula="pieces sold there ÷ its hours, each product's hours by its share and until it sold out"),
    Field("asked_share", "percent", "How many of 100 who found nothing left asked"),
    Field("check", "object", "How near it came on the days that are over", None, fields=CHECKED),
]  # fmt: skip


class Packing:
    """A box that is filled, and the check of how it was foretold, a day at a time."""

    def __init__(self, given):
        refuse_bad_days(given)
        self.given = given
        self.numbers = {row["product"]: number for number, row in enumerate(given["products"])}
        names = [row["group"] for row in given["products"]]
        self.groups = [names.index(name) for name in names]
        self.rows, others = rows_of(given["days"], self.numbers)
        self.notes = [note("days", "rows_of_others", others, quantity="count")] if others else []
        self.learnt = self.learn(given["days"])
        self.result = self._packed()
        self.scores, self.next_day = Scores(), FIRST_CHECKED

    def learn(self, days):
        """Learn from days; None where nothing was sold on any."""
        rows = [row for row in self.rows if row.day < len(days)]
        if not any_sold(rows):
            return None
        asked = self.given["asked_share"]
        markets = [day["market"] for day in days]
        return Learnt(rows, markets, self.groups, None if asked is None else asked / 100)

    def _packed(self):
        given, told = self.given, []
        self.laws = laws = self.laws_at(given)
        self.wanted = wanted = [
            Wanted(self._chances(row, law), row["stock"], row["gain"], row["carry"], row["at_least"])
            for row, law in zip(given["products"], laws)
        ]
        bring, slot_worth, self.order = fill_box(wanted, given["capacity"])
        for row, one, number, law in zip(given["products"], wanted, bring, laws):
            told.append(_told(row["product"], one, number, law))
        self._note_what_does_not_fit(bring)
        return {
            "products": told,
            "slot_worth": to_hundredths(slot_worth),
            "level": self.learnt.level_at(given["market"])[0] if self.learnt else None,
            "asked_share": 100 * self.learnt.asked if self.learnt else given["asked_share"] or 0.0,
        }

    def laws_at(self, given):
        """Foretell a market from the days of this question: for each product (mean, size, share).

        Takes: given, as this was asked; its market, hours, market_days and factor may be others.
        """
        return [self._law(*one) for one in zip(given["products"], self._foretold(given))]

    def _foretold(self, given):
        if self.learnt:
            if given["market"] not in self.learnt.levels:
                self.notes.append(note("market", "new_market"))
            market_days, factor = given["market_days"], given["factor"] / 100
            return self.learnt.foretell(given["market"], given["hours"], market_days, factor)
        guess, count = given["guess"], len(given["products"])
        if guess is None:
            if [row for row in given["products"] if row["mean"] is None]:
                refuse("guess", "guess_needed")
            return [(0.0, None, None)] * count
        if [row for row in given["products"] if row["mean"] is None]:
            self.notes.append(note("guess", "from_a_guess"))
        return [(guess / count, 1 / SPREAD_OF_A_GUESS, 1 / count)] * count

    def _law(self, row, foretold):
        mean, size, share = foretold
        if row["mean"] is not None:
            mean, size = row["mean"], None
        if row["size"] is not None:
            size = row["size"]
        if mean > MOST_MEAN:
            self.notes.append(note("products", "mean_capped", row["product"], MOST_MEAN, "count"))
        return min(mean, float(MOST_MEAN)), size, share

    def _chances(self, row, law):
        mean, size, _ = law
        most = min(row["stock"], self.given["capacity"])
        return chances(mean, size, max(most, reaches(mean, size)))

    def _note_what_does_not_fit(self, bring):
        short = 0
        for row, number in zip(self.given["products"], bring):
            short += max(0, min(row["at_least"], row["stock"]) - number)
        if short:
            self.notes.append(note("capacity", "box_too_small", short, quantity="count"))

    def is_done(self):
        """Say whether all is done: the check of each day, or none is asked for."""
        return not self.given["check"] or self.next_day >= len(self.given["days"])

    def check_a_day(self):
        """Foretell the next day from those before it, and score that by what was sold."""
        days, number = self.given["days"], self.next_day
        self.next_day += 1
        learnt, market, scored = self.learn(days[:number]), days[number]["market"], len(self.scores.crps)
        if learnt is None:
            return
        # for each product an hour, to be taken by the hours that it was there
        foretold, before = learnt.foretell(market, 1.0), self._sold_before(number, market)
        for row in self.rows:
            if row.day == number and row.hours > 0 and before[row.product]:
                mean, size, _ = foretold[row.product]
                mean = min(mean * row.hours, float(MOST_MEAN))
                self.scores.add(mean, size, row.sold, before[row.product])
        self.scores.days += len(self.scores.crps) > scored

    def _sold_before(self, day, market):
        # by product what was sold of it earlier, at the same market behind the rest
        away = [[] for _ in self.groups]
        here = [[] for _ in self.groups]
        for row in self.rows:
            if row.day < day:
                same = self.given["days"][row.day]["market"] == market
                (here if same else away)[row.product].append(row.sold)
        return [one + other for one, other in zip(away, here)]


def _told(name, wanted, bring, law):
    mean, _, share = law
    return {
        "product": name,
        "bring": bring,
        "share": None if share is None else 100 * share,
        "mean": mean,
        "low": _reached(wanted.up_to, LOW),
        "high": _reached(wanted.up_to, HIGH),
        "sell_out": 100 * wanted.above[bring],
        "sold": wanted.sold(bring),
        "left": wanted.left(bring),
    }


def _reached(up_to, chance):
    for count, below in enumerate(up_to):
        if at_most(chance, below):
            return count
    return len(up_to) - 1


def advance(state, steps):
    """Check so many days more; returns whether all is done."""
    for _ in range(steps):
        if state.is_done():
            break
        state.check_a_day()
    return state.is_done()


def best(state):
    """Tell what to bring, with the check as far as it is: (result, notes)."""
    result = dict(state.result)
    result["check"] = state.scores.told() if state.given["check"] else None
    return result, state.notes


def work(given):
    """Foretell what each product sells at a market, and fill the box with what is likeliest to bring most.

    Days and products are fitted in two ways; a sell-out ends a product's hours, and those who then asked
    count as buyers by the share that asks (`two_ways`, `asked_for`). Shares are drawn to their group's and
    to those of all markets, and what is not sure of shares, level and day widens the law, a negative binomial
    (`demand`). `mean` and `size` given stand instead. Where no piece was sold on any day, `guess` is shared
    evenly. The box (`box`) is exact, as what one more piece is worth never rises. Cloths are not taken to
    stand in for each other.
    `check` foretells each day from the fifth out of those before, products that were sold before alone: the
    mean score (`scoring`) of that, of last time's at the same market (else anywhere) and of the mean sold.
    Returns: share None for all where there is neither day nor guess; level None where no piece was sold.
    Raises: Problems on a product that is there twice, on hours until sold out above the day's, on a guess
    that is needed.
    Source: Agrawal & Smith, Naval Research Logistics 43 (1996) 839–861 (counts with lost sales); marginal
    analysis of the newsvendor.
    """
    state = Packing(given)
    advance(state, given["steps"])
    return best(state)


CALCULATOR = Calculator(
    "bring-to-market",
    "What to bring",
    "How many of each product to bring to the next market, by what sold on days before.",
    INPUTS,
    OUTPUTS,
    work,
    main=("products", "slot_worth"),
    by_steps=(Packing, advance, best),
)
