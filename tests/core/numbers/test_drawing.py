"""Chances of bad pieces in a sample: against SciPy, and one chance counted out."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as some
from scipy.stats import binom, hypergeom

from backend.core.numbers.drawing import from_a_long_run, from_a_lot

pytestmark = pytest.mark.full


@some.composite
def lots(draw):
    """A lot with so many drawn and so many bad."""
    lot = draw(some.integers(1, 60) | some.integers(1, 10000))
    return lot, draw(some.integers(0, min(lot, 200))), draw(some.integers(0, lot))


@given(lots(), some.integers(0, 30))
def test_chances_of_a_lot_are_scipys(drawn_from, most):
    lot, drawn, bad = drawn_from
    wanted = float(hypergeom.cdf(most, lot, bad, drawn))
    assert from_a_lot(most, drawn, bad, lot) == pytest.approx(wanted, rel=1e-9, abs=1e-12)


@given(some.integers(1, 200), some.floats(0, 0.25), some.integers(0, 30))
def test_chances_of_a_long_run_are_scipys(drawn, share, most):
    wanted = float(binom.cdf(most, drawn, share))
    assert from_a_long_run(most, drawn, share) == pytest.approx(wanted, rel=1e-9, abs=1e-12)


def test_every_small_lot_is_counted_out():
    for lot in range(1, 9):
        for bad in range(lot + 1):
            for drawn in range(lot + 1):
                samples = list(combinations(range(lot), drawn))
                for most in range(4):
                    passed = [one for one in samples if sum(piece < bad for piece in one) <= most]
                    assert from_a_lot(most, drawn, bad, lot) == pytest.approx(len(passed) / len(samples))


def test_a_published_plan_accepts_one_percent_bad_as_often_as_published():
    # D. C. Montgomery, Introduction to Statistical Quality Control, chapter 15: n 89, c 2, 1 % bad
    assert from_a_long_run(2, 89, 0.01) == pytest.approx(0.93969, abs=5e-6)


def test_a_published_lot_passes_as_often_as_published():
    # sampling exercise, studylib 6591195: 25 pieces, 2 bad, 5 drawn, none may be bad
    assert from_a_lot(0, 5, 2, 25) == pytest.approx(0.6333, abs=5e-5)
