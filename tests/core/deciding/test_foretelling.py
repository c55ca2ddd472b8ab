"""What is foretold of simulated years, whose demand is known though many products sold out."""

import numpy as np
import pytest
from scipy.stats import nbinom

from backend.core.deciding.demand import Learnt
from backend.core.deciding.scoring import crps
from backend.core.deciding.two_ways import Row

pytestmark = pytest.mark.full
PRODUCTS, MARKETS, DAYS, KNOWN, HOURS, DAY_SIZE = 12, 4, 48, 12, 6.0, 20.0
BARS, YEARS = 10, 30


class Year:
    """A year of market days: levels of markets, shares of products that differ a little by market."""

    def __init__(self, seed):
        random = self.random = np.random.default_rng(seed)
        self.groups = [product // 4 for product in range(PRODUCTS)]
        usual = np.repeat(random.gamma(4, 1, 3), 4) * random.gamma(6, 1 / 6, PRODUCTS)
        shares = usual * random.gamma(50, 1 / 50, (MARKETS, PRODUCTS))
        levels = random.gamma(8, 12 / 8, MARKETS)
        self.hourly = levels[:, None] * shares / shares.sum(1, keepdims=True)
        self.stocked = random.choice((0.9, 1.1, 1.4))
        self.markets, self.rows, self.sold_out = [], [], 0

    def day(self):
        """Foretell a day, then let it happen: rows of (mean, size, true mean, wanted)."""
        number, market = len(self.markets), int(self.random.integers(MARKETS))
        told = []
        if number >= KNOWN:
            told = Learnt(self.rows, self.markets, self.groups).foretell(market, HOURS)
        self.markets.append(market)
        weather = self.random.gamma(DAY_SIZE, 1 / DAY_SIZE)
        wanted = self.random.poisson(self.hourly[market] * HOURS * weather)
        for product, count in enumerate(map(int, wanted)):
            self._sell(
                number, product, count, int(np.ceil(self.hourly[market][product] * HOURS * self.stocked))
            )
        true = self.hourly[market] * HOURS
        return [
            (*law[:2], mean, count) for law, mean, count in zip(told, true, map(int, wanted), strict=False)
        ]

    def _sell(self, day, product, count, stock):
        if count < stock:
            self.rows.append(Row(day, product, count, HOURS))
            return
        # the last piece goes when as many customers have come
        hours = max(0.01, float(np.sort(self.random.uniform(0, HOURS, count))[stock - 1]))
        self.rows.append(Row(day, product, stock, hours, HOURS - hours))
        self.sold_out += 1


def test_simulated_years_are_foretold_nearly_as_well_as_by_who_knows_the_law():
    years, rows = [Year(seed) for seed in range(YEARS)], []
    for year in years:
        for _ in range(DAYS):
            rows += year.day()
    found = sum(crps(mean, size, wanted) for mean, size, _, wanted in rows)
    best = sum(crps(true, DAY_SIZE, wanted) for _, _, true, wanted in rows)
    mean, size, true, wanted = map(np.array, zip(*rows, strict=True))
    bars = histogram(mean, size, wanted)
    assert 0.18 < sum(year.sold_out for year in years) / sum(len(year.rows) for year in years) < 0.5
    assert found / best < 1.08
    assert abs(mean.sum() / true.sum() - 1) < 0.04
    assert np.all((bars > 0.08) & (bars < 0.12)), bars


def histogram(mean, size, wanted):
    """Tell how often what was wanted lies in each tenth of its law: evenly, where the laws are right.

    Source: Czado, Gneiting & Held, Biometrics 65 (2009) 1254–1261, the non-random form.
    """
    chance = size / (size + mean)
    below, up_to = nbinom.cdf(wanted - 1, size, chance), nbinom.cdf(wanted, size, chance)
    edges = [np.clip((edge - below) / (up_to - below), 0, 1).mean() for edge in np.linspace(0, 1, BARS + 1)]
    return np.diff(edges)
