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
    undoing = [{**fact, "kind": kind} for kind in voids_of(DAY) for fact in every(connection, business, kind)]
    voids = voided(undoing, DAY)
    summed = [kind for kind, reader in READERS.items() if reader.takings]
    taken = ({**fact, "kind": kind} for kind in summed for fact in every(connection, business, kind))
    return [
        tuple((day | payment)[name] for name in TOLD)
        for day in taken_by(("day",), taken, voids)
        for payment in day["payments"]
    ]
