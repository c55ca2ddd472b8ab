"""Two market days that are over, on a phone: what was there, what sold and when, hour by hour."""

from datetime import datetime, timedelta
from uuid import uuid4
from zoneinfo import ZoneInfo

from playwright.sync_api import expect

from .phone import ZONE
from .shop import act, ask
from .stall import CLOTHS, PRICES, Stall

LAWN, CHECK = CLOTHS
EACH, AT_HOME = 12, 20
OPEN = {"opens": "09:00", "closes": "15:00"}
# (days ago, [(hour, size, cloth, pieces)], [(hour, size, cloth) asked for])
OVER = (
    (21, [(10, "Everyday", CHECK, 5), (11, "Everyday", LAWN, 4), (11, "Petite", LAWN, 2),
          (12, "Everyday", CHECK, 7)], [(13, "Everyday", CHECK)]),
    (14, [(10, "Everyday", LAWN, 3), (11, "Everyday", CHECK, 6), (12, "Grand", LAWN, 1)], []),
)  # fmt: skip
# by hand: pieces, hours where it sold out, how often it was asked for
ROWS = (
    {("Everyday", CHECK): (12, 3, 1), ("Everyday", LAWN): (4, None, 0), ("Petite", LAWN): (2, None, 0)},
    {("Everyday", LAWN): (3, None, 0), ("Everyday", CHECK): (6, None, 0), ("Grand", LAWN): (1, None, 0)},
)
LEFT = {("Everyday", CHECK): 6, ("Everyday", LAWN): 9, ("Grand", LAWN): 11}


class Sold:
    """A stall with a shelf at home, a market that was attended twice, and a booking to come.

    The phone's clock goes through both days, and then shows the right time again.
    """

    def __init__(self, phone):
        self.phone, page = phone, phone.screen.page
        self.now = datetime.now(ZoneInfo(ZONE))
        page.clock.install(time=self._at(OVER[0][0], 7))
        self.stall = Stall(phone)
        self.home = act(phone, "describeNew", "place", {"name": "Home shelf", "use": "home"})
        quay = {"name": "Sandholt Quay", "place": self.stall.place, **OPEN}
        self.market = act(phone, "describeNew", "market", quay)
        for ago, sales, asked in OVER:
            self._attend(ago, sales, asked)
        page.clock.set_system_time(datetime.now())
        found = {
            "day": ask(phone, "clock", "today"),
            "place": self.home,
            "quantity": AT_HOME,
            "reason": "found",
        }
        products = self.stall.product.values()
        act(phone, "stateAll", [["set-aside", {**found, "product": product}] for product in products])
        self.booking = self._book(-5)

    def _at(self, ago, hour):
        return (self.now - timedelta(days=ago)).replace(hour=hour, minute=0, second=0, microsecond=0)

    def _book(self, ago):
        day = f"{self._at(ago, 12):%Y-%m-%d}"
        return act(self.phone, "describeNew", "booking", {"market": self.market, "days": [day]})

    def _attend(self, ago, sales, asked):
        booking = self._book(ago)
        where = {"day": f"{self._at(ago, 12):%Y-%m-%d}", "place": self.stall.place}
        left = dict.fromkeys(self.stall.product, EACH)
        happened = [(8, self._count(where, left))]
        for hour, size, cloth, pieces in sales:
            left[size, cloth] -= pieces
            total = pieces * PRICES[size]
            line = {"product": self.stall.product[size, cloth], "quantity": pieces,
                    "unit_price": PRICES[size], "total": total}  # fmt: skip
            sale = {**where, "booking": booking, "lines": [line], "amount": total, "payment": "cash"}
            happened.append((hour, [["sale", sale]]))
        for hour, size, cloth in asked:
            wanted = {**where, "booking": booking, "product": self.stall.product[size, cloth]}
            happened.append((hour, [["asked-for", wanted]]))
        happened.append((16, self._count(where, left)))
        for hour, facts in happened:
            self.phone.screen.page.clock.set_system_time(self._at(ago, hour))
            act(self.phone, "stateAll", facts)

    def _count(self, where, left):
        count = {**where, "session": str(uuid4())}
        lines = [["count-line", {**count, "product": self.stall.product[goods], "quantity": pieces}]
                 for goods, pieces in left.items()]  # fmt: skip
        return [*lines, ["count-close", {**count, "scope": "all"}]]

    def question(self, capacity, **more):
        """Put by hand what bring-to-market is asked."""
        return {
            "products": [
                {"product": id, "group": self.stall.size[size], "gain": PRICES[size],
                 "stock": AT_HOME + LEFT.get((size, cloth), EACH), **more}
                for (size, cloth), id in self.stall.product.items()
            ],
            "days": [
                {
                    "market": self.market,
                    "hours": 6,
                    "rows": [self._row(id, *rows.get(goods, (0, None, 0)))
                             for goods, id in self.stall.product.items()],
                }
                for rows in ROWS
            ],
            "market": self.market,
            "hours": 6,
            "capacity": capacity,
        }  # fmt: skip

    def _row(self, product, sold, hours, asked):
        return {"product": product, "sold": sold, "hours": hours, "asked": asked}


def open_next(phone):
    """Open the screen, and wait until it knows what to bring."""
    page = phone.screen.open("/review/next").page
    page.locator("[data-capacity]").wait_for()
    # not as it was before the last change
    expect(page.locator("[data-as-before]")).to_have_count(0)
    return page


def brought(page):
    """List what is to be brought, as the screen says it: {product: pieces}."""
    rows = page.locator("[data-bring-of]").all()
    return {row.get_attribute("data-bring-of"): int(row.get_attribute("data-bring")) for row in rows}
