"""What to bring, worked out another way: a Poisson regression, SciPy's laws, and boxes tried one by one."""

from itertools import product as all_of

import numpy as np
from scipy.stats import nbinom, poisson


def poisson_regression(sold, hours, days, products):
    """Fit log E sold = log hours + day + product by iteratively reweighted least squares.

    Returns: (levels by day, shares by product, which add up to 1). Every day and product has sold a piece.
    """
    sold, hours = np.asarray(sold, float), np.asarray(hours, float)
    width = max(days) + 1
    design = np.zeros((len(sold), width + max(products) + 1))
    design[range(len(sold)), days] = 1
    design[range(len(sold)), [width + product for product in products]] = 1
    told = np.log((sold + 0.5) / hours)
    for _ in range(200):
        mean = hours * np.exp(told)
        working = told + (sold - mean) / mean
        root = np.sqrt(mean)
        fitted = np.linalg.lstsq(design * root[:, None], working * root, rcond=None)[0]
        told = design @ fitted
    parts = np.exp(fitted[width:])
    return np.exp(fitted[:width]) * parts.sum(), parts / parts.sum()


def strength_of(counted, expected, weights, freedom):
    """Estimate by moments what `strength` does."""
    counted, expected = np.asarray(counted, float), np.asarray(expected, float)
    apart = float(((counted - expected) ** 2 / expected).sum()) - freedom
    return 1e6 if apart <= 0 else float(np.clip(sum(weights) / apart, 1, 1e6))


def foretold(asked):
    """Foretell each product of a question whose products all sold on its days: [(mean, size, share)].

    Also returns the level of the market.
    """
    names = [row["product"] for row in asked["products"]]
    groups = [row["group"] for row in asked["products"]]
    rows = [
        (number, names.index(row["product"]), row["sold"], day["hours"] if row.get("hours") is None else
         row["hours"], day["hours"], row.get("asked", 0))
        for number, day in enumerate(asked["days"])
        for row in day["rows"]
    ]  # fmt: skip
    share = asked.get("asked_share", 0) / 100
    days, products = [row[0] for row in rows], [row[1] for row in rows]
    out = [row[3] < row[4] for row in rows]
    sold = np.array([row[2] + (row[5] if gone and share else 0) for row, gone in zip(rows, out, strict=True)])
    hours = np.array([row[3] + share * (row[4] - row[3]) for row in rows])
    levels, _ = poisson_regression(sold, hours, days, products)
    markets = [day["market"] for day in asked["days"]]

    def by(keys, values):
        return {
            key: sum(value for one, value in zip(keys, values, strict=True) if one == key) for key in keys
        }

    seen = levels[days] * hours
    count, exposed = by(products, sold), by(products, seen)
    group_of = [groups[product] for product in products]
    usual = {key: value / by(group_of, seen)[key] for key, value in by(group_of, sold).items()}
    usual = [usual[group] for group in groups]
    numbers = range(len(names))
    c = strength_of(
        [count[n] for n in numbers], [exposed[n] * usual[n] for n in numbers],
        [exposed[n] for n in numbers], len(names) - len(set(groups)),
    )  # fmt: skip
    drawn = np.array([(c * usual[n] + count[n]) / (c + exposed[n]) for n in numbers])
    pairs = [(markets[day], product) for day, product in zip(days, products, strict=True)]
    count, exposed = by(pairs, sold), by(pairs, seen)
    c = strength_of(
        [count[pair] for pair in count], [exposed[pair] * drawn[pair[1]] for pair in count],
        [exposed[pair] for pair in count], max(1, (len(set(markets)) - 1) * (len(names) - 1)),
    )  # fmt: skip
    own = np.array([c * drawn[n] + count.get((asked["market"], n), 0) for n in numbers])
    shares = own / (c + np.array([exposed.get((asked["market"], n), 0) for n in numbers]))
    shares /= shares.sum()
    there = by(days, (drawn / drawn.sum())[products] * hours)
    totals = by(days, sold)
    at = [markets[day] for day in there]
    market_level = {
        market: by(at, totals.values())[market] / by(at, there.values())[market] for market in set(at)
    }
    expected = [market_level[markets[day]] * there[day] for day in there]
    spread = 1 / strength_of(list(totals.values()), expected, expected, len(at) - len(set(at)))
    spread = max(0.04, spread) if len(at) - len(set(at)) < 3 else spread
    level, error = _level(asked["market"], market_level, at, totals, spread)
    mean = level * shares * asked["hours"] * asked.get("factor", 100) / 100
    wide = (1 + spread / asked.get("market_days", 1)) * (1 + error) * (1 + 1 / own) - 1
    return list(zip(mean, 1 / wide, shares, strict=True)), level


def _level(market, levels, at, totals, spread):
    if market in levels:
        pieces = sum(sold for sold, one in zip(totals.values(), at, strict=True) if one == market)
        return levels[market], spread / at.count(market) + 1 / pieces
    values = list(levels.values())
    level = float(np.mean(values))
    return level, 0.25 if len(values) == 1 else float(np.var(values, ddof=1)) / level**2


def law(mean, size):
    """Make SciPy's law of a mean and a size, None for Poisson's."""
    return poisson(mean) if size is None else nbinom(size, size / (size + mean))


def expected_sold(mean, size, number):
    """Add up how many of so many sell, from the chances themselves."""
    wanted = np.arange(number)
    one = law(mean, size)
    return float((wanted * one.pmf(wanted)).sum() + number * one.sf(number - 1)) if number else 0.0


def best_box(rows, capacity):
    """Try every box: the greatest worth that any has.

    Takes: rows of (mean, size, gain, carry, stock, at_least).
    """
    worths = [
        [
            gain * (sold := expected_sold(mean, size, number)) - carry * (number - sold)
            for number in range(stock + 1)
        ]
        for mean, size, gain, carry, stock, _ in rows
    ]
    boxes = all_of(*(range(min(row[5], row[4]), row[4] + 1) for row in rows))
    return max(
        sum(worth[number] for worth, number in zip(worths, box, strict=True))
        for box in boxes
        if sum(box) <= capacity
    )


def score(mean, size, sold):
    """Score a law by E|X − y| − E|X − X'|/2, which is another form of the ranked probability score."""
    one = law(mean, size)
    values = np.arange(int(one.ppf(1 - 1e-13)) + sold + 2)
    chance, above = one.pmf(values), one.sf(values)
    return float((np.abs(values - sold) * chance).sum() - (above * (1 - above)).sum())
