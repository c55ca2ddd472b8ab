"""A booking that is over, on a phone: a batch of eighteen, a market's terms, and its sums worked by hand."""

from datetime import datetime

from .one_batch import OneBatch
from .shop import act

DAY = "2026-05-09"
TERMS = {"fee": 2800, "fee_percent": 5, "opens": "09:00", "closes": "15:00", "distance_km": 10,
         "travel_minutes": 20, "set_up_minutes": 60, "other": 100}  # fmt: skip
BUSINESS = {"name": "Tern & Tansy", "currency": "EUR", "card_fee": 1.6, "per_km": 30}
# 15 sold for 6.00, one of them given back; material (one_batch.py) of 654.22 + 67.12 + 16.34 + 51 for 17.1
# pieces, 14 of them 645.70
PARTS = {
    "takings": 9000,
    "refunds": 600,
    "goods": 646,
    "fee": 2800,
    "share": 420,  # 5 % of 8400
    "card": 48,  # 1.6 % of 3000
    "travel": 600,  # 10 km, twice, at 30
    "helpers": 600,  # half an hour at 12.00
    "other": 100,
    "expenses": 450,
    "profit": 2736,
}
# 360 open, 2 × 20 on the way, 60 setting up: 60 × 2736 ÷ 460
OWN_MINUTES, PER_HOUR = 460, 356.87


def late_in_the_year(phone):
    """Set a phone's clock to the year of the booking, when all of its months are there."""
    phone.screen.page.clock.install(time=datetime.fromisoformat(f"{DAY[:4]}-12-30T12:00"))


class Booked:
    """The ids of its records; sold in three sales, of which the second pays for the day, and one void."""

    def __init__(self, phone):
        self.phone = phone
        self.batch = OneBatch(phone)
        self.batch.buy_cloth()
        self.batch.buy_the_rest()
        self.batch.make()
        self.new("business", BUSINESS)
        self.joss = self.new("person", {"name": "Joss"})
        self.state("wage-set", {"wage": 1500, "from": DAY})
        self.state("wage-set", {"person": self.joss, "wage": 1200, "from": DAY})
        self.market = self.new("market", {"name": "Sandholt Quay Saturday", **TERMS})

    def new(self, kind, fields):
        return act(self.phone, "describeNew", kind, fields)

    def state(self, kind, fields, day=DAY):
        return act(self.phone, "state", kind, {"day": day, **fields})

    def book(self, day=DAY):
        """Book a day at the market."""
        return self.new("booking", {"market": self.market, "days": [day]})

    def sell(self, booking, pieces, payment="cash", day=DAY):
        """Sell pieces for 6.00 each."""
        line = {"product": self.batch.product, "quantity": pieces, "unit_price": 600, "total": 600 * pieces}
        sale = {"booking": booking, "place": self.batch.place, "lines": [line], "amount": 600 * pieces}
        return self.state("sale", {**sale, "payment": payment}, day)

    def attend(self):
        """Live the day of PARTS; returns its booking."""
        booking = self.book()
        self.sell(booking, 5, "card")
        self.paid_by = self.sell(booking, 9)
        self.sell(booking, 1)
        self.state("void", {"sale": self.sell(booking, 4)})
        line = {"product": self.batch.product, "quantity": 1, "total": 600}
        back = {"booking": booking, "place": self.batch.place, "lines": [line], "amount": 600}
        self.state("refund", {**back, "payment": "cash", "goods": "table"})
        self.state("expense", {"what": "Parking", "amount": 450, "booking": booking})
        self.state("work-time", {"person": self.joss, "what": "other", "minutes": 30, "booking": booking})
        return booking
