"""The year, an evening at a time, in the order it happened."""

from ..declaring.errors import refuse
from ..numbers.calendar import day_of, number_of
from ..numbers.shapes import is_date
from .baskets import Prices
from .bench import Bench, musts, needed, put_in_bag, set_aside, shop, sign_checklist
from .chance import Chance
from .counts import count, move
from .cutting_table import CuttingTable
from .days import DAYS, clock_at, fridays
from .phones import Ids, InventedPhone
from .sewing import SewingRoom
from .spending import Purse
from .stall import StallDay
from .things import Things

# months in which cloth is listed on the second and bought on the third
SHOPPING_MONTHS = ("01", "04", "07", "10")
LISTED, BOUGHT = "02", "03"
# what is cut on a Monday is sewn by Friday
CUT_BEFORE = 4

HELD = {}


class Year:
    """The 365 days before a day on which there is a market, and what stands ready for that.

    Takes: fixtures, {table: rows} of `demo_fixtures/`; business, the id that
    its records are of; today, that day, YYYY-MM-DD; offset_minutes, local time
    less UTC.
    """

    def __init__(self, fixtures, business, today, offset_minutes):
        self.today = number_of(today)
        self.next = self.today - DAYS
        self.chance = Chance(fixtures["year"]["seed"])
        self.clock = clock_at(offset_minutes)
        began = self.clock(self.next, "07:00")
        # what is added to the year changes neither ids of a moment nor what is drawn at the stall
        ids = Ids(Chance(fixtures["year"]["seed"] + 1))
        self.phones = [
            InventedPhone(ids, began, phone["name"], phone["role"]) for phone in fixtures["stall"]["phones"]
        ]
        self.things = Things(fixtures, business, self.phones, began, self.clock, self.today)
        self.prices = Prices(self.things)
        self.ticked = musts()
        self.weeks = fridays(self.next, self.today)
        sewn = [friday for friday in self.weeks if friday - CUT_BEFORE >= self.next]
        self.bench = Bench(fixtures["year"], sewn, self.things.days)
        self.shelf = {one.id: fixtures["year"]["opening_stock"] for one in self.things.products}
        self.table = {one.id: 0 for one in self.things.products}
        self.cutting = CuttingTable(fixtures, self.things, began)
        self.room = SewingRoom(fixtures, self.things, Chance(fixtures["year"]["seed"] + 2), began)
        elastic, threads = self.cutting.elastic, self.room.threads
        self.purse = Purse(fixtures, self.things, elastic, threads, self.next, began)
        self.needed = needed(self.things, fixtures["year"]["liked"]["cloths"])
        self.purse.buy(began, day_of(self.next), [(line, None) for line in self.needed])
        self.listed = []

    def left(self):
        """Tell how many days are still to be lived."""
        return self.today - self.next

    def live(self):
        """Live one more day; returns when the phones are online after it, UTC ms."""
        number, day = self.next, day_of(self.next)
        market = self._market(number)
        shops = day[5:7] in SHOPPING_MONTHS
        if shops and day[8:] == BOUGHT:
            self._buy(number, day)
        if market:
            self._sell(market)
        if number + CUT_BEFORE in self.bench.by_week:
            self._cut(number, day, number + CUT_BEFORE)
        self._sew(number)
        if shops and day[8:] == LISTED or number == self.today - 1 and not self.listed:
            self.listed = shop(self.things, number, self.needed)
        tomorrow = self._market(number + 1)
        if tomorrow and not (market and market.stays):
            pieces = self._wanted(tomorrow)
            self._move("19:30", (self.things.home, self.shelf), (self.things.table, self.table), pieces)
        self.next += 1
        return self.clock(number, "21:00")

    def _market(self, number):
        found = [one for one in self.things.days if one.number == number]
        return found[0] if found else None

    def _sell(self, market_day):
        stall = StallDay(self.chance, self.things, self.prices, market_day, self.table)
        self.purse.park(market_day, stall.tills[0].box)
        stall.run()
        if not market_day.stays:
            table, home = (self.things.table, self.table), (self.things.home, self.shelf)
            self._move("19:00", table, home, dict(self.table))
        self.purse.travelled(market_day)

    def _cut(self, number, day, friday):
        sign_checklist(self.things, number, self.ticked)
        self.cutting.cut(number, day, len(self.weeks) - 1 - self.weeks.index(friday))
        products = self.bench.choose(friday, self.things.products, self.shelf)
        self.room.cut(number, friday, products)
        self.purse.cut(number, len(products))

    def _sew(self, number):
        if number in self.weeks:
            set_aside(self.chance, self.things, self.room.in_work(), self.shelf, number)
        self.room.sew(number, self.shelf)
        if number in self.weeks:
            count(self.things, self.things.home, number, "17:00", "1", self.shelf, {})

    def _buy(self, number, day):
        at = self.things.clock(number, "08:00")
        put_in_bag(self.things, at, self.listed)
        self.purse.buy(at, day, self.listed)
        self.listed = []

    def _move(self, clock, source, target, pieces):
        move(self.things, self.next, clock, source, target, pieces)

    def _wanted(self, market_day):
        # all days of the booking, and half as much again
        sales = 0
        for one in self.things.days:
            if one.booked_as == market_day.booked_as:
                sales += one.expected
        liked = 0
        for one in self.things.products:
            liked += one.liked
        wanted = {one.id: 3 + sales * 9 * one.liked // (4 * liked) for one in self.things.products}
        return {id: min(wanted[id], self.shelf[id]) for id in wanted}


def begin_year(fixtures, business, day, offset_minutes):
    """Begin to make the year that ends today, to be lived a few days at a time; one is held at a time.

    Takes: as `Year`; day, today. Returns: {"left"}, how many days that takes.
    Raises: Problems on `day`, and on `fixtures` that are not such tables.
    """
    if not is_date(day):
        refuse("day", "date", None, None, "day")
    try:
        HELD["year"] = Year(fixtures, business, day, offset_minutes)
    except (AttributeError, IndexError, KeyError, TypeError, ValueError):
        refuse("fixtures", "object", None, None, "object")
    return {"left": HELD["year"].left()}


def live_days(most):
    """Live some more days of the year that was begun.

    Takes: most, how many days. Returns: {"changes", "left"}: what the phones
    made on them, and how many days are still to be lived.
    Raises: Problems if none was begun.
    """
    if "year" not in HELD:
        refuse("most", "nothing_begun")
    year, changes = HELD["year"], []
    for _ in range(min(most, year.left())):
        year.live()
        for phone in year.phones:
            changes += phone.hand_over()
    left = year.left()
    if not left:
        HELD.pop("year")
    return {"changes": changes, "left": left}
