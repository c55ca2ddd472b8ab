"""What a customer takes, what it comes to, and how it is paid."""

from ..catalogue import answer

# pieces of a basket, and of a hundred how many are of so many
SIZES_OF_BASKETS = (1, 2, 3, 4, 6)
SHARES_OF_BASKETS = (66, 20, 11, 2, 1)
SWEEPINGS = {"name": "Bag of cuttings", "quantity": 1, "unit_price": 300, "total": 300}
NOTES = (500, 1000, 2000, 5000)


class Basket:
    """Pieces taken from the stall, {product: how many}, told in the order of the products."""

    def __init__(self, things):
        self.things = things
        self.taken = {}

    def add(self, product):
        """Put one more piece in."""
        self.taken[product] = self.taken.get(product, 0) + 1

    def sale(self, chance, prices):
        """Write the sale: its lines, offers used, and the amount."""
        products = [one for one in self.things.products if one.id in self.taken]
        off = 50 if chance.draw() < 0.02 else 0
        totals, uses = prices.of([(one.size, self.taken[one.id]) for one in products], off)
        lines = [self._line(chance, one, total) for one, total in zip(products, totals)]
        if chance.draw() < 0.01:
            lines.append(SWEEPINGS)
        amount = 0
        for line in lines:
            amount += line["total"]
        made = {"lines": lines, "amount": amount}
        made.update(_paid(chance, amount))
        if uses:
            made["offers"] = uses
        if off:
            made.update({"off": off, "reason": "a regular"})
        return made

    def _line(self, chance, product, total):
        # in a queue the cloth is not always said
        said = {"product": product.id}
        if len(self.taken) == 1 and chance.draw() < 0.015:
            said = {"size": self.things.sizes[product.size]}
        said.update({"quantity": self.taken[product.id], "unit_price": product.price, "total": total})
        return said


class Prices:
    """What baskets come to, each kind of basket worked out once."""

    def __init__(self, things):
        self.things = things
        self.known = {}

    def of(self, pieces, off):
        """Price pieces of sizes, [(size, how many)], less what is taken off.

        Returns: (totals of the lines, offers used).
        """
        asked = (tuple(pieces), off)
        if asked not in self.known:
            self.known[asked] = self._work_out(pieces, off)
        return self.known[asked]

    def _work_out(self, pieces, off):
        prices = self.things.prices["prices"]
        lines = [
            {"product": size, "group": size, "unit_price": prices[size], "quantity": quantity}
            for size, quantity in pieces
        ]
        offers = [offer["told"] for offer in self.things.offers]
        told = answer("basket-total", {"lines": lines, "offers": offers, "basket_off": off})["result"]
        uses = [
            {"offer": self.things.offers[use["offer"]]["id"], "times": use["times"], "saving": use["saving"]}
            for use in told["uses"]
        ]
        return [line["total"] for line in told["lines"]], uses


def choose(chance, things, stock):
    """Choose a basket from what is on the table; returns (basket, products asked for in vain)."""
    basket, missed = Basket(things), []
    wanted = chance.by_weight(SIZES_OF_BASKETS, SHARES_OF_BASKETS)
    # whoever takes three or more takes them for the offer
    offered = wanted > 2 and chance.draw() < 0.75
    groups = [group for offer in things.offers for group in offer["told"]["groups"]]
    liked = [one for one in things.products if not offered or one.size in groups]
    for _ in range(wanted):
        product = _liked(chance, liked)
        if not stock[product.id]:
            missed.append(product)
            left = [one for one in things.products if stock[one.id]]
            if not left:
                break
            product = _liked(chance, left)
        stock[product.id] -= 1
        basket.add(product.id)
    return basket, missed


def _liked(chance, products):
    return chance.by_weight(products, [one.liked for one in products])


def _paid(chance, amount):
    payment = chance.by_weight(("cash", "card", "other"), (60, 38, 2))
    if payment != "cash":
        return {"payment": payment}
    handed = [amount] + [-(-amount // note) * note for note in NOTES]
    return {"payment": payment, "tendered": chance.by_weight(handed, (30, 20, 25, 20, 5))}
