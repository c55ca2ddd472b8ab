"""How good what is foretold is: the demo's year out of its days before, one after another."""

from datetime import date

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
