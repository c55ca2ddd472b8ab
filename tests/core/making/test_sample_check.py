"""sample-check: every plan of its tables, its chances against SciPy, and that no smaller sample does."""

import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.stats import binom, hypergeom

from backend.core.catalogue import answer
from backend.core.making.sample_check import plan

pytestmark = pytest.mark.full
LEVELS = (1.0, 1.5, 2.5, 4.0, 6.5)
LOTS = (8, 15, 25, 50, 90, 150, 280, 500, 1200, 3200, 10000)
# MIL-STD-105E, table II-A: by size, for AQL 1.0 to 6.5, its most bad ones; "v" and "^" its arrows: memory
TABLE = {
    2: "v v v v 0",
    3: "v v v 0 ^",
    5: "v v 0 ^ v",
    8: "v 0 ^ v 1",
    13: "0 ^ v 1 2",
    20: "^ v 1 2 3",
    32: "v 1 2 3 5",
    50: "1 2 3 5 7",
    80: "2 3 5 7 10",
    125: "3 5 7 10 14",
    200: "5 7 10 14 21",
}


def looked_up(row, column):
    """Follow the arrows of the table from a size: (size, most bad ones)."""
    sizes = list(TABLE)
    while True:
        said = TABLE[sizes[row]].split()[column]
        if said.isdigit():
            return sizes[row], int(said)
        row += 1 if said == "v" else -1


@pytest.mark.parametrize("aql", LEVELS)
def test_every_plan_is_the_tables(aql):
    for row, most in enumerate(LOTS):
        least = LOTS[row - 1] + 1 if row else 2
        for lot in {least, (least + most) // 2, most}:
            assert plan(lot, aql) == looked_up(row, LEVELS.index(aql))


BATCH = {"lot": some.integers(2, 300) | some.integers(2, 10000), "aql": some.sampled_from(LEVELS)}


@given(**BATCH)
def test_the_curve_is_scipys_and_never_rises(lot, aql):
    told = answer("sample-check", {"lot": lot, "aql": aql})["result"]
    size, accept = told["sample"], told["accept"]
    for point in told["curve"]:
        bad = -(-int(point["bad"]) * lot // 100)
        assert point["lot"] == pytest.approx(100 * hypergeom.cdf(accept, lot, bad, size), rel=1e-9, abs=1e-9)
        wanted = 100 * binom.cdf(accept, size, point["bad"] / 100)
        assert point["long_run"] == pytest.approx(wanted, rel=1e-9, abs=1e-9)
    assert [point["bad"] for point in told["curve"]] == list(range(26))
    for kind in ("lot", "long_run"):
        chances = [point[kind] for point in told["curve"]]
        assert all(late <= early + 1e-9 for early, late in zip(chances, chances[1:], strict=False))


@given(some.integers(2, 400), some.integers(1, 50), some.integers(1, 50))
def test_no_smaller_sample_is_as_sure(lot, limit, risk):
    told = answer("sample-check", {"lot": lot, "limit": limit, "risk": risk})["result"]
    bad = -(-limit * lot // 100)
    for row in told["small"]:
        enough = [
            size
            for size in range(1, lot + 1)
            if hypergeom.cdf(row["accept"], lot, bad, size) <= risk / 100 + 1e-10
        ]
        assert row["sample"] == (enough[0] if enough else None)
        if enough:
            one = 100 * hypergeom.sf(row["accept"], lot, 1, row["sample"])
            assert row["finds_one"] == pytest.approx(one, abs=1e-9)


@given(**BATCH, first=some.integers(1, 10000))
def test_a_draw_is_of_different_pieces_of_the_batch(lot, aql, first):
    told = answer("sample-check", {"lot": lot, "aql": aql, "first": min(first, lot)})["result"]
    assert len(set(told["draw"])) == len(told["draw"]) == told["sample"] <= lot
    assert all(1 <= piece <= lot for piece in told["draw"])


@given(**BATCH, good=some.lists(some.booleans(), min_size=200, max_size=200))
def test_a_verdict_comes_as_soon_as_it_is_certain_and_never_changes(lot, aql, good):
    size, accept = (
        answer("sample-check", {"lot": lot, "aql": aql})["result"][name] for name in ("sample", "accept")
    )
    final = "accept" if good[:size].count(False) <= accept else "reject"
    for inspected in range(size + 1):
        found = good[:inspected].count(False)
        given_so_far = {"lot": lot, "aql": aql, "inspected": inspected, "found": found}
        verdict = answer("sample-check", given_so_far)["result"]["verdict"]
        open_still = found <= accept < found + size - inspected
        assert verdict == ("go on" if open_still else final)
