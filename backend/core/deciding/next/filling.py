"""Plans that are good at once: filled by what batches bring a minute, then bettered by exchange."""

from ...numbers.ordering import in_order
from .bench import Plan


def filled(priced):
    """Fill what a plan leaves: what the prices picked first, by worth less prices a minute, then the rest.

    Takes: priced, a plan's rest at prices. Returns: a plan.
    """
    plan, bench = Plan(priced.plan.bench, priced.plan), priced.plan.bench
    rows = []
    picked = {}
    for batch, booking, reduced in priced.picks:
        picked[batch] = True
        rows.append((batch, booking, 0, reduced))
    for product, batches in enumerate(bench.of_product):
        cost = priced.cost(product)
        for batch in batches:
            for booking in range(bench.bookings):
                if plan.allowed[batch] >> booking & 1:
                    rows.append((batch, booking, 1, bench.worths[batch][booking] - cost[booking]))
    order = in_order(rows, lambda row: (row[2], -row[3] / bench.minutes[bench.products[row[0]]]))
    fill(plan, [(row[0], row[1]) for row in order])
    return plan


def fill(plan, order):
    """Make each of (batch, booking) in this order that is allowed and fits."""
    room, allowed, bench = plan.room(), plan.allowed, plan.bench
    products, minutes = bench.products, bench.minutes
    shortest = minutes[products[bench.shortest[0]]] if order else 0.0
    for batch, booking in order:
        if allowed[batch] >> booking & 1 and minutes[products[batch]] <= room[booking]:
            product = products[batch]
            if plan.takes(product, booking) <= room[booking] and plan.has_stuff(product):
                plan.make(batch, booking)
                room = plan.room()
                if max(room) < shortest:
                    break


class Exchange:
    """Betters a plan: one or two batches, or a colour of a booking, go, and what fits then is made instead.

    Each try is one step; begun anew whenever one is better. Has: plan, the best; done.
    """

    def __init__(self, root, plan):
        self.root, self.bench = root, root.bench
        options = [
            (batch, booking)
            for batch, allowed in enumerate(root.allowed)
            for booking in range(self.bench.bookings)
            if allowed >> booking & 1
        ]
        # what brings most a minute, and what brings most
        self.ways = [in_order(options, self._by_minute), in_order(options, self._by_worth)]
        self._begin(plan)

    def _by_minute(self, one):
        return -self.bench.worths[one[0]][one[1]] / self.bench.minutes[self.bench.products[one[0]]]

    def _by_worth(self, one):
        return -self.bench.worths[one[0]][one[1]]

    def _begin(self, plan):
        self.plan, self.at = plan, 0
        batches = in_order(plan.batches(), lambda one: one[0])
        gone = [[one] for one in batches]
        groups = []
        for one in batches:
            group = self._group(one)
            if group not in groups:
                groups.append(group)
                gone.append([other for other in batches if self._group(other) == group])
        self.tries = [(some, way) for some in gone for way in (0, 1)]
        for place, one in enumerate(batches):
            self.tries += [([one, other], 0) for other in batches[place + 1 :]]
        self.done = not self.tries

    def _group(self, one):
        return (self.bench.colours[self.bench.products[one[0]]], one[1])

    def step(self):
        """Try one exchange."""
        gone, way = self.tries[self.at]
        self.at += 1
        plan = Plan(self.bench, self.root)
        fill(plan, [one for one in self.plan.batches()[::-1] if one not in gone])
        fill(plan, [one for one in self.ways[way] if one != gone[0]])
        if plan.worth > self.plan.worth:
            self._begin(plan)
        elif self.at == len(self.tries):
            self.done = True
