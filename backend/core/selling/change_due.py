"""change-due: what to give back, in the fewest notes and coins the box has."""

from ..declaring.errors import note, refuse
from ..declaring.spec import Calculator, Field
from ..numbers.money import add_up
from ..numbers.ordering import in_order
from .fewest_pieces import fewest

MOST_MONEY = 1000000000

DENOMINATION = [
    Field("value", "money", "Value of the note or coin", lowest=1, highest=MOST_MONEY, example=200),
    Field("count", "count", "How many of it are in the box; none said for plenty", None, example=5),
]

INPUTS = [
    Field("due", "money", "To pay", highest=MOST_MONEY, example=492),
    Field("tendered", "money", "Cash handed over", highest=MOST_MONEY, example=1000),
    Field("denominations", "list", "Notes and coins in the box", fields=DENOMINATION, most=40),
    Field("cash_rounding", "money", "Smallest coin in use: cash totals are rounded to it", 1,
          lowest=1, highest=100000),
]  # fmt: skip

GIVEN = [
    Field("value", "money", "Value of the note or coin"),
    Field("count", "count", "How many to give"),
]

OUTPUTS = [
    Field("due_rounded", "money", "To pay in cash"),
    Field("change", "money", "Change owed", formula="{tendered} − {due_rounded}"),
    Field("pieces", "list", "Notes and coins to give, largest first", fields=GIVEN, most=40),
    Field("given", "money", "What those come to"),
    Field("short", "money", "What the box cannot give", formula="{change} − {given}"),
]


def work(given):
    """Find the fewest notes and coins of the box that make the change.

    The cash total alone is rounded, to the nearest `cash_rounding`, halves up:
    to 5, endings 1 and 2 go to 0, 3 and 4 to 5. Where the box cannot make the
    change, the nearest possible is the most it can give without giving more
    than is owed: nobody at a stall gives money away unasked, and `short` says
    what is still owed. Of equally few pieces, the larger ones first.
    Exact: see fewest_pieces.py.
    Raises: Problems where less is tendered than is due.
    Source: rounding to 5 as budget.canada.ca, 2012; change, common practice, no
    source.
    """
    due = in_cash(given["due"], given["cash_rounding"])
    if given["tendered"] < due:
        refuse("tendered", "lowest", given["tendered"], due, "money")
    change = given["tendered"] - due
    pieces, told, proven = give_back(change, by_value(given["denominations"]))
    result = {
        "due_rounded": due,
        "change": change,
        "pieces": pieces,
        "given": told,
        "short": change - told,
    }
    notes = []
    if told < change:
        notes.append(note("short", "change_short", change - told, None, "money"))
    if not proven:
        notes.append(note("pieces", "change_not_proven"))
    return result, notes


def in_cash(due, cash_rounding):
    """Round a total to the smallest coin in use, halves up. Example: in_cash(492, 5) == 490"""
    return (2 * due + cash_rounding) // (2 * cash_rounding) * cash_rounding


def give_back(change, box):
    """Take change out of a box of `by_value`: ([{"value", "count"}], what they come to, whether proven)."""
    counts, proven = fewest(change, box)
    pieces = [{"value": value, "count": count} for (value, _), count in zip(box, counts) if count]
    return pieces, add_up([piece["value"] * piece["count"] for piece in pieces]), proven


def by_value(denominations):
    """Put notes and coins together by value: [(value, count or None for plenty)], largest first."""
    counts = {}
    for row in denominations:
        value, count = row["value"], row["count"]
        known = counts.get(value, 0)
        counts[value] = None if count is None or known is None else known + count
    values = in_order(list(counts), lambda value: -value)
    return [(value, counts[value]) for value in values]


CALCULATOR = Calculator(
    "change-due",
    "Change",
    "What to give back, in the fewest notes and coins the box has.",
    INPUTS,
    OUTPUTS,
    work,
    main=("change", "short"),
)
