"""The dual bound: published optima, and for any values whatever never above what some layout costs."""

from itertools import product

import pytest
from hypothesis import assume, given
from hypothesis import strategies as some

from backend.core.cutting.rows.column_generation import ColumnGeneration, ColumnPool
from backend.core.cutting.rows.columns import WarmStart
from backend.core.cutting.rows.constraints import count_of_rows, with_constraints
from backend.core.cutting.rows.dual_bound import DualBound
from backend.core.cutting.rows.problem import Problem, RowType

ENOUGH_STEPS = 10**6
FAR_ABOVE = 1000

# (stock, {width: demand}, linear programme, optimum)
CLASSICAL = (  # Wikipedia, Cutting stock problem
    5600,
    {1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20, 2000: 10, 2050: 12, 2100: 14,
     2140: 16, 2150: 18, 2200: 20},
    72.9167,
    73,
)  # fmt: skip
FOUR_WIDTHS = (6450, {677: 10, 756: 40, 1746: 33, 1876: 10}, 17.941, 18)  # the cutting example of amplpy
PUBLISHED = pytest.mark.parametrize("stock, widths, relaxed, optimum", [CLASSICAL, FOUR_WIDTHS])


def problem_of(stock, widths):
    row_type = RowType(stock, [(size, width, False, 1) for size, width in enumerate(widths)], 1)
    return Problem(list(widths.values()), [row_type], [], list(widths))


def bound_by(problem, values, constraints=(), multipliers=(), upto=FAR_ABOVE):
    """Prove what these values do."""
    row_values = [
        row_type.best_pattern(values, problem.demand, ENOUGH_STEPS)[2] for row_type in problem.row_types
    ]
    total = sum(value * count for value, count in zip(values, problem.demand, strict=True))
    row_values, total = with_constraints(row_values, total, constraints, multipliers)
    return DualBound(problem, row_values, total).least_cost(upto)


def relaxation_of(problem):
    relaxation = ColumnGeneration(problem, ColumnPool(1), [], WarmStart([]), lambda column: True)
    while not relaxation.step():
        pass
    return relaxation


# published ---------------------------------------------------------------------------------------


@PUBLISHED
def test_the_linear_programme_and_the_bound_it_proves_are_the_published_ones(stock, widths, relaxed, optimum):
    problem = problem_of(stock, widths)
    relaxation = relaxation_of(problem)
    assert relaxation.cost() == pytest.approx(relaxed, abs=1e-3)
    assert bound_by(problem, relaxation.values) == optimum


@PUBLISHED
def test_no_further_than_asked(stock, widths, relaxed, optimum):
    problem = problem_of(stock, widths)
    values = relaxation_of(problem).values
    assert bound_by(problem, values, upto=optimum) == optimum
    assert bound_by(problem, values, upto=optimum - 5) == optimum - 5


@PUBLISHED
def test_poor_values_give_a_weak_bound_never_a_wrong_one(stock, widths, relaxed, optimum):
    problem = problem_of(stock, widths)
    # a piece is worth its width: no less than the widths fill, no more than the optimum
    by_width = bound_by(problem, list(widths))
    assert -(-sum(width * count for width, count in widths.items()) // stock) <= by_width <= optimum
    # every piece is worth the same: worked out by hand from the narrowest, of which a row holds most
    most = stock // min(widths)
    assert bound_by(problem, [1] * len(widths)) == -(-sum(widths.values()) // most) < optimum
    # nothing is worth anything
    assert bound_by(problem, [0] * len(widths)) == 0


# any values --------------------------------------------------------------------------------------


@some.composite
def problems(draw):
    """Draw a few sizes and types of row: to buy, plenty or a few, and perhaps a store."""
    sizes = draw(some.lists(some.integers(2, 9), min_size=1, max_size=3))
    demand = [draw(some.integers(1, 3)) for _ in sizes]
    row_types, stores = [], []
    for _ in range(draw(some.integers(1, 2))):
        most = draw(some.none() | some.integers(0, 4))
        row_types.append(row_type_of(sizes, draw(some.integers(4, 14)), draw(some.integers(1, 5)), most=most))
    if draw(some.booleans()):
        stores.append(draw(some.integers(1, 5)))
        take = draw(some.integers(1, 3))
        row_types.append(row_type_of(sizes, draw(some.integers(4, 14)), 0, store=0, take=take))
    return Problem(demand, row_types, stores, sizes)


def row_type_of(sizes, length, cost, **more):
    ways = [(size, width, False, 1) for size, width in enumerate(sizes) if width <= length]
    return RowType(length, ways, cost, **more)


def patterns_of(row_type, demand):
    """List every pattern of a row that is not empty."""
    widths = {size: length for size, length, _ in row_type.pieces}
    ranges = [range(count + 1 if size in widths else 1) for size, count in enumerate(demand)]
    return [
        counts
        for counts in product(*ranges)
        if any(counts)
        and sum(widths.get(size, 0) * count for size, count in enumerate(counts)) <= row_type.capacity
    ]


def least_cost(problem, constraint=None):
    """Try every layout, a row more each time; None where there is none within the constraint.

    Takes: constraint, on the number of rows of the first type.
    """
    rows_at_least = constraint.rhs if constraint and constraint.at_least else 0
    patterns = [patterns_of(row_type, problem.demand) for row_type in problem.row_types]
    most_rows = sum(problem.demand) + rows_at_least
    # (pieces missing, rows of each type, what is left of each store): the least cost of it
    states = {(tuple(problem.demand), (0,) * len(patterns), tuple(problem.stores)): 0}
    best = None
    for _ in range(most_rows + 1):
        for (missing, rows, _), cost in states.items():
            if not any(missing) and is_kept(constraint, rows[0]):
                best = cost if best is None else min(best, cost)
        states = one_row_more(problem, patterns, states)
    return best


def is_kept(constraint, rows):
    if constraint is None:
        return True
    return rows >= constraint.rhs if constraint.at_least else rows <= constraint.rhs


def one_row_more(problem, patterns, states):
    found = {}
    for (missing, rows, stores), cost in states.items():
        for number, row_type in enumerate(problem.row_types):
            used = tuple(count + (number == other) for other, count in enumerate(rows))
            left = tuple(
                room - (row_type.take if row_type.store == store else 0) for store, room in enumerate(stores)
            )
            if (row_type.most is not None and used[number] > row_type.most) or (left and min(left) < 0):
                continue
            for counts in patterns[number]:
                rest = tuple(max(0, one - other) for one, other in zip(missing, counts, strict=True))
                state = (rest, used, left)
                found[state] = min(cost + row_type.cost, found.get(state, cost + row_type.cost))
    return found


VALUES = some.lists(some.integers(0, 50), min_size=3, max_size=3)


@given(problems(), VALUES)
def test_no_layout_costs_less_than_the_bound_of_any_values(problem, values):
    optimum = least_cost(problem)
    assume(optimum is not None)
    assert bound_by(problem, values[: len(problem.demand)]) <= optimum


@given(problems(), VALUES, some.integers(0, 4), some.booleans(), some.integers(0, 60))
def test_nor_at_a_node_where_a_number_of_rows_is_held(problem, values, rhs, at_least, multiplier):
    constraint = count_of_rows(problem, [0], rhs, at_least)
    optimum = least_cost(problem, constraint)
    assume(optimum is not None)
    bound = bound_by(problem, values[: len(problem.demand)], [constraint], [multiplier])
    assert bound <= optimum


@given(some.lists(some.integers(2, 9), min_size=1, max_size=3), some.integers(9, 20), some.data())
def test_the_values_of_the_linear_programme_prove_what_it_costs(sizes, length, data):
    # of rows to buy, plenty of them, nothing is lost but what whole numbers round
    demand = [data.draw(some.integers(1, 3)) for _ in sizes]
    problem = Problem(demand, [row_type_of(sizes, length, 7), row_type_of(sizes, length + 5, 10)], [], sizes)
    relaxation = relaxation_of(problem)
    bound = bound_by(problem, relaxation.values)
    assert relaxation.cost() - 1e-2 <= bound <= least_cost(problem)
