"""remnant-yield against a general solver (HiGHS through SciPy) on random small remnants.

The model knows nothing of the calculator's rows: it lists every filling of a
row by strips lying either way, whatever the row's height, and lets the solver
choose how many rows of each filling to cut.
"""

from random import Random

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from backend.core.catalogue import answer
from tests.core.cutting.layout_checker import check_layout

pytestmark = pytest.mark.full


def fillings(width, ways):
    """List every filling of a row: (strips in it, its height)."""
    (reach, height), (other_reach, other_height) = ways[0], ways[-1]
    for count in range(width // reach + 1):
        others = range((width - count * reach) // other_reach + 1) if len(ways) == 2 else [0]
        for other in others:
            if count + other:
                yield count + other, max(height if count else 0, other_height if other else 0)


def most_strips(width, length, ways):
    """Solve for the most strips in rows across `width`, stacked along `length`."""
    rows = sorted(set(fillings(width, ways)))
    if not rows:
        return 0
    pieces, heights = np.array(rows).T
    solved = milp(
        -pieces,
        constraints=LinearConstraint(heights, ub=length),
        integrality=np.ones(len(rows)),
        bounds=Bounds(0, np.inf),
        options={"mip_rel_gap": 0},
    )
    assert solved.success, solved.message
    return round(-solved.fun)


def oracle(width, length, strip, nap):
    """Solve both directions of the first cuts; with nap, each way to lie by itself."""
    ways = [strip, strip[::-1]]
    sets = [[way] for way in ways] if nap else [ways]
    return {
        "across": max(most_strips(width, length, allowed) for allowed in sets),
        "along": max(most_strips(length, width, allowed) for allowed in sets),
    }


def small_remnants(count):
    random = Random("remnants")
    for number in range(count):
        strip = (random.randint(20, 200), random.randint(10, 100))
        yield random.randint(20, 700), random.randint(20, 700), strip, number % 3 == 0


def test_no_two_stage_layout_gives_more_strips(how_many):
    gained = 0
    for width, length, strip, nap in small_remnants(how_many(40, 400)):
        given = {
            "width": width,
            "length": length,
            "strip_length": strip[0],
            "strip_width": strip[1],
            "nap": nap,
        }
        result = answer("remnant-yield", given)["result"]
        best = oracle(width, length, strip, nap)
        assert result["pieces"] == len(result["placed"]) == max(best.values()), given
        assert not result["pieces"] or best[result["first_cuts"]] == result["pieces"], given
        check_layout(width, length, strip, result["placed"], result["first_cuts"], nap)
        gained += best["across"] != best["along"]
    assert gained, "no case where the direction of the first cuts matters"
