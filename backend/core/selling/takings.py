"""Money taken, of some sales and refunds: what the running takings show."""

from ..records.kinds import PAYMENTS
from ..records.reader import kinds_of_takings, readable, rows_of, stands
from ..records.uses import TAKINGS

# what each way of taking part counts: how often, and the money
COUNTED = {"taken": "sales", "given_back": "refunds"}


def takings(facts, voids):
    """Add up money taken and given back.

    Takes: facts, of a day or a booking, each once, with kind and id; kinds that
    are not of the takings pass by; voids, {fact: true}, what never happened.
    Returns: {"sales", "pieces", "taken", "refunds", "given_back", "amount",
    "payments": [{"payment", "sales", "taken", "given_back", "amount"}]}: minor
    units; amount is what was taken less what was given back; payments that
    were not used are left out.
    What cannot be read is set aside.
    """
    return added_up(readable(facts, TAKINGS), voids)


def added_up(facts, voids):
    """Add up as `takings` does, of facts that were checked."""
    added = Takings()
    for fact in facts:
        added.add(fact, voids)
    return added.told()


class Takings:
    """What was taken and given back, added up fact by fact."""

    def __init__(self):
        self.kinds = kinds_of_takings()
        self.parts = {payment: _nothing() for payment in PAYMENTS}
        self.whole = _nothing()
        self.pieces = 0

    def add(self, fact, voids):
        """Add what was taken or given back, and stands; other kinds pass by."""
        kind = fact["kind"]
        if kind not in self.kinds:
            return
        if fact["id"] in voids and not stands(fact, voids):
            return
        way, leaving = self.kinds[kind]
        if way == "taken":
            for goods in leaving:
                for row in rows_of(goods, fact):
                    self.pieces += row["quantity"]
        count, amount, whole = COUNTED[way], fact["amount"], self.whole
        part = self.parts[fact["payment"]]
        whole[count] += 1
        whole[way] += amount
        part[count] += 1
        part[way] += amount

    def told(self):
        """Tell what it comes to so far, as `takings` does."""
        told = {"pieces": self.pieces, "payments": []}
        for payment in PAYMENTS:
            part = self.parts[payment]
            if part["sales"] or part["refunds"]:
                told["payments"].append(_settled(part, {"payment": payment}))
        return _settled(self.whole, told)


def _nothing():
    return {"sales": 0, "taken": 0, "refunds": 0, "given_back": 0}


def _settled(part, told):
    told.update(part)
    told["amount"] = part["taken"] - part["given_back"]
    return told
