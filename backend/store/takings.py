"""Money taken, by day and kind of payment: the tables' facts, added up by the core."""

from ..core.records.reader import READERS, voided, voids_of
from ..core.records.uses import DAY
from ..core.reviewing.days import taken_by
from .records import every

TOLD = ("day", "payment", "sales", "taken", "refunds", "given_back")


def by_day(connection, business):
    """Add up what was taken and was not voided, and what was given back.

    Returns: rows (day, payment, sales, taken, refunds, given_back), by day.
    """
    taken = summed_facts(connection, business)
    return [
        tuple((day | payment)[name] for name in TOLD)
        for day in taken_by(("day",), taken, voids_of_takings(connection, business))
        for payment in day["payments"]
    ]


def summed_facts(connection, business):
    """Read the facts that takings are summed up of, one after the other."""
    summed = [kind for kind, reader in READERS.items() if reader.takings]
    return ({**fact, "kind": kind} for kind in summed for fact in every(connection, business, kind))


def voids_of_takings(connection, business):
    """Name what never happened, of what a day tells: {fact: true}."""
    undoing = [{**fact, "kind": kind} for kind in voids_of(DAY) for fact in every(connection, business, kind)]
    return voided(undoing, DAY)
