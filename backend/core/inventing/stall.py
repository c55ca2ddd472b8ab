"""One day at a market: floats, sales from two phones, what goes wrong, cash-up, the last count."""

from ..numbers.calendar import padded
from .baskets import choose
from .cash import CashBox
from .counts import count

# sales are at least so many seconds apart
GAP = 20


class Till:
    """A phone at the stall, with its cash box and its seller."""

    def __init__(self, phone, box):
        self.phone = phone
        self.box = box


class StallDay:
    """A day at a market, sold from the stock on the table."""

    def __init__(self, chance, things, prices, market_day, stock):
        self.chance, self.things, self.prices, self.stock = chance, things, prices, stock
        self.market_day, self.day = market_day, market_day.day
        terms = things.terms[market_day.market]
        self.opens, self.closes = terms["opens"], terms["closes"]
        self.sold = []
        self.tills = [
            Till(phone, CashBox(things, phone, box, market_day, self.opens))
            for phone, box in zip((things.imke, things.joss), things.boxes)
        ]

    def run(self):
        """Sell all day, cash up, count."""
        first, last = [self.things.clock(self.market_day.number, time) for time in (self.opens, self.closes)]
        for slot in self.chance.some_of((last - first) // (GAP * 1000), self.market_day.sales):
            self._serve(self.chance.one_of(self.tills), first + slot * GAP * 1000)
        missing = {}
        if self.chance.draw() < 0.1 and self._on_the_table():
            product = self._some_on_the_table()
            self.stock[product.id] -= 1
            missing[product.id] = "one not found"
        for till in self.tills:
            till.box.cash_up(self.chance, self.closes)
        clock = padded(int(self.closes[:2]), 2) + ":30"
        number = self.market_day.number
        count(self.things, self.things.table, number, clock, "closing", self.stock, missing)

    def _serve(self, till, time):
        # one customer, and whatever comes with it within the next seconds
        drawn = self.chance.draw() if self._on_the_table() else 1
        if drawn < 0.01:
            self._mistap(till, time)
        elif drawn < 0.015:
            self._swap(till, time)
            return
        elif drawn < 0.021 and self.sold:
            self._refund(till, time)
        elif drawn < 0.024:
            self._spoil(till, time)
        elif drawn < 0.027:
            direction, amount, reason = self.chance.one_of(
                (("taken out", 650, "lunch"), ("paid in", 1000, "change"))
            )
            till.box.move(time, direction, amount, reason)
        self._sell(till, time + 12000)

    def _at(self, fields):
        told = {"booking": self.market_day.booking, "place": self.things.table}
        told.update(fields)
        return told

    def _sell(self, till, time):
        basket, missed = choose(self.chance, self.things, self.stock)
        for product in missed:
            till.phone.fact("asked-for", time, self.day, self._at({"product": product.id}))
        if not basket.taken:
            return
        made = basket.sale(self.chance, self.prices)
        made["box"] = till.box.id
        id = till.phone.fact("sale", time, self.day, self._at(made))
        till.box.take(made)
        self.sold.append((id, made))

    def _mistap(self, till, time):
        product = self.chance.one_of(self.things.products)
        line = {"product": product.id, "quantity": 1, "unit_price": product.price, "total": product.price}
        made = {"box": till.box.id, "lines": [line], "amount": product.price, "payment": "cash"}
        sale = till.phone.fact("sale", time, self.day, self._at(made))
        till.phone.fact("void", time + 6000, self.day, {"sale": sale, "reason": "wrong tile"})

    def _swap(self, till, time):
        taken = self._some_on_the_table()
        back = self.chance.one_of([one for one in self.things.products if one.size == taken.size])
        line = {"product": taken.id, "quantity": 1, "unit_price": taken.price, "total": 0}
        line["reason"] = "even swap"
        made = {"lines": [line], "returned": [{"product": back.id, "quantity": 1}]}
        made.update({"amount": 0, "payment": "none"})
        till.phone.fact("sale", time, self.day, self._at(made))
        self.stock[taken.id] -= 1
        self.stock[back.id] += 1

    def _refund(self, till, time):
        # each sale at most once
        sale, made = self.sold.pop(self.chance.below(len(self.sold)))
        line = made["lines"][0]
        # what no coin of hers could give back is left out
        amount = line["total"] // line["quantity"]
        amount -= amount % self.things.stall["denominations"][-1]
        goods = self.chance.one_of(("table", "table", "spoilt"))
        back = {name: line[name] for name in ("product", "size") if name in line}
        back.update({"quantity": 1, "total": amount})
        told = {"sale": sale, "box": till.box.id, "lines": [back], "amount": amount}
        told.update({"payment": made["payment"], "goods": goods, "reason": "too tight"})
        till.phone.fact("refund", time, self.day, self._at(told))
        if made["payment"] == "cash":
            till.box.give_back(amount)
        if goods == "table":
            self.stock[back["product"] if "product" in back else self._some_of(back["size"])] += 1

    def _some_of(self, size):
        return [one.id for one in self.things.products if self.things.sizes[one.size] == size][0]

    def _some_on_the_table(self):
        return self.chance.one_of(self._on_the_table())

    def _on_the_table(self):
        return [one for one in self.things.products if self.stock[one.id]]

    def _spoil(self, till, time):
        product = self._some_on_the_table()
        gone = {"place": self.things.table, "product": product.id, "quantity": 1}
        gone.update({"reason": "spoilt", "note": "rain"})
        till.phone.fact("set-aside", time, self.day, gone)
        self.stock[product.id] -= 1
