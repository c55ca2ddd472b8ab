"""break-even: how many pieces a market must sell to pay for itself, and how likely it does."""

from math import log, sqrt

from ..declaring.errors import note, refuse
from ..declaring.spec import Calculator, Field
from ..numbers.ordering import in_order
from ..numbers.rounding import at_most, ceil, half_up
from ..numbers.samples import mean_of, variance_of
from ..numbers.student import student_below
from .price import CARD, MOST_PRICE

# more than could ever be sold or taken: never
MOST_PIECES = 1000000000
MOST_TAKINGS = 1000000000000000
FEWEST_DAYS = 3
FINE = 1000000  # parts of a piece in which remainders are compared, coarser than a float's last bits

MIX = [
    Field("name", "text", "The product", most=60, example="Everyday"),
    Field("price", "money", "Its price, without tax", highest=MOST_PRICE, example=600),
    Field("variable", "money", "What each further piece costs", highest=MOST_PRICE, example=150),
    Field("share", "number", "Its share of the pieces sold, in percent, pieces or parts", example=60),
]  # fmt: skip

INPUTS = [
    Field("fee", "money", "Fee for the pitch", highest=MOST_PRICE, example=6000, group="The day"),
    Field("fee_percent", "percent", "Share of the takings that the market takes", 0, group="The day"),
    Field("distance_km", "number", "Kilometres one way", 0, highest=20000, group="Getting there"),
    Field("trips", "count", "Times that way is gone; 2 is there and back", 2, highest=100,
          group="Getting there"),
    Field("per_km", "money", "Cost of a kilometre", 0, highest=MOST_PRICE, group="Getting there"),
    Field("helper_minutes", "minutes", "Time of a helper who is paid", 0, group="Time"),
    Field("helper_wage", "money", "What a helper is paid an hour", 0, highest=MOST_PRICE, group="Time"),
    Field("own_minutes", "minutes", "Your own time", 0, group="Time"),
    Field("wage", "money", "What you want for an hour of it", 0, highest=MOST_PRICE, group="Time"),
    Field("other", "money", "What else the day costs", 0, highest=MOST_PRICE, group="The day"),
] + CARD + [
    Field("off_percent", "percent", "How far offers lower the prices, on average", 0, group="Selling"),
    Field("mix", "list", "What is sold", fields=MIX, most=60, fewest=1, group="Selling"),
    Field("past", "list", "Takings of days like it", None, most=60, group="Days like it",
          item=Field("takings", "money", "Takings of a day, without tax", highest=MOST_PRICE * 1000,
                     example=70000)),
]  # fmt: skip

PRODUCT = [
    Field("name", "text", "The product"),
    Field("pieces", "count", "Pieces of it"),
]

WITH_WAGE = [
    Field("pieces", "count", "Pieces to sell", None),
    Field("takings", "money", "Takings that they bring", None),
]

REACHED = [
    Field("days", "count", "Days that reached it"),
    Field("of", "count", "Days that are known"),
]

OUTPUTS = [
    Field("pieces", "count", "Pieces to sell until the day is paid for; nothing if it never is", None,
          formula="{fixed} ÷ {contribution}, rounded up"),
    Field("takings", "money", "Takings at which it is", None),
    Field("contribution", "money", "What a piece of this mix leaves for it",
          formula="each price less offers, fee and card, less what the piece costs, by its share"),
    Field("fixed", "money", "What the day costs, whatever is sold",
          formula="{fee} + {distance_km} × {trips} × {per_km} + {helper_minutes} ÷ 60 × {helper_wage} + "
                  "{other}"),
    Field("by_product", "list", "The pieces by product", None, fields=PRODUCT, most=60),
    Field("with_wage", "object", "The same with your own time paid", fields=WITH_WAGE),
    Field("reached", "object", "Days like it that took as much", None, fields=REACHED),
    Field("chance", "percent", "Chance that such a day takes as much", None, close=True),
]  # fmt: skip


def work(given):
    """Work out the pieces and takings that pay for a market day, and the chance of them.

    What is spent whatever is sold is divided by what a piece of the mix leaves.
    `takings` are those at the very point, before pieces are rounded up; whole pieces
    go to products by largest remainder, ties in the order given. Shares may be
    percent, pieces or any parts: they are taken of their sum.
    `chance` looks at the logarithms of the days' takings as of one normal
    distribution: Student's t with n − 1 degrees of freedom, and the spread of a
    further day, s × √(1 + 1 ÷ n). Takings of 0 count as one minor unit there.
    Returns: pieces, takings, by_product, reached and chance None where a piece
    leaves nothing, with the note `never`; reached None without days, chance with fewer
    than three.
    Raises: Problems on mix if all shares are 0.
    Source: cost-volume-profit analysis; prediction interval of a normal sample.
    """
    fixed, own = _fixed(given)
    price, left = _of_a_piece(given)
    pieces, takings = _point(fixed, price, left)
    wage_pieces, wage_takings = _point(fixed + own, price, left)
    reached, chance = _days_that_reached(given["past"] or [], takings)
    result = {
        "fixed": half_up(fixed),
        "contribution": half_up(left),
        "pieces": pieces,
        "by_product": None if pieces is None else _by_product(given["mix"], pieces),
        "takings": _money(takings),
        "with_wage": {"pieces": wage_pieces, "takings": _money(wage_takings)},
        "reached": reached,
        "chance": chance,
    }
    return result, [note("pieces", "never")] if pieces is None else []


def _money(value):
    return None if value is None else half_up(value)


def _fixed(given):
    # what the day costs, and what her own time does
    fixed = given["fee"] + given["distance_km"] * given["trips"] * given["per_km"]
    fixed += given["helper_minutes"] * given["helper_wage"] / 60 + given["other"]
    return fixed, given["own_minutes"] * given["wage"] / 60


def _of_a_piece(given):
    # what a piece of the mix takes, and what of it is left
    kept = 1 - given["fee_percent"] / 100 - given["card_fee"] / 100 * given["card_share"] / 100
    whole = price = left = 0.0
    for row in given["mix"]:
        asked = row["price"] * (1 - given["off_percent"] / 100)
        whole += row["share"]
        price += row["share"] * asked
        left += row["share"] * (asked * kept - row["variable"])
    if whole <= 0:
        refuse("mix", "no_share")
    return price / whole, left / whole


def _point(fixed, price, left):
    if at_most(left, 0):
        return None, None
    exact = fixed / left
    return (
        (None, None) if exact > MOST_PIECES or exact * price > MOST_TAKINGS else (ceil(exact), exact * price)
    )


def _by_product(mix, pieces):
    whole = 0.0
    for row in mix:
        whole += row["share"]
    exact = [pieces * row["share"] / whole for row in mix]
    counts = [int(part) for part in exact]
    left = pieces
    for count in counts:
        left -= count
    rows = in_order(list(range(len(mix))), lambda row: -half_up((exact[row] - counts[row]) * FINE))
    for row in rows[: max(0, left)]:
        counts[row] += 1
    return [{"name": row["name"], "pieces": count} for row, count in zip(mix, counts)]


def _days_that_reached(past, needed):
    # how many days reached it, and the chance that one does
    if not past or needed is None:
        return None, None
    reached = len([takings for takings in past if at_most(needed, takings)])
    return {"days": reached, "of": len(past)}, _chance(past, needed)


def _chance(past, needed):
    count = len(past)
    if count < FEWEST_DAYS:
        return None
    if needed <= 0:
        return 100.0
    logs = [log(max(1, takings)) for takings in past]
    above = mean_of(logs) - log(needed)
    spread = sqrt(variance_of(logs) * (1 + 1 / count))
    # days that are all alike have a spread all the same, of a float's last bits
    if at_most(spread, 0):
        return 100.0 if at_most(0, above) else 0.0
    return 100 * student_below(above / spread, count - 1)


CALCULATOR = Calculator(
    "break-even",
    "Break-even",
    "How many pieces a market day must sell to pay for itself, and how likely such a day does.",
    INPUTS,
    OUTPUTS,
    work,
    main=("pieces", "takings", "chance"),
)
