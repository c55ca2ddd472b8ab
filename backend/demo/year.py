"""The year, an evening at a time, in the order it happened."""

from datetime import date, timedelta
from random import Random

from .counting import move
from .cutting import CuttingTable
from .days import at, fridays
from .fixtures import Fixtures
from .making import Bench, count_shelf, put_in_bag, shop, sign_checklist
from .phones import DemoPhone, Ids
from .stall import StallDay
from .things import Things

FIRST, LAST = date(2025, 1, 1), date(2025, 12, 31)
# cloth is listed on the first and bought on the second
SHOPPING = {date(2025, month, 2): date(2025, month, 3) for month in (1, 4, 7, 10)}


def evenings(business):
    """Make the year's changes; yields (phone, UTC ms when it is online, changes), evening by evening."""
    year = _Year(business)
    day = FIRST
    while day <= LAST:
        year.live(day)
        for phone in (year.things.imke, year.things.joss):
            if phone.waiting:
                yield phone, at(day, "21:00"), phone.hand_over()
        day += timedelta(days=1)


class _Year:
    def __init__(self, business):
        fixtures = Fixtures()
        self.random = Random(fixtures.year["seed"])
        ids = Ids(self.random)
        imke, joss = [DemoPhone(ids, at(FIRST, "09:00"), **phone) for phone in fixtures.stall["phones"]]
        self.things = Things(fixtures, business, imke, joss, at(FIRST, "09:00"))
        self.weeks = {friday: week for week, friday in enumerate(fridays(FIRST, LAST))}
        self.markets = {one.day: one for one in self.things.days}
        self.bench = Bench(fixtures.year, len(self.weeks))
        self.shelf = {one.id: fixtures.year["opening_stock"] for one in self.things.products}
        self.cutting = CuttingTable(fixtures, self.things, at(FIRST, "09:00"))
        self.listed = []
        self.table = {one.id: 0 for one in self.things.products}

    def live(self, day):
        if day in self.markets:
            self._sell(self.markets[day])
        next_day = day + timedelta(days=1)
        if next_day in self.weeks:
            sign_checklist(self.things.imke, day)
            self.cutting.cut(day)
        if day in SHOPPING.values():
            put_in_bag(self.things, day, self.listed)
        if day in self.weeks:
            count_shelf(self.random, self.things, self.bench, self.shelf, self.weeks[day], day)
        if day in SHOPPING:
            self.listed = shop(self.things, day)
        tomorrow = self.markets.get(next_day)
        if tomorrow and not (day in self.markets and self.markets[day].stays):
            self._move(day, "19:30", (self.things.home, self.shelf), (self.things.table, self.table),
                       self._wanted(tomorrow))  # fmt: skip

    def _sell(self, market_day):
        StallDay(self.random, self.things, market_day, self.table).run()
        if not market_day.stays:
            left = dict(self.table)
            self._move(market_day.day, "19:00", (self.things.table, self.table),
                       (self.things.home, self.shelf), left)  # fmt: skip

    def _move(self, day, clock, source, target, pieces):
        move(self.things, self.things.imke, day, clock, source, target, pieces)

    def _wanted(self, market_day):
        # all days of the booking, and half as much again
        sales = sum(one.sales for one in self.things.days if one.booked_as == market_day.booked_as)
        liked = sum(one.liked for one in self.things.products)
        wanted = {one.id: 3 + sales * 9 * one.liked // (4 * liked) for one in self.things.products}
        return {id: min(pieces, self.shelf[id]) for id, pieces in wanted.items()}
