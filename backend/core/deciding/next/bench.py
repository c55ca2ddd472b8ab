"""The bench before the next bookings: minutes, materials and worths as whole numbers, and what still fits."""

from ...numbers.ordering import in_order
from ...numbers.rounding import half_up

FINE = 1000  # parts of a minute, a square millimetre and a millimetre of elastic
PARTS = 10000  # of a minor unit, fewer where worths are large: both runtimes round to them alike
LARGEST = 100000000


class Bench:
    """All that is fixed: products, their batches one after the other, colours, materials.

    Worths are whole parts, minutes and materials whole thousandths, as floats, which add up exactly.
    Takes: given, the checked input; worths, of each product `batch_worths`.
    """

    def __init__(self, given, worths):
        rows = given["products"]
        self.bookings = len(given["bookings"])
        self.parts = _parts(rows)
        self.until = _run_up([fine(row["minutes"]) for row in given["bookings"]])
        self.changes = [fine(row["minutes"]) for row in given["colours"]]
        names = [row["name"] for row in given["colours"]]
        self.colours = [names.index(row["colour"]) for row in rows]
        self.minutes = [fine(row["minutes"]) for row in rows]
        self.materials, self.uses = _materials(given)
        self.products, self.worths, self.of_product = [], [], []
        for product, of_each in enumerate(worths):
            start = len(self.products)
            self.of_product.append(list(range(start, start + len(of_each))))
            self.products += [product] * len(of_each)
            self.worths += [[float(half_up(worth * self.parts)) for worth in one] for one in of_each]
        self.of_colour = [
            [product for product in range(len(rows)) if self.colours[product] == colour]
            for colour in range(len(names))
        ]
        self.shortest = in_order(
            list(range(len(self.products))), lambda one: self.minutes[self.products[one]]
        )
        self.after = [self._no_better(batch) for batch in range(len(self.products))]

    def _no_better(self, batch):
        # those of the product behind it that are worth no more for any booking
        told = []
        for other in self.of_product[self.products[batch]]:
            if other > batch:
                worse = [
                    one for one in range(self.bookings) if self.worths[other][one] <= self.worths[batch][one]
                ]
                if len(worse) == self.bookings:
                    told.append(other)
        return told


class Plan:
    """Batches that are made, each for a booking, and what may still be made of the rest.

    Has: allowed, for each batch the bookings it may be ready for, as bits; opened, for each colour those it
    is set up for; left, minutes up to each booking; stuff, materials; made, (batch, booking, made before);
    worth.
    """

    def __init__(self, bench, other=None):
        self.bench = bench
        if other:
            self.allowed, self.opened = list(other.allowed), list(other.opened)
            self.left, self.stuff = list(other.left), list(other.stuff)
            self.made, self.worth = other.made, other.worth
            return
        self.opened = [0] * len(bench.changes)
        self.left, self.stuff = list(bench.until), list(bench.materials)
        self.made, self.worth = None, 0.0
        self.allowed = [
            _bits([booking for booking in range(bench.bookings) if worths[booking] > 0])
            for worths in bench.worths
        ]
        self.strike_out()

    def takes(self, product, booking):
        """Tell the minutes that a batch takes, with its colour's change where that is not made yet."""
        colour = self.bench.colours[product]
        change = 0.0 if self.opened[colour] >> booking & 1 else self.bench.changes[colour]
        return self.bench.minutes[product] + change

    def room(self):
        """List the minutes that a batch for each booking may take: left up to it and up to any later one."""
        return [min(self.left[booking:]) for booking in range(self.bench.bookings)]

    def has_stuff(self, product):
        """Say whether there is cloth and elastic for one more batch."""
        for used, left in zip(self.bench.uses[product], self.stuff):
            if used > left:
                return False
        return True

    def make(self, batch, booking):
        """Make a batch that fits, ready for a booking."""
        product = self.bench.products[batch]
        minutes = self.takes(product, booking)
        for later in range(booking, self.bench.bookings):
            self.left[later] -= minutes
        self.opened[self.bench.colours[product]] |= 1 << booking
        self.stuff = [left - used for left, used in zip(self.stuff, self.bench.uses[product])]
        self.allowed[batch] = 0
        self.made = (batch, booking, self.made)
        self.worth += self.bench.worths[batch][booking]

    def forbid(self, batch, booking):
        """Rule out that a batch is ready for a booking; one that is never made leaves out those no better."""
        self.allowed[batch] &= ~(1 << booking)
        if not self.allowed[batch]:
            for other in self.bench.after[batch]:
                self.allowed[other] = 0

    def strike_out(self):
        """Rule out what does not fit alone any more."""
        bench = self.bench
        room = self.room()
        for product, batches in enumerate(bench.of_product):
            if self.has_stuff(product):
                fitting = [
                    booking
                    for booking in range(bench.bookings)
                    if self.takes(product, booking) <= room[booking]
                ]
                kept = _bits(fitting)
            else:
                kept = 0
            for batch in batches:
                self.allowed[batch] &= kept

    def limits(self):
        """List what is left: minutes up to each booking, batches up to each, materials."""
        bench = self.bench
        rest = [
            (bench.products[batch], self.allowed[batch]) for batch in bench.shortest if self.allowed[batch]
        ]
        counts = [self._most_up_to(booking, rest) for booking in range(bench.bookings)]
        return self.left + counts + self.stuff

    def _most_up_to(self, booking, rest):
        # the shortest first; before any of them the smallest change that is not made
        up_to, bench, minutes, change = (2 << booking) - 1, self.bench, [], None
        for product, allowed in rest:
            if allowed & up_to:
                minutes.append(bench.minutes[product])
                colour = bench.colours[product]
                needed = 0.0 if self.opened[colour] & up_to else bench.changes[colour]
                if change is None or needed < change:
                    change = needed
        count, total = 0.0, change
        for each in minutes:
            total += each
            if total > self.left[booking]:
                break
            count += 1
        return count

    def batches(self):
        """List what is made: (batch, booking)."""
        told, one = [], self.made
        while one:
            told.append((one[0], one[1]))
            one = one[2]
        return told


def fine(quantity):
    """Turn minutes or an amount of material into whole thousandths. Example: fine(1.5) == 1500.0"""
    return float(half_up(quantity * FINE))


def _parts(rows):
    # from whole numbers alone, so that it is the same everywhere
    largest, parts = 1, PARTS
    for row in rows:
        for gain in [row["left"]] + [one["gain"] for one in row["demand"]]:
            largest = max(largest, abs(gain) * row["batch"])
    while parts > 1 and largest * parts > LARGEST:
        parts //= 10
    return parts


def _materials(given):
    # cloths of which the area is known, and the elastic if it is: (limits, what a batch of each product uses)
    limits, uses = [], [[] for _ in given["products"]]
    for cloth in given["cloths"]:
        if cloth["area"] is not None:
            limits.append(fine(cloth["area"]))
            for used, row in zip(uses, given["products"]):
                used.append(fine(row["area"]) if row["cloth"] == cloth["name"] else 0.0)
    if given["elastic"] is not None:
        limits.append(fine(given["elastic"]))
        for used, row in zip(uses, given["products"]):
            used.append(fine(row["elastic"]))
    return limits, uses


def _run_up(amounts):
    told, total = [], 0.0
    for amount in amounts:
        total += amount
        told.append(total)
    return told


def _bits(places):
    told = 0
    for place in places:
        told |= 1 << place
    return told
