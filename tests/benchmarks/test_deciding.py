"""How good what is foretold is: the demo's year out of its days before, and what markets are worth."""

from datetime import date
from random import Random

import pytest

from backend.core.catalogue import answer
from tests.benchmarks.market_days import days_of_the_demo
from tests.benchmarks.table import row

pytestmark = pytest.mark.benchmark

# the year that the documentation tells, and twelve that end elsewhere: with other weather on other days
DOCUMENTED = date(2026, 1, 1)
OTHERS = [date(2026, month, 17) for month in range(1, 13)]
# of the better of as many as last time and the mean sold so far
MOST_OF_A_GUESS = 0.75
# an interval of 80 % holds what it is of for so many of 100, give or take
MAKERS, SEED, SURE, MOST_OFF = 1000, 20260101, 80, 3
HOURS, LEVEL, SPREAD = 8, 2000, 500


def compared(today):
    """Foretell a year's days from the fifth on; returns (our score ÷ the better guess's, what it says)."""
    days, products = days_of_the_demo(today)
    given = {
        "days": days,
        "products": [row | {"stock": 60, "gain": 400} for row in products],
        "capacity": 200,
        "market": days[-1]["market"],
        "hours": days[-1]["hours"],
        "check": True,
    }
    check = answer("bring-to-market", given)["result"]["check"]
    assert check["days"] > 35
    sold_out = sum("hours" in row for day in days for row in day["rows"])
    assert sold_out > 20
    words = "{crps:.2f} pieces off; last time's {last_time:.2f}, mean sold {mean_sold:.2f}".format(**check)
    return check["crps"] / min(check["last_time"], check["mean_sold"]), f"{words}; {sold_out} sold out"


def test_the_demo_year_is_foretold_better_than_by_last_time_or_the_mean(keep):
    found, words = compared(DOCUMENTED)
    keep(row("foretelling: CRPS of the demo year, of a guess's", [found], MOST_OF_A_GUESS, limits=words))


def test_so_are_years_that_end_on_other_days(keep):
    found = [compared(today)[0] for today in OTHERS]
    words = "12 ends of the year"
    keep(row("foretelling: the same, the worst year", found, MOST_OF_A_GUESS, judge="p95", limits=words))


def a_maker(random):
    """Make a maker whose markets' worth is known, in cents an hour.

    Two to seven markets, one to sixteen days of each; days of one market spread round its level, and levels
    round a common one by a tenth of that up to twice as much.
    Returns: ([level], the days as `market-result` takes them, a day more of each market).
    """
    between = SPREAD * random.uniform(0.1, 2)
    levels = [random.gauss(LEVEL, between) for _ in range(random.randint(2, 7))]
    days, further = [], []
    for number, level in enumerate(levels):
        earned = [random.gauss(level, SPREAD) for _ in range(random.randint(1, 16) + 1)]
        further.append(earned.pop())
        days += [
            {"name": "day", "market": f"market {number}", "takings": max(0, round(hour * HOURS)),
             "refunds": max(0, -round(hour * HOURS)), "goods_cost": 0, "fee": 0, "own_minutes": 60 * HOURS}
            for hour in earned
        ]  # fmt: skip
    return levels, days, further


def test_what_a_market_is_worth_lies_where_it_is_said_to(keep):
    random, held, next_held = Random(SEED), [], []
    for _ in range(MAKERS):
        levels, days, further = a_maker(random)
        told = answer("market-result", {"bookings": days, "wage": 1500})["result"]["markets"]
        for level, hour, market in zip(levels, further, told, strict=True):
            held.append(market["low"] <= level <= market["high"])
            next_held.append(market["next_low"] <= hour <= market["next_high"])
    for what, found in (("a market's level", held), ("its next day", next_held)):
        percent = 100 * sum(found) / len(found)
        words = f"{percent:.1f} % of {len(found)} markets of {MAKERS} makers; {SURE} % are said"
        keep(row(f"80 % interval of {what}: points off", [abs(percent - SURE)], MOST_OFF, limits=words))
