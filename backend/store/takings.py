"""Money taken, by day and kind of payment: the tables' facts, added up by the core."""

from ..core.reviewing.days import taken_by
from .records import every

TOLD = ("day", "payment", "sales", "taken", "refunds", "given_back")


def by_day(connection, business):
    """Add up sales that were not voided, and refunds.

    Returns: rows (day, payment, sales, taken, refunds, given_back), by day.
    """
    voids = {fact["sale"]: True for fact in every(connection, business, "void")}
    taken = (
        {**fact, "kind": kind} for kind in ("sale", "refund") for fact in every(connection, business, kind)
    )
    return [
        tuple((day | payment)[name] for name in TOLD)
        for day in taken_by(("day",), taken, voids)
        for payment in day["payments"]
    ]
