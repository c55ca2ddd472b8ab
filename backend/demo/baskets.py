"""What a customer takes, what it comes to, and how it is paid."""

from ..core.catalogue import answer

SIZES_OF_BASKETS = ((1, 66), (2, 20), (3, 11), (4, 2), (6, 1))
SWEEPINGS = {"name": "Bag of cuttings", "quantity": 1, "unit_price": 300, "total": 300}


class Basket:
    """Pieces taken from the stall, {product: how many}, in the order of the products."""

    def __init__(self, things):
        self.things = things
        self.taken = {}

    def add(self, product):
        """Put one more piece in."""
        self.taken[product] = self.taken.get(product, 0) + 1

    def sale(self, random):
        """Write the sale: its lines, offers used, and the amount."""
        products = [one for one in self.things.products if one.id in self.taken]
        off = 50 if random.random() < 0.02 else 0
        told = self._price(products, off)
        lines = [
            self._line(random, one, line["total"]) for one, line in zip(products, told["lines"], strict=True)
        ]
        amount = told["total"]
        if random.random() < 0.01:
            lines.append(SWEEPINGS)
            amount += SWEEPINGS["total"]
        made = {"lines": lines, "amount": amount, **_paid(random, amount)}
        if told["uses"]:
            made["offers"] = [
                {
                    "offer": self.things.offers[use["offer"]]["id"],
                    "times": use["times"],
                    "saving": use["saving"],
                }
                for use in told["uses"]
            ]
        if off:
            made |= {"off": off, "reason": "a regular"}
        return made

    def _price(self, products, off):
        lines = [
            {"product": one.id, "group": one.size, "unit_price": one.price, "quantity": self.taken[one.id]}
            for one in products
        ]
        offers = [
            {name: offer[name] for name in ("name", "groups", "n", "price")} for offer in self.things.offers
        ]
        return answer("basket-total", {"lines": lines, "offers": offers, "basket_off": off})["result"]

    def _line(self, random, product, total):
        # in a queue the cloth is not always said
        said = {"product": product.id}
        if len(self.taken) == 1 and random.random() < 0.015:
            said = {"size": self.things.sizes[product.size]}
        return said | {"quantity": self.taken[product.id], "unit_price": product.price, "total": total}


def choose(random, things, stock):
    """Choose a basket from what is on the table; returns (basket, products asked for in vain)."""
    basket, missed = Basket(things), []
    [wanted] = random.choices(
        [size for size, _ in SIZES_OF_BASKETS], [share for _, share in SIZES_OF_BASKETS]
    )
    # whoever takes three or more takes them for the offer
    offered = (
        [offer["groups"][0] for offer in things.offers] if wanted > 2 and random.random() < 0.75 else None
    )
    for _ in range(wanted):
        liked = [one for one in things.products if offered is None or one.size in offered]
        [product] = random.choices(liked, [one.liked for one in liked])
        if not stock[product.id]:
            missed.append(product)
            left = [one for one in things.products if stock[one.id]]
            [product] = random.choices(left, [one.liked for one in left])
        stock[product.id] -= 1
        basket.add(product.id)
    return basket, missed


def _paid(random, amount):
    payment = random.choices(("cash", "card", "other"), (60, 38, 2))[0]
    if payment != "cash":
        return {"payment": payment}
    handed = [amount] + [-(-amount // note) * note for note in (500, 1000, 2000, 5000)]
    return {"payment": payment, "tendered": random.choices(handed, (30, 20, 25, 20, 5))[0]}
