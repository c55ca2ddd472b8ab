"""The cash boxes of one market day."""

from .days import at


class CashBox:
    """A box from its float to its cash-up."""

    def __init__(self, things, phone, id, market_day, opens):
        self.things, self.phone, self.id = things, phone, id
        self.day, self.booking = market_day.day, market_day.booking
        self.holds = things.prices["float"]
        self._count("float", at(self.day, opens, -1200), self.holds, things.stall["float"])

    def take(self, made):
        """Take in a sale, or give a refund back."""
        if made["payment"] == "cash":
            self.holds += made["amount"]

    def give_back(self, amount):
        """Take cash out for a refund."""
        self.holds -= amount

    def move(self, time, direction, amount, reason):
        """Put money in or take it out, beside sales."""
        self.phone.fact("cash-movement", time, self.day, booking=self.booking, box=self.id,
                        direction=direction, amount=amount, reason=reason)  # fmt: skip
        self.holds += amount if direction == "paid in" else -amount

    def cash_up(self, random, closes):
        """Count the box; now and then it differs a little."""
        differs = random.choice((-100, -50, 50, 200)) if random.random() < 0.12 else 0
        amount = max(0, self.holds + differs)
        more = {"reason": "wrong change, perhaps"} if differs else {}
        self._count("cash-up", at(self.day, closes, 600), amount, _pieces_of(self.things, amount), **more)

    def _count(self, moment, time, amount, counted, **more):
        self.phone.fact("cash-count", time, self.day, booking=self.booking, box=self.id, moment=moment,
                        amount=amount, counted=counted, **more)  # fmt: skip


def _pieces_of(things, amount):
    counted = []
    for value in things.stall["denominations"]:
        if amount >= value:
            counted.append({"value": value, "count": amount // value})
            amount %= value
    return counted
