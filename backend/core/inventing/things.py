"""What the maker describes once, at the start of the year."""

from .days import market_days

NOT_OF_A_BOOKING = ("name", "recurrence", "first_day")


class Product:
    """One size in one cloth: its ids, its price, and how well it is liked."""

    def __init__(self, id, size, cloth, price, liked):
        self.id = id
        self.size = size
        self.cloth = cloth
        self.price = price
        self.liked = liked


class Things:
    """The records that all others refer to, and what is known of them.

    Takes: fixtures; business, its id; imke and joss, the phones; at, when it is
    described, UTC ms; clock, the function that tells local times; today, a
    day's number.
    """

    def __init__(self, fixtures, business, phones, at, clock, today):
        self.business = business
        self.imke, self.joss = phones
        self.clock = clock
        self.prices, self.stall = fixtures["prices"], fixtures["stall"]
        self.cloths, self.strips = fixtures["cloths"], fixtures["sizes"]
        self._describe_business(at, fixtures["costing"], fixtures["making"]["bench"])
        self.sizes = {size["name"]: self.imke.describe("piece", at, size) for size in self.strips}
        self.cloth_ids = {cloth["name"]: self.imke.describe("cloth", at, cloth) for cloth in self.cloths}
        self.home, self.table = [self.imke.describe("place", at, place) for place in self.stall["places"]]
        self.boxes = [self._describe_box(at, name) for name in self.stall["boxes"]]
        self.offers = [self._describe_offer(at, offer) for offer in self.prices["offers"]]
        self.products = [
            self._describe_product(at, size["name"], cloth["name"], fixtures["year"]["liked"])
            for size in self.strips
            for cloth in self.cloths
        ]
        self.days = market_days(fixtures["year"], today)
        self._describe_markets(at, fixtures["markets"], fixtures["year"]["today"])

    def _describe_business(self, at, costing, bench):
        values = [{"value": value} for value in self.stall["denominations"]]
        told = {"name": self.stall["business"], "currency": self.prices["currency"]}
        told.update({"denominations": values, "card_fee": self.prices["card_fee"]})
        told["points"] = [{"price": price} for price in costing["points"]]
        told.update({"per_km": costing["per_km"], "address": self.stall["address"]})
        told.update(bench)
        self.imke.describe("business", at, told, self.business)
        self.people = [self.imke.describe("person", at, {"name": name}) for name in self.stall["people"]]
        for phone in (self.imke, self.joss):
            self.imke.describe("device-name", at, {"name": phone.name}, phone.id)

    def _describe_box(self, at, name):
        return self.imke.describe("cash-box", at, {"name": name, "usual_float": self.prices["float"]})

    def _describe_offer(self, at, offer):
        told = {"name": offer["name"], "groups": [offer["size"]], "n": offer["n"], "price": offer["price"]}
        return {"id": self.imke.describe("offer", at, told), "told": told}

    def _describe_product(self, at, size, cloth, liked):
        price = self.prices["prices"][size]
        of = {"size": self.sizes[size], "cloth": self.cloth_ids[cloth], "price": price, "group": size}
        likes = liked["sizes"][size] * liked["cloths"][cloth]
        return Product(self.imke.describe("product", at, of), size, cloth, price, likes)

    def _describe_markets(self, at, markets, extra):
        # {market: its terms}; None stands for the extra one
        self.terms = {None: extra["booking"]}
        ids = {}
        for market in markets:
            self.terms[market["name"]] = market
            ids[market["name"]] = self._describe_market(at, market)
        booked = []
        for one in self.days:
            if one.booked_as not in booked:
                booked.append(one.booked_as)
        for booked_as in booked:
            self._book(at, [one for one in self.days if one.booked_as == booked_as], ids)

    def _describe_market(self, at, market):
        told = dict(market)
        told["place"] = self.table
        held = [one.day for one in self.days if one.market == market["name"]]
        if market.get("recurrence"):
            told["first_day"] = held[0]
        return self.imke.describe("market", at, told)

    def _book(self, at, together, ids):
        market = together[0].market
        terms = self.terms[market]
        told = {name: terms[name] for name in terms if market is None or name not in NOT_OF_A_BOOKING}
        told.update({"place": self.table, "days": [one.day for one in together]})
        if market is not None:
            told["market"] = ids[market]
        booking = self.imke.describe("booking", at, told)
        for one in together:
            one.booking = booking
