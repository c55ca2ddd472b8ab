"""What is paid for: material of each quarter, parking, overheads; wages and prices; time beside the bench."""

from ..numbers.calendar import day_of


class Purse:
    """What the maker pays, and what an hour is paid.

    Takes: elastic and threads, the ids of hers; number, the first day's; began, UTC ms.
    """

    def __init__(self, fixtures, things, elastic, threads, number, began):
        self.things, self.told = things, fixtures["costing"]
        self.elastic = (elastic, fixtures["elastic"]["price"])
        prices = [thread["price"] for thread in fixtures["making"]["threads"]]
        self.threads = list(zip(threads, prices))
        supplies = fixtures["making"]["supplies"]
        self.supplies = [(things.imke.describe("supply", began, one), one) for one in supplies]
        for overhead in self.told["overheads"]:
            things.imke.describe("overhead", began, overhead)
        self._set(day_of(number), began)

    def _set(self, day, at):
        people = {name: id for name, id in zip(self.things.stall["people"], self.things.people)}
        for row in self.told["wages"]:
            told = {"wage": row["wage"], "from": day}
            if "person" in row:
                told["person"] = people[row["person"]]
            self.things.imke.fact("wage-set", at, day, told)
        for product in self.things.products:
            told = {"product": product.id, "price": product.price, "from": day}
            self.things.imke.fact("price-set", at, day, told)

    def buy(self, at, day, cloths):
        """Buy a quarter's material: cloths, [(what the list says, its line or None)], and the rest."""
        bought, elastic = self.told["bought"], self.elastic
        for said, line in cloths:
            told = {"cloth": said["cloth"], "length": said["length_to_buy"], "amount": said["cost"]}
            if line:
                told["line"] = line
            self.things.imke.fact("purchase", at, day, told)
        self._buy(at, day, "elastic", elastic[0], bought["elastic"], elastic[1])
        for thread, price in self.threads:
            self._buy(at, day, "thread", thread, bought["threads"], price)
        for supply, said in self.supplies:
            self._buy(at, day, "supply", supply, bought["supplies"][said["name"]], said["price"])

    def _buy(self, at, day, kind, of, quantity, price):
        told = {kind: of, "quantity": quantity, "amount": quantity * price}
        self.things.imke.fact("purchase", at, day, told)

    def park(self, market_day, box):
        """Pay for parking from the box, where the market is not round the corner."""
        parking = self.told["parking"]
        if self._distance(market_day) > parking["km"]:
            terms = self.things.terms[market_day.market]
            at = self.things.clock(market_day.number, terms["opens"], -600)
            box.spend(at, "Parking", parking["amount"])

    def travelled(self, market_day):
        """Tell the time that a market took beside selling, each on their own phone."""
        terms, at = self.things.terms[market_day.market], self.things.clock(market_day.number, "19:15")
        together = len([one for one in self.things.days if one.booked_as == market_day.booked_as])
        packing = terms["set_up_minutes"] // together
        way = packing + terms["trips"] * terms["travel_minutes"] // together
        for phone, person, what, taken in (
            (self.things.imke, self.things.people[0], "travel", way),
            (self.things.joss, self.things.people[1], "packing", packing),
        ):
            told = {"person": person, "what": what, "minutes": taken, "booking": market_day.booking}
            phone.fact("work-time", at, market_day.day, told)

    def _distance(self, market_day):
        return self.things.terms[market_day.market]["distance_km"]

    def cut(self, number, batches):
        """Tell the time that a week's cutting took."""
        told = {"person": self.things.people[0], "what": "cutting"}
        told["minutes"] = batches * self.told["minutes"]["cutting"]
        at = self.things.clock(number, "17:00")
        self.things.imke.fact("work-time", at, day_of(number), told)
