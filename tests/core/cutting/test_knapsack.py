"""The knapsack: published answers, every way tried, and a valid bound wherever it is stopped."""

import sys
from itertools import combinations, product

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.cutting.knapsack import solve_knapsack

# Burkardt's collection KNAPSACK_01, data set p01
P01_WEIGHTS = (23, 31, 29, 44, 53, 38, 63, 85, 89, 82)
P01_VALUES = (92, 57, 49, 68, 60, 43, 67, 84, 87, 72)
P01 = [(value, weight, 1) for value, weight in zip(P01_VALUES, P01_WEIGHTS, strict=True)]
P01_BEST = 309
# the rows of the classical cutting-stock example, stock 5600 (Wikipedia, Cutting stock problem)
WIDTHS = (1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200)

ANY_ITEM = some.tuples(some.integers(-3, 30), some.integers(0, 12), some.integers(0, 4))
# of nearly one value for their weight, so that the first filling is seldom the best
LIKE_ITEM = some.builds(
    lambda weight, more, most: (3 * weight + more, weight, most),
    some.integers(3, 12),
    some.integers(0, 3),
    some.integers(1, 4),
)
ITEMS = some.lists(ANY_ITEM, max_size=5) | some.lists(LIKE_ITEM, min_size=2, max_size=5)
ENOUGH_STEPS = 10**6


def best_of_all(capacity, items):
    """Try every number of every item."""
    best = 0
    for counts in product(*[range(most + 1) for _, _, most in items]):
        if weight_of(items, counts) <= capacity:
            best = max(best, value_of(items, counts))
    return best


def best_unbounded(capacity, items):
    """Fill each capacity in turn with one item more: any number of each."""
    best = [0] * (capacity + 1)
    for size in range(1, capacity + 1):
        inside = [value + best[size - weight] for value, weight in items if weight <= size]
        best[size] = max([best[size - 1], *inside])
    return best[capacity]


def weight_of(items, counts):
    return sum(weight * count for (_, weight, _), count in zip(items, counts, strict=True))


def value_of(items, counts):
    return sum(value * count for (value, _, _), count in zip(items, counts, strict=True))


def check(capacity, items, answer):
    """Assert that what was found is allowed and worth what is said of it."""
    value, counts, upper, steps = answer
    assert weight_of(items, counts) <= capacity
    assert all(0 <= count <= most for (_, _, most), count in zip(items, counts, strict=True))
    assert value_of(items, counts) == value <= upper
    assert steps >= 1


def test_the_published_case_of_ten_items():
    value, counts, upper, _ = solve_knapsack(165, P01, ENOUGH_STEPS)
    assert (value, upper) == (P01_BEST, P01_BEST)
    assert counts == [1, 1, 1, 1, 0, 1, 0, 0, 0, 0]


def test_the_fullest_row_of_the_classical_example_leaves_nothing():
    # 1520 + 1880 + 2200
    answer = solve_knapsack(5600, [(width, width, 4) for width in WIDTHS], ENOUGH_STEPS)
    assert answer[0] == answer[2] == 5600


@pytest.mark.parametrize("most_steps", [1, 2, 3, 5, 8, 13, 50])
def test_stopped_early_the_published_case_is_still_bounded(most_steps):
    answer = solve_knapsack(165, P01, most_steps)
    check(165, P01, answer)
    assert answer[0] <= P01_BEST <= answer[2]
    assert answer[3] <= most_steps


def test_the_first_filling_is_bounded_by_one_that_is_better_by_one():
    # 4 + 3 + 3 of 10, where the item of best rate alone leaves 1: worked out by hand
    items = [(5, 4, 9), (4, 3, 9)]
    assert solve_knapsack(10, items, 1) == (12, [0, 3], 13, 1)
    assert solve_knapsack(10, items)[:3] == (13, [1, 2], 13)


def test_a_value_that_is_enough_ends_the_search():
    value, _, upper, steps = solve_knapsack(165, P01, ENOUGH_STEPS, 280)
    assert 280 <= value <= P01_BEST <= upper
    assert steps < solve_knapsack(165, P01, ENOUGH_STEPS)[3]


def test_what_does_not_fit_or_is_worth_nothing_is_left():
    assert solve_knapsack(10, [(5, 11, 9), (0, 1, 9), (-2, 1, 9), (4, 3, 0)]) == (0, [0, 0, 0, 0], 0, 1)
    assert solve_knapsack(10, [])[:3] == (0, [], 0)


def test_an_item_without_weight_is_taken_as_often_as_it_may():
    assert solve_knapsack(3, [(2, 3, 5), (7, 0, 4)])[:3] == (30, [1, 4], 30)


@given(some.integers(0, 30), ITEMS)
def test_nothing_is_worth_more_than_what_it_finds(capacity, items):
    answer = solve_knapsack(capacity, items, ENOUGH_STEPS)
    check(capacity, items, answer)
    assert answer[0] == answer[2] == best_of_all(capacity, items)


@given(some.integers(0, 40), some.lists(some.tuples(some.integers(1, 30), some.integers(1, 12)), max_size=4))
def test_of_plenty_of_each_it_finds_what_the_unbounded_problem_has(capacity, kinds):
    items = [(value, weight, capacity) for value, weight in kinds]
    assert solve_knapsack(capacity, items, ENOUGH_STEPS)[0] == best_unbounded(capacity, kinds)


@given(some.integers(0, 30), ITEMS, some.integers(1, 6), some.none() | some.integers(0, 60))
def test_wherever_it_is_stopped_nothing_is_worth_more_than_its_bound(capacity, items, most_steps, enough):
    answer = solve_knapsack(capacity, items, most_steps, enough)
    check(capacity, items, answer)
    best = best_of_all(capacity, items)
    assert answer[0] <= best <= answer[2]
    assert answer[3] <= most_steps
    if enough is not None and answer[0] < enough and answer[3] < most_steps:
        assert answer[0] == best


def test_a_small_capacity_is_filled_exactly_where_the_search_takes_too_long():
    # none of these is worth more for its weight than the others by much, and none but three together fill it
    items = [(weight * 1000 + 37 * weight % 11, weight, 1) for weight in range(255, 490, 4)]
    answer = solve_knapsack(1000, items, 3000)
    check(1000, items, answer)
    value, _, upper, steps = answer
    best = 0
    for count in (2, 3):
        for taken in combinations(items, count):
            if sum(weight for _, weight, _ in taken) <= 1000:
                best = max(best, sum(own for own, _, _ in taken))
    assert (value, upper) == (best, best)
    assert solve_knapsack(1000, items, 3000, enough=best + 1)[2] > best, "it did not take too long"


def lines_run(capacity, items):
    """Count the lines of code that a search of so many steps comes by."""
    lines = 0

    def seen(frame, event, given):
        nonlocal lines
        lines += event == "line"
        return seen

    sys.settrace(seen)
    try:
        solve_knapsack(capacity, items, 300)
    finally:
        sys.settrace(None)
    return lines


def test_a_filling_that_leaves_less_than_the_lightest_is_done():
    # each step once went on through all of two hundred items that no longer fit: seconds for rolls of elastic
    many = [(weight, weight, 9) for weight in range(1000, 1400, 2)]
    assert lines_run(8999, many) < 5 * lines_run(8999, many[:20])
