"""The search for what to sew next: prices, filling and exchange, then depth first under the same bound."""

from .bench import FINE, Plan
from .filling import Exchange, filled
from .priced import Priced

BISECTIONS = 8
SLOPES = 100
FILL_EVERY = 4
PATIENCE = 5  # steps without a better bound, after which steps are halved
TRIES = 3  # prices tried at each branch
BISECT, SLOPE, EXCHANGE, TREE = "bisect", "slope", "exchange", "tree"


class Search:
    """A search that has a plan, a bound and prices at any moment.

    Has: found, the best plan; bound, in parts, and best, the prices it is of; done.
    """

    def __init__(self, bench):
        self.bench = bench
        self.root = Plan(bench)
        self.limits = self.root.limits()
        self.found = self.root
        self.bound, self.best = None, None
        self.phase, self.count, self.low, self.high = BISECT, 0, 0.0, None
        self.part, self.waited, self.exchange = 1.0, 0, None
        self.stack, self.now, self.done = [], None, False
        first = self._evaluate([0.0] * len(self.limits))
        self._take(filled(first))
        self._find_end()
        self.high = self._dearest()

    def _dearest(self):
        # a price of a minute at which nothing pays
        most = 0.0
        for batch, worths in enumerate(self.bench.worths):
            for booking, worth in enumerate(worths):
                if self.root.allowed[batch] >> booking & 1:
                    most = max(most, worth / self.bench.minutes[self.bench.products[batch]])
        return most

    def _evaluate(self, prices):
        # of the whole bench: the best bound and its prices are remembered
        priced = self.last = Priced(self.root, self.limits, prices)
        if self.bound is None or priced.bound < self.bound:
            self.bound, self.best = priced.bound, priced
        return priced

    def _take(self, plan):
        if plan.worth > self.found.worth:
            self.found = Plan(self.bench, plan)

    def _find_end(self):
        # worths are whole
        if self.bound < self.found.worth + 1:
            self.bound, self.done = self.found.worth, True

    def step(self):
        """Work on by one step: prices tried, an exchange, or a branch."""
        if self.phase == BISECT:
            self._bisect()
        elif self.phase == SLOPE:
            self._descend()
        elif self.phase == EXCHANGE:
            self._exchange()
        else:
            self._branch()
        if not self.done and self.phase != TREE:
            self._find_end()

    def _bisect(self):
        # one price for all minutes, on those up to the last booking
        middle = (self.low + self.high) / 2
        last = self.bench.bookings - 1
        prices = [0.0] * len(self.limits)
        prices[last] = middle
        priced = self._evaluate(prices)
        if priced.uses[last] > self.limits[last]:
            self.low = middle
        else:
            self.high = middle
        self._take(filled(priced))
        self.count += 1
        if self.count == BISECTIONS:
            self.phase, self.count, self.last = SLOPE, 0, self.best

    def _descend(self):
        before, count = self.bound, self.count
        prices = self.last.better_prices(self.found.worth, self.part)
        if prices is not None:
            priced = self._evaluate(prices)
            if count % FILL_EVERY == 0:
                self._take(filled(priced))
            self.waited = 0 if self.bound < before else self.waited + 1
            if self.waited == PATIENCE:
                self.part, self.waited, self.last = self.part / 2, 0, self.best
        self.count += 1
        if prices is None or self.count == SLOPES:
            self._take(filled(self.best))
            self.phase, self.exchange = EXCHANGE, Exchange(self.root, self.found)
            if self.exchange.done:
                self._plant()

    def _exchange(self):
        self.exchange.step()
        self._take(self.exchange.plan)
        if self.exchange.done:
            self._plant()

    def _plant(self):
        self.phase = TREE
        self.stack = [(self.bound, Plan(self.bench, self.root), self.best.prices)]

    def _branch(self):
        # the branch at hand at its next prices; when none can help any more, its two halves wait
        if self.now is None:
            self._next()
            if self.done:
                return
        plan, prices, limits, least, tries = self.now
        priced = Priced(plan, limits, prices)
        least = min(least, priced.bound)
        if tries == 0:
            self.count += 1
            if self.count % FILL_EVERY == 0:
                self._take(filled(priced))
        if least < self.found.worth + 1:
            self.now = None
        else:
            for batch, booking in priced.weak(self.found.worth):
                plan.forbid(batch, booking)
            prices = priced.better_prices(self.found.worth, 1.0) if tries + 1 < TRIES else None
            if prices is None:
                self._split(priced, least)
            else:
                self.now = (plan, prices, limits, least, tries + 1)
        if self.now is None and not self.stack:
            self._end()

    def _next(self):
        while self.stack:
            bound, plan, prices = self.stack.pop()
            if bound >= self.found.worth + 1:
                self.now = (plan, prices, plan.limits(), bound, 0)
                return
        self._end()

    def _end(self):
        self.bound, self.done = self.found.worth, True

    def _split(self, priced, least):
        self.now = None
        plan = priced.plan
        option = self._surest(priced)
        if option is None:
            return
        batch, booking = option
        without = Plan(self.bench, plan)
        without.forbid(batch, booking)
        self.stack.append((least, without, priced.prices))
        plan.make(batch, booking)
        plan.strike_out()
        self._take(plan)
        self.stack.append((least, plan, priced.prices))

    def _surest(self, priced):
        # what brings most a minute above the prices
        best, most = None, None
        for batch, booking, reduced in priced.picks:
            gain = reduced / self.bench.minutes[self.bench.products[batch]]
            if priced.plan.allowed[batch] >> booking & 1 and (most is None or gain > most):
                best, most = (batch, booking), gain
        if best is None:
            for batch, allowed in enumerate(priced.plan.allowed):
                for booking in range(self.bench.bookings):
                    if allowed >> booking & 1:
                        return (batch, booking)
        return best

    def hour(self):
        """Tell what an hour more before the first booking would bring at the best prices, about."""
        price = 0.0
        for one in self.best.prices[: self.bench.bookings]:
            price += one
        return 60 * FINE * price

    def bound_now(self):
        """Tell what no plan is worth more than."""
        if self.phase != TREE or self.done:
            return self.bound
        waiting = [bound for bound, _, _ in self.stack]
        if self.now is not None:
            waiting.append(self.now[3])
        return min(self.bound, max([self.found.worth] + waiting))
