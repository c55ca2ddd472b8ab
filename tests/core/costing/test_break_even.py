"""break-even: that so many pieces pay and one fewer does not, the split, and the chance against SciPy."""

from fractions import Fraction
from math import log, sqrt
from statistics import mean, stdev

import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.stats import t

from backend.core.catalogue import answer

pytestmark = pytest.mark.full
ROW = some.fixed_dictionaries({
    "name": some.just("Everyday"), "price": some.integers(1, 2000), "variable": some.integers(0, 1500),
    "share": some.integers(0, 100),
})  # fmt: skip
MIX = some.lists(ROW, min_size=1, max_size=8).filter(lambda rows: any(row["share"] for row in rows))
DAY = some.fixed_dictionaries({
    "mix": MIX, "fee": some.integers(0, 20000), "fee_percent": some.integers(0, 20),
    "card_fee": some.integers(0, 4), "card_share": some.integers(0, 100), "off_percent": some.integers(0, 30),
    "own_minutes": some.integers(0, 900), "wage": some.integers(0, 3000),
})  # fmt: skip
PAST = some.lists(some.integers(0, 200000), min_size=3, max_size=20)


def left_of_a_piece(day):
    kept = 1 - Fraction(day["fee_percent"], 100) - Fraction(day["card_fee"] * day["card_share"], 10000)
    off = 1 - Fraction(day["off_percent"], 100)
    whole = sum(row["share"] for row in day["mix"])
    return sum(row["share"] * (row["price"] * off * kept - row["variable"]) for row in day["mix"]) / whole


@given(DAY)
def test_so_many_pieces_pay_for_the_day_and_one_fewer_does_not(day):
    told = answer("break-even", day)
    left, pieces = left_of_a_piece(day), told["result"]["pieces"]
    if left <= 0:
        assert pieces is None and [one["rule"] for one in told["notes"]] == ["never"]
        return
    assert (pieces - 1) * left < day["fee"] <= pieces * left
    own = Fraction(day["own_minutes"] * day["wage"], 60)
    wanted = told["result"]["with_wage"]["pieces"]
    assert (wanted - 1) * left < day["fee"] + own <= wanted * left


@given(DAY)
def test_pieces_by_product_add_up_and_none_is_a_piece_off_its_share(day):
    told = answer("break-even", day)["result"]
    if told["pieces"] is None:
        assert told["by_product"] is None
        return
    counts = [row["pieces"] for row in told["by_product"]]
    whole = sum(row["share"] for row in day["mix"])
    exact = [Fraction(told["pieces"] * row["share"], whole) for row in day["mix"]]
    assert sum(counts) == told["pieces"]
    # largest remainder, ties in the order given
    rest = sorted(range(len(exact)), key=lambda row: (-(exact[row] % 1), row))
    up = rest[: told["pieces"] - sum(int(part) for part in exact)]
    assert counts == [int(part) + (row in up) for row, part in enumerate(exact)]


@given(PAST, some.integers(1, 200000))
def test_the_chance_is_scipys(past, needed):
    told = answer("break-even", {
        "fee": needed, "mix": [{"name": "Everyday", "price": 500, "variable": 0, "share": 1}], "past": past,
    })["result"]  # fmt: skip
    assert told["reached"] == {"days": sum(one >= needed for one in past), "of": len(past)}
    logs = [log(max(1, one)) for one in past]
    if stdev(logs) > 1e-9:
        spread = stdev(logs) * sqrt(1 + 1 / len(logs))
        wanted = 100 * float(t.cdf((mean(logs) - log(needed)) / spread, len(logs) - 1))
        assert told["chance"] == pytest.approx(wanted, rel=1e-9, abs=1e-9)
    else:
        assert told["chance"] in (0, 100)


def test_the_chance_of_five_days_is_as_published():
    # computed with SciPy's t on logarithms: 84.6756 %
    told = answer("break-even", {
        "fee": 700, "mix": [{"name": "Everyday", "price": 5, "variable": 0, "share": 1}],
        "past": [742, 815, 690, 803, 771],
    })["result"]  # fmt: skip
    assert told["chance"] == pytest.approx(84.6756, abs=5e-5)
