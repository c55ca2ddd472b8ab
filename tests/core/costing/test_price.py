"""price: price points, margins and offers, for any cost."""

from fractions import Fraction
from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.catalogue import answer
from backend.core.declaring.errors import Problems

pytestmark = pytest.mark.full
COST = some.integers(1, 20000)
POINTS = some.lists(some.integers(1, 60000), min_size=1, max_size=12)
STEPS = {"step": some.integers(1, 500), "direction": some.sampled_from(["up", "nearest"])}


def price(**asked):
    """The result, or None where no price is high enough."""
    try:
        return answer("price", asked)["result"]
    except Problems as error:
        assert [item["field"] for item in error.problems] == ["points"]
        return None


def wanted(cost, margin, tax):
    return Fraction(cost) / (1 - Fraction(margin, 100)) * (1 + Fraction(tax, 100))


@given(COST, some.integers(0, 95), some.integers(0, 25), some.fixed_dictionaries(STEPS))
def test_a_price_is_the_next_whole_step_or_the_nearest(cost, margin, tax, steps):
    told = price(cost=cost, margin=margin, tax_percent=tax, **steps)["price"]
    target, step = wanted(cost, margin, tax), steps["step"]
    if steps["direction"] == "up":
        assert told - step < target <= told
    else:
        assert told == max(step, (target / step + Fraction(1, 2)) // 1 * step)
    assert told % step == 0


@given(COST, some.integers(0, 95), POINTS, some.sampled_from(["up", "nearest"]))
def test_a_point_is_the_lowest_that_is_high_enough_or_the_nearest(cost, margin, points, direction):
    told = price(cost=cost, margin=margin, points=points, direction=direction)
    target = wanted(cost, margin, 0)
    if direction == "nearest":
        assert told["price"] == min(points, key=lambda point: (abs(point - target), -point))
    else:
        enough = [point for point in points if point >= target]
        assert (told and told["price"]) == (min(enough) if enough else None)


@given(COST, COST, some.integers(0, 95), some.integers(0, 95), POINTS, some.fixed_dictionaries(STEPS))
def test_a_price_never_falls_as_cost_or_margin_rises(cost, more, margin, wider, points, steps):
    low, high = sorted((cost, more)), sorted((margin, wider))
    for asked in ({"step": steps["step"]}, {"points": points}):
        prices = [
            price(cost=one, margin=other, direction=steps["direction"], **asked)
            for one, other in ((low[0], high[0]), (low[1], high[0]), (low[1], high[1]))
        ]
        # what is refused lies above every point
        told = [one["price"] if one else 60001 for one in prices]
        assert told == sorted(told)


@given(COST, some.integers(1, 30000), some.floats(0, 25), some.booleans())
def test_margin_and_markup_give_the_price_back(cost, asked, tax, included):
    told = price(cost=cost, price=asked, tax_percent=tax, tax_included=included)
    net = asked / (1 + tax / 100) if included else asked
    assert isclose(cost / (1 - told["margin"] / 100), net, rel_tol=1e-9)
    assert isclose(cost * (1 + told["markup"] / 100), net, rel_tol=1e-9)
    assert abs(told["net"] - net) <= 0.5 + 1e-6


CARD = some.fixed_dictionaries({
    "tax_percent": some.floats(0, 25), "tax_included": some.booleans(), "card_fee": some.floats(0, 20),
    "card_share": some.sampled_from([0, 60, 100]),
})  # fmt: skip


def contribution(cost, paid, terms):
    """What a piece leaves at a price, in fractions: without tax, the card company's share and its cost."""
    tax = 1 + Fraction(terms["tax_percent"]) / 100
    card = Fraction(terms["card_fee"]) * terms["card_share"] / 10000
    net, gross = (paid / tax, paid) if terms["tax_included"] else (paid, paid * tax)
    return net - gross * card - cost


@given(COST, some.integers(1, 30000), some.integers(1, 12), some.integers(0, 60000), CARD)
def test_as_many_more_as_the_lift_says_leave_as_much(cost, full, n, offered, terms):
    told = price(cost=cost, price=full, offer={"n": n, "price": offered}, **terms)["offer"]
    left, less = (float(contribution(cost, paid, terms)) for paid in (Fraction(full), Fraction(offered, n)))
    if told["lift"] is None:
        assert left <= 1e-6 or less <= 1e-6
    else:
        assert (1 + told["lift"] / 100) * less == pytest.approx(left, rel=1e-6, abs=1e-6)
        # of each piece sold, what was extra brought all of its price, and the rest lost the difference
        extra = told["must_be_extra"] / 100
        assert extra * less - (1 - extra) * (left - less) == pytest.approx(0, abs=1e-6 * max(left, 1))
