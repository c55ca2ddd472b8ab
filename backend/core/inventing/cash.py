"""The cash boxes of one market day."""

DIFFERENCES = (-100, -50, 50, 200)


class CashBox:
    """A box from its float to its cash-up."""

    def __init__(self, things, phone, id, market_day, opens):
        self.things, self.phone, self.id = things, phone, id
        self.market_day = market_day
        self.holds = things.prices["float"]
        time = things.clock(market_day.number, opens, -1200)
        self._count("float", time, self.holds, things.stall["float"])

    def take(self, made):
        """Take in a sale."""
        if made["payment"] == "cash":
            self.holds += made["amount"]

    def give_back(self, amount):
        """Take cash out for a refund."""
        self.holds -= amount

    def move(self, time, direction, amount, reason):
        """Put money in or take it out, beside sales."""
        told = {"booking": self.market_day.booking, "box": self.id}
        told.update({"direction": direction, "amount": amount, "reason": reason})
        self.phone.fact("cash-movement", time, self.market_day.day, told)
        self.holds += amount if direction == "paid in" else -amount

    def spend(self, time, what, amount):
        """Pay for something beside the goods."""
        told = {"booking": self.market_day.booking, "box": self.id, "what": what, "amount": amount}
        self.phone.fact("expense", time, self.market_day.day, told)
        self.holds -= amount

    def cash_up(self, chance, closes):
        """Count the box; now and then it differs a little."""
        differs = chance.one_of(DIFFERENCES) if chance.draw() < 0.12 else 0
        amount = max(0, self.holds + differs)
        time = self.things.clock(self.market_day.number, closes, 600)
        reason = "wrong change, perhaps" if differs else ""
        self._count("cash-up", time, amount, _pieces_of(self.things, amount), reason)

    def _count(self, moment, time, amount, counted, reason=""):
        told = {"booking": self.market_day.booking, "box": self.id, "moment": moment}
        told.update({"amount": amount, "counted": counted})
        if reason:
            told["reason"] = reason
        self.phone.fact("cash-count", time, self.market_day.day, told)


def _pieces_of(things, amount):
    counted = []
    for value in things.stall["denominations"]:
        if amount >= value:
            counted.append({"value": value, "count": amount // value})
            amount %= value
    return counted
