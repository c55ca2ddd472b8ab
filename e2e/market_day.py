"""A day at a stall: what two people do, decided by a seed, and what is really there after it.

What lies on the table and in the box behind it is kept here piece by piece, and prices are worked
out by hand's rule: nothing of this asks the app. So it can say what phones and server should tell.
"""

import random
from collections import Counter
from pathlib import Path

from .stall import PRICES

SCRIPT = "".join(
    Path(__file__).with_name(name).read_text(encoding="utf-8") for name in ("until.js", "market_day.js")
)
EACH = 400
TABLE, BEHIND = "on the table", "behind"
PAYMENTS = ("cash", "cash", "cash", "card", "card", "other")


class Money:
    """What was taken and given back, by kind of payment."""

    def __init__(self):
        self.taken, self.back = Counter(), Counter()
        self.sales = self.pieces = 0


class MarketDay:
    """The day of a stall (stall.Stall) as it really is.

    `there[product]` says how many pieces lie where; `made` is what the sales
    that stand were: id → (pieces by tile, amount, payment).
    """

    def __init__(self, stall, seed):
        self.stall = stall
        self.random = random.Random(seed)
        self.products = list(stall.product.values())
        self.size = {id: size for (size, _), id in stall.product.items()}
        self.price = {id: PRICES[size] for id, size in self.size.items()}
        self.there = {id: {TABLE: EACH // 2, BEHIND: EACH - EACH // 2} for id in self.products}
        self.money, self.made = Money(), {}
        self.asked = 0
        # sales while the stall is counted, table first: {(sale, product): where its pieces lay}
        self.counting, self.meanwhile = False, {}

    def steps(self, many, person):
        """Choose what a person does until so many sales are made.

        Returns: steps for the phone, and a function that takes what it told of
        each: then it has happened.
        """
        sales, steps, afters = 0, [], []
        while sales < many:
            step, after = self._choose(person)
            steps += step
            afters.append((len(step), after))
            sales += step[0]["what"] == "sell"

        def happened(told):
            for length, after in afters:
                after(*told[:length])
                told = told[length:]

        return steps, happened

    def _choose(self, person):
        do = {self._sell: 88, self._undone: 4}
        if not self.counting:
            do |= {
                self._mistake: 3,
                self._void: 3,
                self._refund: 4,
                self._spoil: 1,
                self._swap: 1,
                self._ask: 1,
            }
        [what] = self.random.choices(list(do), list(do.values()))
        return what(person)

    # what people do: the steps for the phone, and what has happened then

    def _sell(self, person):
        keys, step = self._basket()
        pieces = {key: keys.count(key) for key in keys}

        def after(sale):
            self._take(pieces, sale)
            self._paid(sale, pieces, step)
            person.sales.append(sale)

        return [step], after

    def _undone(self, _):
        return [self._basket()[1], {"what": "undo"}], lambda sale, _: None

    def _mistake(self, person):
        # tapped and never sold: the pieces stay where they are
        _, step = self._basket()
        return [step], person.mistakes.append

    def _void(self, person):
        if not person.mistakes:
            return self._ask(person)
        return [{"what": "void", "sale": person.mistakes.pop()}], lambda _: None

    def _refund(self, person):
        if not person.sales:
            return self._ask(person)
        sale = person.sales.pop(self.random.randrange(len(person.sales)))
        goods = self.random.choice(("table", "spoilt"))
        pieces, pay = self.made[sale]
        first = next(iter(pieces))

        def after(told):
            self.money.back[pay] += told["amount"]
            if goods == "table":
                self._put(first)

        back = [1] + [0] * (len(pieces) - 1)
        return [{"what": "refund", "sale": sale, "back": back, "goods": goods}], after

    def _spoil(self, _):
        product = self.random.choice(self.products)
        fields = {**self._at(), "product": product, "quantity": 1, "reason": "spoilt"}
        return [_fact("set-aside", fields)], lambda _: self._take({product: 1})

    def _ask(self, _):
        def after(_):
            self.asked += 1

        return [_fact("asked-for", {**self._at(), "product": self.random.choice(self.products)})], after

    def _swap(self, _):
        size = self.random.choice(sorted(PRICES))
        out, back = self.random.sample([id for id in self.products if self.size[id] == size], 2)

        def after(_):
            self._take({out: 1})
            self._put(back)
            self.money.sales += 1
            self.money.pieces += 1

        return [{"what": "swap", "out": out, "back": back}], after

    def _basket(self):
        keys = self.random.choices(self.products, k=self.random.choice((1, 1, 2, 3, 4)))
        everyday = sum(self.size[key] == "Everyday" for key in keys)
        refuse = self.stall.offer if everyday >= 3 and self.random.random() < 0.2 else None
        # three Everyday for 15.00 and not 18.00, unless it is taken off
        saving = 0 if refuse else everyday // 3 * 300
        total = sum(self.price[key] for key in keys) - saving
        pay = self.random.choice(PAYMENTS)
        return keys, {"what": "sell", "keys": keys, "refuse": refuse, "total": total, "pay": pay}

    def _at(self):
        return {"day": self.stall.day, "place": self.stall.place}

    # what is really there

    def _take(self, pieces, sale=None):
        for product, count in pieces.items():
            where = self.random.choice((TABLE, BEHIND)) if self.counting else TABLE
            self.there[product][where] -= count
            if self.counting:
                self.meanwhile[sale, product] = where

    def _put(self, product):
        self.there[product][TABLE] += 1

    def _paid(self, sale, pieces, step):
        self.made[sale] = pieces, step["pay"]
        self.money.taken[step["pay"]] += step["total"]
        self.money.sales += 1
        self.money.pieces += sum(pieces.values())

    def lose(self, product):
        """Have a piece vanish that nobody notes."""
        self.there[product][TABLE] -= 1

    def left(self):
        """Tell what is there of each product."""
        return {product: sum(where.values()) for product, where in self.there.items()}


class Person:
    """Who sells: the sales that may be refunded, and those still to be voided."""

    def __init__(self, phone):
        self.phone = phone
        self.sales, self.mistakes = [], []

    def do(self, day, many):
        """Make so many sales, and what else happens meanwhile."""
        steps, happened = day.steps(many, self)
        happened(self.phone.screen.page.evaluate("(steps) => doing(steps)", steps))

    def open_stall(self):
        """Open Sell, where the stall is open already."""
        self.phone.screen.open("/sell")
        self.phone.screen.page.locator(".sell-tiles").wait_for()
        self.phone.screen.page.evaluate(SCRIPT)


def _fact(kind, fields):
    return {"what": "state", "kind": kind, "fields": fields}
