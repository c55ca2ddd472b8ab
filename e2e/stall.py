"""A stall of the scenario on a phone: what it sells, its offer, its stock, opened for today."""

from collections import Counter

from .scenario import SIZES
from .shop import act, ask

CLOTHS = ("Seagrass lawn", "Harbour check")
PRICES = {"Petite": 450, "Everyday": 600, "Grand": 900}
EACH = 12
COUNT = "0192f8a0-0000-7000-8000-000000000001"


class Stall:
    """The ids of what a phone sells: `product["Everyday", "Harbour check"]`, `size`, `place`, `offer`."""

    def __init__(self, phone):
        self.phone = phone
        phone.screen.open("/sell")
        self.place = act(phone, "describeNew", "place", {"name": "Quay stall", "use": "stall"})
        self.box = act(phone, "describeNew", "cash-box", {"name": "Green tin"})
        self.size = {name: act(phone, "describeNew", "piece", SIZES[name]) for name in PRICES}
        self.cloth = {name: act(phone, "describeNew", "cloth", a_cloth(name)) for name in CLOTHS}
        self.product = {
            (size, cloth): self._product(size, cloth, price)
            for size, price in PRICES.items()
            for cloth in CLOTHS
        }
        offer = {"name": "Three Everyday for 15", "groups": ["Everyday"], "n": 3, "price": 1500}
        self.offer = act(phone, "describeNew", "offer", offer)

    def _product(self, size, cloth, price):
        fields = {"size": self.size[size], "cloth": self.cloth[cloth], "price": price, "group": size}
        return act(self.phone, "describeNew", "product", fields)

    def count(self, pieces=EACH):
        """Count so many of each product at the stall."""
        count = {"day": ask(self.phone, "clock", "today"), "session": COUNT, "place": self.place}
        for product in self.product.values():
            act(self.phone, "state", "count-line", {**count, "product": product, "quantity": pieces})
        act(self.phone, "state", "count-close", {**count, "scope": "all"})

    def left(self):
        """Tell what stock the phone knows at the stall: {product: pieces}, none of what it does not tell."""
        rows = ask(self.phone, "stock", "stock")
        return Counter({row["product"]: row["quantity"] for row in rows if row["place"] == self.place})


def opened_stall(phone):
    """Count a stall, and open it: the ground of many tests."""
    made = Stall(phone)
    made.count()
    open_on_the_spot(phone.screen)
    return made


def a_cloth(name):
    return {"name": name, "bolt_width": 1400, "shrink_length": 3, "shrink_width": 2}


def open_on_the_spot(screen, name="Sandholt Quay"):
    """Open a stall at a market that nobody booked."""
    screen.open("/sell")
    screen.page.fill("#spot-name", name)
    screen.page.get_by_role("button", name="Open the stall").tap()
    screen.page.locator(".sell-tiles").wait_for()
