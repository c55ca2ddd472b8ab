"""One day at a market: floats, sales from two phones, what goes wrong, cash-up, the last count."""

from .baskets import choose
from .cash import CashBox
from .counting import count
from .days import at

# sales are at least so many seconds apart
GAP = 20


class Till:
    """A phone at the stall, with its cash box and its seller."""

    def __init__(self, phone, box):
        self.phone = phone
        self.box = box


class StallDay:
    """A day at a market, sold from the stock on the table."""

    def __init__(self, random, things, market_day, stock):
        self.random, self.things, self.stock = random, things, stock
        self.market_day, self.day = market_day, market_day.day
        terms = things.terms[market_day.market]
        self.opens, self.closes = terms["opens"], terms["closes"]
        self.at = {"booking": market_day.booking, "place": things.table}
        self.sold = []
        self.tills = [
            Till(phone, CashBox(things, phone, box, market_day, self.opens))
            for phone, box in zip((things.imke, things.joss), things.boxes, strict=True)
        ]

    def run(self):
        """Sell all day, cash up, count."""
        first = at(self.day, self.opens)
        seconds = (at(self.day, self.closes) - first) // 1000
        for slot in sorted(self.random.sample(range(seconds // GAP), self.market_day.sales)):
            self.serve(self.random.choice(self.tills), first + slot * GAP * 1000)
        missing = {}
        if self.random.random() < 0.1:
            self._lose(missing)
        for till in self.tills:
            till.box.cash_up(self.random, self.closes)
        clock = f"{int(self.closes[:2])}:30"
        count(
            self.things, self.things.imke, self.things.table, self.day, clock, "closing", self.stock, missing
        )

    def serve(self, till, time):
        """Serve one customer, and whatever comes with it within the next seconds."""
        chance = self.random.random()
        if chance < 0.01:
            self._mistap(till, time)
        elif chance < 0.015:
            self._swap(till, time)
            return
        elif chance < 0.021 and self.sold:
            self._refund(till, time)
        elif chance < 0.024:
            self._spoil(till, time)
        elif chance < 0.027:
            till.box.move(
                time, *self.random.choice((("taken out", 650, "lunch"), ("paid in", 1000, "change")))
            )
        self._sell(till, time + 12_000)

    def _sell(self, till, time):
        basket, missed = choose(self.random, self.things, self.stock)
        for product in missed:
            till.phone.fact("asked-for", time, self.day, **self.at, product=product.id)
        made = basket.sale(self.random)
        id = till.phone.fact("sale", time, self.day, **self.at, box=till.box.id, **made)
        till.box.take(made)
        self.sold.append((id, till, made))

    def _mistap(self, till, time):
        product = self.random.choice(self.things.products)
        line = {"product": product.id, "quantity": 1, "unit_price": product.price, "total": product.price}
        sale = till.phone.fact(
            "sale", time, self.day, **self.at, box=till.box.id, lines=[line], amount=product.price,
            payment="cash",
        )  # fmt: skip
        till.phone.fact("void", time + 6_000, self.day, sale=sale, reason="wrong tile")

    def _swap(self, till, time):
        there = [one for one in self.things.products if self.stock[one.id]]
        taken = self.random.choice(there)
        back = self.random.choice([one for one in self.things.products if one.size == taken.size])
        line = {
            "product": taken.id,
            "quantity": 1,
            "unit_price": taken.price,
            "total": 0,
            "reason": "even swap",
        }
        till.phone.fact(
            "sale", time, self.day, **self.at, lines=[line], returned=[{"product": back.id, "quantity": 1}],
            amount=0, payment="none",
        )  # fmt: skip
        self.stock[taken.id] -= 1
        self.stock[back.id] += 1

    def _refund(self, till, time):
        # each sale at most once
        sale, till_of_sale, made = self.sold.pop(self.random.randrange(len(self.sold)))
        line = made["lines"][0]
        amount, goods = line["total"] // line["quantity"], self.random.choice(("table", "table", "spoilt"))
        back = {name: line[name] for name in ("product", "size") if name in line}
        till.phone.fact(
            "refund", time, self.day, **self.at, sale=sale, box=till.box.id,
            lines=[back | {"quantity": 1, "total": amount}], amount=amount, payment=made["payment"],
            goods=goods, reason="too tight",
        )  # fmt: skip
        if made["payment"] == "cash":
            till.box.give_back(amount)
        if goods == "table":
            self.stock[back["product"] if "product" in back else self._some_of(back["size"])] += 1

    def _some_of(self, size):
        return next(one.id for one in self.things.products if self.things.sizes[one.size] == size)

    def _spoil(self, till, time):
        product = self.random.choice([one for one in self.things.products if self.stock[one.id]])
        till.phone.fact("set-aside", time, self.day, place=self.things.table, product=product.id, quantity=1,
                        reason="spoilt", note="rain")  # fmt: skip
        self.stock[product.id] -= 1

    def _lose(self, missing):
        product = self.random.choice([one for one in self.things.products if self.stock[one.id]])
        self.stock[product.id] -= 1
        missing[product.id] = "one not found"
