"""remnant-best-mix on remnants so large that rows are what finds a layout, against bounds by HiGHS."""

from random import Random

import numpy as np
import pytest
from scipy.optimize import linprog

from backend.core.catalogue import answer
from tests.core.cutting.layout_checker import check_mix

FIVE = [
    (482, 110, 850, 60),
    (360, 80, 600, 60),
    (540, 140, 1100, 40),
    (300, 60, 450, 80),
    (610, 150, 1250, 20),
]
# percent, that one in twenty may exceed, and none
USUAL_GAP, WIDEST_GAP = 1, 2
# steps that are enough for rows, and to see that they are kept
FEW_STEPS = 500000


def mix(asked, **more):
    result = answer("remnant-best-mix", {**asked, **more})["result"]
    check_mix({**asked, **more}, result)
    return result


def five_sizes(length):
    rows = [dict(zip(("length", "width", "value", "quantity"), size, strict=True)) for size in FIVE]
    return {"width": 1380, "length": length, "sizes": rows}


def large_remnant(number):
    """Make a bolt's end and some sizes, some of more strips than it holds, some of fewer."""
    random = Random(f"large {number}")
    width = random.choice([1000, 1120, 1380, 1400, 1500.5, 1600])
    length = random.choice([8000, 10000, 12000])
    sizes = [
        {
            "length": 10 * random.randint(25, 65) + random.choice([0, 0, 2, 5]),
            "width": 10 * random.randint(6, 16) + random.choice([0, 0, 5]),
            "value": 50 * random.randint(8, 25),
        }
        for _ in range(random.choice([3, 4, 5, 6, 8]))
    ]
    area = random.uniform(0.7, 1.5) * width * length / len(sizes)
    for size in sizes:
        quantity = int(area * random.uniform(0.5, 1.5) / (size["length"] * size["width"]))
        size["quantity"] = max(1, quantity)
    return {"width": width, "length": length, "sizes": sizes}


def first_fit(asked):
    """Lay rows of one size each, the dearest for its area first, its length across: what they are worth."""
    left, worth = asked["length"], 0
    for size in sorted(asked["sizes"], key=lambda size: -size["value"] / size["length"] / size["width"]):
        beside = int(asked["width"] // size["length"])
        count = min(size["quantity"], beside * int(left // size["width"]))
        left -= -(-count // beside) * size["width"] if count else 0
        worth += count * size["value"]
    return worth


def most_by_bars(asked):
    """Bound any layout by lines across, each way: a linear programme over all fillings of a line (HiGHS)."""
    return min(_most_by_lines(asked, *way) for way in (("width", "length"), ("length", "width")))


def _most_by_lines(asked, across, along):
    ways = [
        (number, *lying)
        for number, size in enumerate(asked["sizes"])
        for lying in {(size["length"], size["width"]), (size["width"], size["length"])}
        if lying[0] <= asked[across]
    ]
    sizes, fillings = asked["sizes"], [[0] * len(ways)]
    while True:
        # strips of each size placed, then how long each filling is
        columns = len(sizes) + len(fillings)
        worth = np.zeros(columns)
        worth[: len(sizes)] = [-size["value"] for size in sizes]
        limits = np.zeros((len(sizes) + 1, columns))
        for place, filling in enumerate(fillings):
            limits[-1, len(sizes) + place] = 1
            for (number, _, high), count in zip(ways, filling, strict=True):
                limits[number, len(sizes) + place] -= count / high
        limits[: len(sizes), : len(sizes)] = np.eye(len(sizes))
        most = [(0, size["quantity"]) for size in sizes] + [(0, None)] * len(fillings)
        right = [0] * len(sizes) + [asked[along]]
        solved = linprog(worth, A_ub=limits, b_ub=right, bounds=most, method="highs")
        duals = -solved.ineqlin.marginals
        value, filling = _best_filling(asked[across], [
            (duals[number] / high, wide, sizes[number]["quantity"]) for number, wide, high in ways
        ])  # fmt: skip
        if value <= duals[-1] * (1 + 1e-7) + 1e-12:
            return -solved.fun
        fillings.append(filling)


def _best_filling(width, items):
    # by dynamic programming over halves of a millimetre
    best, taken = np.zeros(int(2 * width) + 1), []
    for value, wide, most in items:
        counts, units = np.zeros(len(best), dtype=int), int(2 * wide)
        before = best
        for count in range(1, min(most, int(width // wide)) + 1):
            more = np.full(len(best), -1.0)
            more[units * count :] = before[: len(best) - units * count] + count * value
            counts = np.where(more > best, count, counts)
            best = np.maximum(best, more)
        taken.append(counts)
    left, filling = len(best) - 1, [0] * len(items)
    for place in range(len(items) - 1, -1, -1):
        filling[place] = int(taken[place][left])
        left -= filling[place] * int(2 * items[place][1])
    return best[-1], filling


@pytest.mark.parametrize("stages", [2, 3, "any"])
@pytest.mark.parametrize("rotate", [False, True])
def test_all_strips_are_laid_where_there_is_cloth_for_all(stages, rotate):
    # 256 of these 260 once, though rows of one size each hold all
    result = mix(five_sizes(10000), stages=stages, rotate=rotate)
    assert (result["value"], result["pieces"], result["optimal"]) == (192000, 260, True)


def test_a_large_remnant_is_filled_at_once():
    asked = five_sizes(10000)
    assert mix(asked, steps=1)["pieces"] > 30
    assert mix(asked, steps=20000)["pieces"] == 260


@pytest.mark.parametrize("number", [28, 31, 78, 99])
def test_nothing_found_is_worth_less_than_rows_of_one_size_each(number):
    # all of these were once, by up to 0.3 %, and the first answers by half
    asked = large_remnant(number)
    for steps in (1, 30000):
        assert mix(asked, stages=2, rotate=False, steps=steps)["value"] >= first_fit(asked)


def sixty_sizes():
    random = Random("sixty")
    return {"width": 1500.5, "length": 5000, "sizes": [
        {"length": random.randint(90, 700), "width": random.randint(40, 200),
         "value": random.randint(1, 900), "quantity": random.randint(1, 6)}
        for _ in range(60)
    ]}  # fmt: skip


def test_sixty_sizes_are_worth_nearly_what_any_layout_of_them_may_be():
    # rows of the one dearest size were all that was found once
    result = mix(sixty_sizes(), steps=FEW_STEPS)
    assert result["gap"] < 5


@pytest.mark.full
def test_a_large_remnant_gives_nearly_the_most_that_any_layout_may(how_many):
    gaps = []
    for number in range(how_many(1, 100)):
        asked = large_remnant(number)
        found, most = mix(asked), most_by_bars(asked)
        assert found["value"] <= most + 1e-6, number
        gaps.append(100 * (most - found["value"]) / found["value"])
    wide = [gap for gap in gaps if gap > USUAL_GAP]
    assert max(gaps) <= WIDEST_GAP and len(wide) <= len(gaps) // 20, sorted(wide)


@pytest.mark.full
def test_what_more_is_allowed_never_takes_from_a_large_remnant(how_many):
    for number in range(how_many(2, 100)):
        asked, worth = large_remnant(number), {}
        for rotate in (False, True):
            for stages in (2, 3, "any"):
                found = mix(asked, rotate=rotate, stages=stages, steps=FEW_STEPS)
                worth[rotate, stages] = found["value"]
        assert worth[False, 2] >= first_fit(asked), number
        for rotate in (False, True):
            assert worth[rotate, 2] <= worth[rotate, 3] <= worth[rotate, "any"], number
        for stages in (2, 3, "any"):
            assert worth[False, stages] <= worth[True, stages], number
