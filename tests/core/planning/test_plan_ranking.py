"""Which cloth for a whole plan comes first."""

from backend.core.planning.ranking import rank_plans


def plan(cost, length_to_buy=1000.0, left_out=0):
    return {"left_out": left_out, "cost": cost, "length_to_buy": length_to_buy}


def test_the_cheapest_comes_first():
    assert rank_plans([plan(900), plan(700), plan(800)]) == [1, 2, 0]


def test_a_cloth_that_leaves_strips_out_comes_last_however_cheap():
    assert rank_plans([plan(100, left_out=2), plan(900), plan(50, left_out=3)]) == [1, 0, 2]


def test_what_has_no_price_comes_after_what_has_one_by_its_length():
    assert rank_plans([plan(None, 900.0), plan(None, 800.0), plan(5000)]) == [2, 1, 0]


def test_of_equal_costs_the_least_length_comes_first_then_the_order_given():
    assert rank_plans([plan(700, 1200.0), plan(700, 1100.0), plan(700, 1200.0)]) == [1, 0, 2]
