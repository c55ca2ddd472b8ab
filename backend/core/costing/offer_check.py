"""offer-check: what an offer gave away, what must have been extra, and how days with it differ."""

from ..declaring.errors import Problems, note, problem
from ..declaring.spec import Calculator, Field
from ..numbers.money import add_up
from ..numbers.rounding import at_most, half_up
from ..numbers.samples import mean_of, reach_of_difference
from .price import MOST_PRICE

SUPPOSED = (0, 25, 50, 75, 100)  # percent of the pieces that were extra
SURE = 0.95
MOST_OF_A_USE = MOST_PRICE * 200

USE = [
    Field("pieces", "count", "Pieces sold in it", lowest=1, highest=200, example=3),
    Field("full", "money", "What they come to at full price, without tax", highest=MOST_OF_A_USE,
          example=1800),
    Field("taken", "money", "What was taken for them, without tax", highest=MOST_OF_A_USE, example=1500),
    Field("variable", "money", "What they cost, without your time", highest=MOST_OF_A_USE, example=450),
]  # fmt: skip

DAY = [
    Field("hours", "number", "Hours it was open", lowest=0.1, highest=1000, example=6),
    Field("sales", "count", "Sales", example=40),
    Field("pieces", "count", "Pieces sold", example=62),
    Field("group_pieces", "count", "Those of them that the offer is for", example=20),
    Field("contribution", "money", "What was left of the takings after goods, fees and card",
          lowest=-MOST_PRICE * 1000, highest=MOST_PRICE * 1000, example=24000),
]  # fmt: skip

INPUTS = [
    Field("uses", "list", "Each time the offer was used", fields=USE, most=2000, group="The offer"),
    Field("with", "list", "Days with the offer", [], fields=DAY, most=60, group="Days"),
    Field("without", "list", "Days like them without it", [], fields=DAY, most=60, group="Days"),
]

MEASURES = ("contribution an hour", "pieces a sale", "group share")

# an offer may be above the full price
LOWEST = -1e15

EXTRA = [
    Field("pieces", "number", "Pieces", None, lowest=LOWEST),
    Field("percent", "percent", "Share of the pieces sold in it", None, lowest=LOWEST),
]

GAIN = [
    Field("extra", "percent", "If so many of the pieces would not have been sold without it"),
    Field("gain", "money", "More was left than without the offer; less, below nothing"),
]

TOLD_DAYS = [
    Field("measure", "choice", "What is compared: of money, pieces, or percent", choices=MEASURES),
    Field("with", "number", "Mean of the days with the offer", None, lowest=LOWEST),
    Field("without", "number", "Mean of those without", None, lowest=LOWEST),
    Field(
        "low",
        "number",
        "What the difference is at least, in 95 of 100 such comparisons",
        None,
        lowest=LOWEST,
        close=True,
    ),
    Field("high", "number", "What it is at most", None, lowest=LOWEST, close=True),
    Field("differs", "flag", "The days differ by more than chance explains", None),
]

OUTPUTS = [
    Field("given_away", "money", "Taken off the full price", formula="{full} − what was taken"),
    Field("full", "money", "The same pieces at full price"),
    Field("must_be_extra", "object", "What must have been sold on top for the offer to pay", fields=EXTRA),
    Field("gains", "list", "What the offer brought, by how many pieces were extra", fields=GAIN),
    Field("days", "list", "Days with the offer against days without", fields=TOLD_DAYS),
]


def work(given):
    """Work out what an offer gave away and what must have been extra; compare days with and without it.

    The pieces that were not extra would have been sold at full price, the extra ones
    not at all. `must_be_extra` is given away ÷ what a piece leaves at full price. Days
    are compared by their means, the interval is Welch's of with less without; a day
    without what a measure divides by is left out of it. They may differ for other reasons.
    Returns: must_be_extra None where nothing is left at full price, or even all
    pieces being extra would not do, with the note `offer_never_pays`; measures None
    where no day has them, low, high and differs without two days of each or where none
    differs from those of its kind; no rows of days where none is given.
    Raises: Problems on pieces of the group above those sold.
    Source: contribution analysis; Welch, Biometrika 34 (1947).
    """
    _refuse_more_of_the_group_than_in_all(given)
    uses = given["uses"]
    full, taken = add_up([use["full"] for use in uses]), add_up([use["taken"] for use in uses])
    left = full - add_up([use["variable"] for use in uses])
    extra, notes = _must_be_extra(full - taken, left, add_up([use["pieces"] for use in uses]))
    days = []
    if given["with"] or given["without"]:
        days = [_compared(measure, given) for measure in MEASURES]
    for row in days:
        if row["differs"]:
            notes.append(note("days", "differs", row["measure"]))
    result = {
        "given_away": full - taken,
        "full": full,
        "must_be_extra": extra,
        "gains": [
            {"extra": float(percent), "gain": half_up(taken - full + left * percent / 100)}
            for percent in SUPPOSED
        ],
        "days": days,
    }
    return result, notes


def _refuse_more_of_the_group_than_in_all(given):
    problems = []
    for name in ("with", "without"):
        for number, day in enumerate(given[name]):
            if day["group_pieces"] > day["pieces"]:
                field = name + "." + str(number) + ".group_pieces"
                problems.append(problem(field, "highest", day["group_pieces"], day["pieces"], "count"))
    if problems:
        raise Problems(problems)


def _must_be_extra(given_away, left, pieces):
    if not pieces:
        return {"pieces": None, "percent": None}, []
    if left <= 0 or given_away > left:
        return {"pieces": None, "percent": None}, [note("must_be_extra", "offer_never_pays")]
    share = given_away / left
    return {"pieces": share * pieces, "percent": 100 * share}, []


def _compared(measure, given):
    one, other = _measured(measure, given["with"]), _measured(measure, given["without"])
    told = {
        "measure": measure,
        "with": mean_of(one) if one else None,
        "without": mean_of(other) if other else None,
        "low": None,
        "high": None,
        "differs": None,
    }
    reach, _ = reach_of_difference(one, other, SURE)
    if reach is not None:
        difference = told["with"] - told["without"]
        told["low"], told["high"] = difference - reach, difference + reach
        told["differs"] = not at_most(abs(difference), reach)
    return told


def _measured(measure, days):
    if measure == "contribution an hour":
        return [day["contribution"] / day["hours"] for day in days]
    if measure == "pieces a sale":
        return [day["pieces"] / day["sales"] for day in days if day["sales"]]
    return [100 * day["group_pieces"] / day["pieces"] for day in days if day["pieces"]]


CALCULATOR = Calculator(
    "offer-check",
    "Offer",
    "What an offer gave away, how much of it must have been extra, and how days with it differ.",
    INPUTS,
    OUTPUTS,
    work,
    main=("given_away", "must_be_extra"),
)
