"""The ways a total is likely to be paid in cash, each with its change: one tap apiece."""

from ..numbers.ordering import in_order
from . import change_due

MOST_WAYS = 4
# nobody hands over forty coins: so many notes or coins of one kind at most
MOST_OF_A_KIND = 5
# where a business names none: 1, 2 and 5 of every power of ten
USUAL = [digit * 10**power for power in range(5) for digit in (1, 2, 5)]


def cash_ways(due, cash_rounding, denominations):
    """List likely amounts handed over for a total, the exact one first.

    Takes: due, minor units; denominations, values of notes and coins in use,
    [] for the usual ones.
    Returns: {"due": to pay in cash, "ways": [{"tendered", "change", "pieces":
    [{"value", "count"}]}]}: the exact amount, then what a person reaches who
    pays with notes of one kind, least first; pieces is [] where nothing or not
    all of the change can be made of them.
    Source: common practice, no source.
    """
    values = denominations or USUAL
    rounded = change_due.in_cash(due, cash_rounding)
    reached = {}
    for value in values:
        amount = -(-rounded // value) * value
        if rounded < amount <= value * MOST_OF_A_KIND:
            reached[amount] = True
    more = in_order(list(reached), lambda amount: amount)[: MOST_WAYS - 1]
    box = change_due.by_value([{"value": value, "count": None} for value in values])
    return {"due": rounded, "ways": [_way(rounded, amount, box) for amount in [rounded] + more]}


def _way(due, tendered, box):
    change = tendered - due
    pieces, told, _ = change_due.give_back(change, box)
    return {"tendered": tendered, "change": change, "pieces": pieces if told == change else []}
