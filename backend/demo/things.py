"""What the maker describes once, at the start of the year."""

from .days import market_days


class Product:
    """One size in one cloth: its ids, its price, and how well it is liked."""

    def __init__(self, id, size, cloth, price, liked):
        self.id = id
        self.size = size
        self.cloth = cloth
        self.price = price
        self.liked = liked


class Things:
    """The records that all others refer to, and what is known of them."""

    def __init__(self, fixtures, business, imke, joss, at):
        """Describe everything on the first phone."""
        self.business = business
        self.imke, self.joss = imke, joss
        self.prices, self.stall = fixtures.prices, fixtures.stall
        self.cloths = {cloth["name"]: cloth for cloth in fixtures.cloths}
        self.strips = {size["name"]: size for size in fixtures.sizes}
        self._describe_business(at)
        self.sizes = {size["name"]: imke.describe("piece", at, **size) for size in fixtures.sizes}
        self.cloth_ids = {cloth["name"]: imke.describe("cloth", at, **cloth) for cloth in fixtures.cloths}
        self.home, self.table = [imke.describe("place", at, **place) for place in self.stall["places"]]
        self.boxes = [self._describe_box(at, name) for name in self.stall["boxes"]]
        self.offers = [self._describe_offer(at, offer) for offer in self.prices["offers"]]
        self.products = [
            self._describe_product(at, size, cloth, fixtures.year["liked"])
            for size in self.sizes
            for cloth in self.cloth_ids
        ]
        self.days = market_days(fixtures.year)
        self._describe_markets(at, fixtures.markets)

    def _describe_business(self, at):
        values = [{"value": value} for value in self.stall["denominations"]]
        self.imke.describe(
            "business", at, self.business, name=self.stall["business"], currency=self.prices["currency"],
            denominations=values, card_fee=self.prices["card_fee"],
        )  # fmt: skip
        for person in self.stall["people"]:
            self.imke.describe("person", at, name=person)
        for phone in (self.imke, self.joss):
            self.imke.describe("device-name", at, phone.id, name=phone.name)

    def _describe_box(self, at, name):
        return self.imke.describe("cash-box", at, name=name, usual_float=self.prices["float"])

    def _describe_offer(self, at, offer):
        told = {"name": offer["name"], "groups": [offer["size"]], "n": offer["n"], "price": offer["price"]}
        return {"id": self.imke.describe("offer", at, **told), **told}

    def _describe_product(self, at, size, cloth, liked):
        price = self.prices["prices"][size]
        of = {"size": self.sizes[size], "cloth": self.cloth_ids[cloth], "price": price, "group": size}
        likes = liked["sizes"][size] * liked["cloths"][cloth]
        return Product(self.imke.describe("product", at, **of), size, cloth, price, likes)

    def _describe_markets(self, at, markets):
        self.terms = {market["name"]: market for market in markets}
        ids = {
            name: self.imke.describe("market", at, place=self.table, **terms)
            for name, terms in self.terms.items()
        }
        days = {}
        for one in self.days:
            days.setdefault(one.booked_as, []).append(one)
        for together in days.values():
            terms = {
                name: value
                for name, value in self.terms[together[0].market].items()
                if name not in ("name", "recurrence", "first_day")
            }
            dates = [one.day.isoformat() for one in together]
            booking = self.imke.describe(
                "booking", at, market=ids[together[0].market], place=self.table, days=dates, **terms
            )
            for one in together:
                one.booking = booking
