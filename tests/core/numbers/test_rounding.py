"""Rounding: floats' last bits never cost a strip, and large amounts keep their digits."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.numbers.rounding import at_most, ceil, floor, half_up, step_down, step_nearest, step_up

pytestmark = pytest.mark.full
HALVES = some.integers(-(2**52), 2**52)


def test_three_times_46_fits_in_138_whatever_the_float_says():
    # what a float misses by its last bit is no row less
    assert floor(138.0 / 46.0) == 3
    assert floor(0.3 / 0.1) == 3
    assert ceil(0.3 / 0.1) == 3
    assert ceil(1.1 * 3 / 1.1) == 3


def test_a_real_difference_is_not_rounded_away():
    assert floor(2.999999) == 2
    assert ceil(3.000001) == 4
    assert floor(-0.5) == -1
    assert ceil(-0.5) == 0


def test_halves_go_away_from_zero():
    # Python's decimal module, ROUND_HALF_UP: 1.005 → 1.01
    assert half_up(1.005 * 100) == 101
    assert [half_up(value) for value in (0.5, 1.5, 2.5, -0.5, -2.5, 2.4999)] == [1, 2, 3, -1, -3, 2]


@given(HALVES)
def test_whole_numbers_stay_as_they_are_up_to_the_largest(whole):
    assert half_up(float(whole)) == whole


@given(some.integers(-(2**42), 2**42), some.integers(0, 1023))
def test_half_up_is_exact_rounding_but_near_a_half(whole, part):
    value = whole + part / 1024
    exact = Fraction(value)
    up = int(abs(exact) + Fraction(1, 2))
    assert half_up(value) == (up if exact >= 0 else -up)


@given(some.floats(0.001, 1e6), some.floats(0.01, 1e4))
def test_steps_stay_within_one_step_on_their_own_side(value, step):
    slack = 1e-8 * max(value, step)
    assert step_down(value, step) - slack <= value < step_down(value, step) + step + slack
    assert step_up(value, step) - step - slack < value <= step_up(value, step) + slack
    assert abs(step_nearest(value, step) - value) <= step / 2 + slack


@given(some.integers(0, 10**6), some.floats(0.01, 1e4))
def test_a_whole_number_of_steps_is_no_more_and_no_less(count, step):
    assert step_down(count * step, step) == step_up(count * step, step) == count * step


def test_at_most_forgives_the_last_bit_only():
    assert at_most(0.1 + 0.2, 0.3)
    assert not at_most(0.3001, 0.3)
