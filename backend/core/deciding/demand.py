"""What will be wanted at a market, learnt from days before it."""

from ..numbers.samples import mean_of, variance_of
from .asked_for import asked_share, widened
from .strength import strength
from .two_ways import LEAST_PIECES, exposures, fit_two_ways, ratio, scaled

FEWEST_DAYS = 3  # days more than markets, from which their spread is taken as it is seen
USUAL_SPREAD = 0.04
OF_ONE_MARKET = 0.25  # squared relative error of a new market's level, where only one is known


class Learnt:
    """What days tell: the level of each market, each product's share, and how sure both are.

    Takes: rows of the days (two_ways.Row), some with pieces sold; markets, of each day its number; groups,
    of each product its number; asked, which part of those who find nothing left ask, None to estimate it.
    A product's share is drawn towards its group's by how alike the products of groups are, and at a
    market towards that of all markets.
    Source: Poisson's law with gamma levels, by moments (Clayton & Kaldor, Biometrics 43 (1987) 671–681).
    """

    def __init__(self, rows, markets, groups, asked=None):
        self.products, self.markets, self.groups = len(groups), markets, groups
        self.asked = asked_share(rows, len(markets), self.products) if asked is None else asked
        self.rows = widened(rows, self.asked)
        self.day_levels, _ = fit_two_ways(self.rows, len(markets), self.products)
        self.shares = self._drawn_to_groups()
        self._by_market()
        self._levels()

    def _drawn_to_groups(self):
        counted, seen = self._told(self.rows)
        count = max(self.groups) + 1
        of_group, seen_of_group = [0.0] * count, [0.0] * count
        for product, group in enumerate(self.groups):
            of_group[group] += counted[product]
            seen_of_group[group] += seen[product]
        whole = _total(of_group) / _total(seen_of_group)
        usual = [ratio(*one) if one[1] > 0 else whole for one in zip(of_group, seen_of_group)]
        usual = [usual[group] for group in self.groups]
        known = [product for product in range(self.products) if seen[product] > 0]
        c = strength(
            [(counted[product], seen[product] * usual[product], seen[product]) for product in known],
            len(known) - len([group for group in seen_of_group if group > 0]),
        )
        self.known = len(known)
        return [
            (c * usual[product] + counted[product]) / (c + seen[product]) for product in range(self.products)
        ]

    def _told(self, rows):
        counted = [0.0] * self.products
        for row in rows:
            counted[row.product] += row.sold
        return counted, exposures(rows, self.day_levels, self.products)

    def _by_market(self):
        # {market: (pieces by product, what they were seen in)}
        self.told, compared = {}, []
        for market in _all_different(self.markets):
            rows = [row for row in self.rows if self.markets[row.day] == market]
            if not rows:
                continue
            counted, seen = self.told[market] = self._told(rows)
            for product, share in enumerate(self.shares):
                if seen[product] > 0:
                    compared.append((counted[product], seen[product] * share, seen[product]))
        freedom = (len(self.told) - 1) * (self.known - 1)
        self.strength = strength(compared, max(1, freedom))

    def _levels(self):
        shares = scaled(self.shares)
        sold, there = [0.0] * len(self.markets), [0.0] * len(self.markets)
        for row in self.rows:
            sold[row.day] += row.sold
            there[row.day] += shares[row.product] * row.hours
        seen = [day for day in range(len(self.markets)) if there[day] > 0]
        # {market: (level, days, pieces)}
        self.levels, names = {}, _all_different([self.markets[day] for day in seen])
        for market in names:
            days = [day for day in seen if self.markets[day] == market]
            pieces = max(LEAST_PIECES, _total([sold[day] for day in days]))
            self.levels[market] = (pieces / _total([there[day] for day in days]), len(days), pieces)
        self.market_levels = [self.levels[market][0] for market in names]
        expected = [self.levels[self.markets[day]][0] * there[day] for day in seen]
        freedom = len(seen) - len(names)
        rows = [(sold[day], mean, mean) for day, mean in zip(seen, expected)]
        self.day_spread = 1 / strength(rows, freedom)
        if freedom < FEWEST_DAYS:
            self.day_spread = max(USUAL_SPREAD, self.day_spread)

    def level_at(self, market):
        """Tell the pieces an hour that sell at a market, and the squared relative error of that."""
        if market in self.levels:
            level, days, pieces = self.levels[market]
            return level, self.day_spread / days + 1 / pieces
        level = mean_of(self.market_levels)
        if len(self.market_levels) == 1:
            return level, OF_ONE_MARKET
        return level, variance_of(self.market_levels) / (level * level)

    def foretell(self, market, hours, market_days=1, factor=1.0):
        """Foretell what is wanted at a market that is open for some hours on some days.

        Returns: for each product (mean, size, share): size as numbers.counts takes it, None with a mean of 0.
        """
        level, error = self.level_at(market)
        counted, seen = self.told.get(market) or ([0.0] * self.products, [0.0] * self.products)
        sure = [self.strength * share + own for share, own in zip(self.shares, counted)]
        shares = scaled([own / (self.strength + known) for own, known in zip(sure, seen)])
        spread = (1 + self.day_spread / market_days) * (1 + error)
        return [
            (level * share * hours * factor, 1 / (spread * (1 + 1 / own) - 1) if own > 0 else None, share)
            for share, own in zip(shares, sure)
        ]


def _all_different(values):
    told = []
    for value in values:
        if value not in told:
            told.append(value)
    return told


def _total(values):
    whole = 0.0
    for value in values:
        whole += value
    return whole
