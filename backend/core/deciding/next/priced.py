"""What no plan is worth more than, for any prices on minutes, batches and materials."""

SAFE = 1e-11  # relative: what adding up prices may have rounded away


class Priced:
    """A plan's rest at prices: every colour set up for its best bookings, each batch at its best for one.

    The prices, none below 0, stand for minutes up to each booking, batches up to each, and each material.
    Has: bound, which no plan that holds what is made can exceed; picks, (batch, booking, worth less
    prices); uses of each of the limits.
    """

    def __init__(self, plan, limits, prices):
        self.plan, self.limits, self.prices = plan, limits, prices
        bookings = plan.bench.bookings
        self.minute = _from_each(prices[:bookings])
        self.one = _from_each(prices[bookings : 2 * bookings])
        self.of_materials = prices[2 * bookings :]
        self.bound = plan.worth
        for price, limit in zip(prices, limits):
            self.bound += price * limit
        self.uses = [0.0] * len(limits)
        self.picks, self.colours = [], []
        for colour, products in enumerate(plan.bench.of_colour):
            rows, gains, useful = self._rows(products)
            if rows:
                self.colours.append((rows, self._set_up(colour, gains, useful)))
        self.bound += SAFE * abs(self.bound)

    def cost(self, product):
        """List what a batch costs at these prices, by the booking it is ready for."""
        bench, stuff = self.plan.bench, 0.0
        for price, used in zip(self.of_materials, bench.uses[product]):
            stuff += price * used
        minutes = bench.minutes[product]
        return [minutes * self.minute[one] + self.one[one] + stuff for one in range(bench.bookings)]

    def _rows(self, products):
        # each batch that may be made: (batch, [(booking, worth less prices)]); of those that gain at all the
        # bookings where they do, the best first: (batch, [(worth less prices, booking, its bit)]); their bits
        bench, rows, gains, useful = self.plan.bench, [], [], 0
        for product in products:
            cost = None
            for batch in bench.of_product[product]:
                allowed = self.plan.allowed[batch]
                if allowed:
                    cost = cost or self.cost(product)
                    worths, row, best = bench.worths[batch], [], []
                    for booking, costs in enumerate(cost):
                        if allowed >> booking & 1:
                            reduced = worths[booking] - costs
                            row.append((booking, reduced))
                            if reduced > 0:
                                useful |= 1 << booking
                                place = len(best)
                                while place and best[place - 1][0] < reduced:
                                    place -= 1
                                best.insert(place, (reduced, booking, 1 << booking))
                    rows.append((batch, row))
                    if best:
                        gains.append((batch, best))
        return rows, gains, useful

    def _set_up(self, colour, gains, useful):
        # the best bookings to set up for, taken into bound, picks and uses; what forcing each would lose
        bookings = range(self.plan.bench.bookings)
        change, opened = self.plan.bench.changes[colour], self.plan.opened[colour]
        best, chosen, with_it = None, 0, [None] * len(bookings)
        closed = useful & ~opened
        some = closed
        while True:
            value = _gained(gains, some | opened)
            for booking in bookings:
                if some >> booking & 1:
                    value -= change * self.minute[booking]
            for booking in bookings:
                if some >> booking & 1 and (with_it[booking] is None or value > with_it[booking]):
                    with_it[booking] = value
            if best is None or value >= best:
                best, chosen = value, some
            if not some:
                break
            some = (some - 1) & closed
        self.bound += best
        self._take(colour, gains, chosen)
        losses = []
        for booking in bookings:
            if with_it[booking] is not None:
                losses.append(best - with_it[booking])
            else:
                losses.append(0.0 if opened >> booking & 1 else change * self.minute[booking])
        return losses

    def _take(self, colour, gains, chosen):
        bench = self.plan.bench
        bookings = bench.bookings
        for booking in range(bookings):
            if chosen >> booking & 1:
                self._use_minutes(booking, bench.changes[colour])
        chosen |= self.plan.opened[colour]
        for batch, best in gains:
            for reduced, at, bit in best:
                if chosen & bit:
                    product = bench.products[batch]
                    self.picks.append((batch, at, reduced))
                    self._use_minutes(at, bench.minutes[product])
                    for later in range(at, bookings):
                        self.uses[bookings + later] += 1
                    for place, used in enumerate(bench.uses[product]):
                        self.uses[2 * bookings + place] += used
                    break

    def _use_minutes(self, booking, minutes):
        for later in range(booking, self.plan.bench.bookings):
            self.uses[later] += minutes

    def weak(self, found):
        """List the options that no plan worth more than `found` has: (batch, booking)."""
        told, spare = [], self.bound - found - 1 + SAFE * abs(self.bound)
        for rows, losses in self.colours:
            for batch, row in rows:
                for booking, reduced in row:
                    if losses[booking] - min(0.0, reduced) > spare:
                        told.append((batch, booking))
        return told

    def better_prices(self, found, part):
        """Make the next prices: down the slope, as far as a part of the way to what is found (Polyak)."""
        slopes = [_slope(limit, used) for limit, used in zip(self.limits, self.uses)]
        steep = 0.0
        for price, slope in zip(self.prices, slopes):
            if price > 0 or slope < 0:
                steep += slope * slope
        if steep == 0:
            return None
        far = part * (self.bound - found) / steep
        return [
            max(0.0, price - far * slope / limit) if limit > 0 else price
            for price, slope, limit in zip(self.prices, slopes, self.limits)
        ]


def _slope(limit, used):
    # of a price for all of the limit
    return 1 - used / limit if limit > 0 else 0.0


def _from_each(prices):
    # what is due for a booking takes of the limits of all from it on
    told, total = list(prices), 0.0
    for place in range(len(prices) - 1, -1, -1):
        total += prices[place]
        told[place] = total
    return told


def _gained(gains, chosen):
    total = 0.0
    for _, best in gains:
        for reduced, _, bit in best:
            if chosen & bit:
                total += reduced
                break
    return total
