"""Money taken, of some sales and refunds: what the running takings show."""

from ..errors import Problems, problem
from ..reading import LARGEST
from ..records.kinds import PAYMENTS

COUNTED = ("sale", "refund")


def takings(facts, voids):
    """Add up money taken and given back.

    Takes: facts, of a day or a booking, each once, with kind and id; other
    kinds than sales and refunds pass by; voids, {sale: true}, sales that never
    happened.
    Returns: {"sales", "pieces", "taken", "refunds", "given_back", "amount",
    "payments": [{"payment", "sales", "taken", "given_back", "amount"}]}: minor
    units; amount is what was taken less what was given back; payments that
    were not used are left out.
    Raises: Problems naming each `facts.N` that is no fact, or not of its kind.
    """
    refuse_other_than_takings(facts)
    added = Takings()
    for fact in facts:
        added.add(fact, voids)
    return added.told()


class Takings:
    """What was taken and given back, added up fact by fact."""

    def __init__(self):
        self.parts = {payment: _nothing() for payment in PAYMENTS}
        self.whole = _nothing()
        self.pieces = 0

    def add(self, fact, voids):
        """Add a sale that stands, or a refund; what is neither passes by."""
        if fact["kind"] == "sale" and fact["id"] not in voids:
            for row in fact["lines"]:
                self.pieces += row["quantity"]
            self._add(fact, "sales", "taken")
        elif fact["kind"] == "refund":
            self._add(fact, "refunds", "given_back")

    def _add(self, fact, count, amount):
        for part in (self.whole, self.parts[fact["payment"]]):
            part[count] += 1
            part[amount] += fact["amount"]

    def told(self):
        """Tell what it comes to so far, as `takings` does."""
        told = {"pieces": self.pieces, "payments": []}
        for payment in PAYMENTS:
            part = self.parts[payment]
            if part["sales"] or part["refunds"]:
                told["payments"].append(_settled(part, {"payment": payment}))
        return _settled(self.whole, told)


def refuse_other_than_takings(facts):
    """Check what takings need of each fact.

    Raises: Problems naming each `facts.N` that is no fact, or not of its kind.
    """
    bad = [index for index, fact in enumerate(facts) if not _is_fact(fact)]
    if bad:
        raise Problems([problem("facts." + str(index), "object", quantity="object") for index in bad])


def _is_fact(fact):
    if not isinstance(fact, dict) or not isinstance(fact.get("id"), str):
        return False
    if fact.get("kind") not in COUNTED:
        return isinstance(fact.get("kind"), str)
    rows = fact.get("lines")
    good = isinstance(rows, list) and not [row for row in rows if not isinstance(row, dict)]
    good = good and not [row for row in rows if not _is_whole(row.get("quantity"))]
    good = good and not [name for name in ("day", "booking") if not isinstance(fact.get(name) or "", str)]
    return good and fact.get("payment") in PAYMENTS and _is_whole(fact.get("amount"))


def _is_whole(value):
    return isinstance(value, int) and not isinstance(value, bool) and abs(value) <= LARGEST


def _nothing():
    return {"sales": 0, "taken": 0, "refunds": 0, "given_back": 0}


def _settled(part, told):
    told.update(part)
    told["amount"] = part["taken"] - part["given_back"]
    return told
