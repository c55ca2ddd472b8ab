"""Lengths: exact inches, and texts that come back as the same length."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as some

from backend.core.rounding import ceil, floor
from backend.core.units import MILLIMETRES, UNITS, from_mm, parse_length, show_length, to_mm, type_length

pytestmark = pytest.mark.full
LENGTHS = some.floats(0.1, 100000)


def test_units_are_exact():
    # international yard and pound agreement, 1959; NIST SP 811, Appendix B
    assert to_mm(1, "in") == 25.4
    assert to_mm(12, "in") == pytest.approx(304.8, rel=1e-15)
    assert to_mm(1, "yd") == 914.4
    assert to_mm(36, "in") == pytest.approx(to_mm(1, "yd"), rel=1e-15)
    assert to_mm(1 / 8, "yd") == 114.3


@given(LENGTHS, some.sampled_from(UNITS))
def test_a_length_survives_a_round_trip(value, unit):
    assert to_mm(from_mm(value, unit), unit) == pytest.approx(value, rel=1e-15)


@given(some.integers(1, 8000))
def test_eighths_of_an_inch_and_of_a_yard_are_shown_exactly(count):
    for unit in ("in", "yd"):
        length = to_mm(count / 8, unit)
        assert parse_length(show_length(length, unit), unit) == pytest.approx(length, rel=1e-12)


@given(LENGTHS, some.sampled_from(["mm", "cm", "m"]))
def test_a_metric_length_is_shown_to_its_last_place(value, unit):
    place = {"mm": 0.1, "cm": 0.1, "m": 1}[unit]
    assert abs(parse_length(show_length(value, unit), unit) - value) <= place / 2 + 1e-6


@given(LENGTHS, some.sampled_from(UNITS))
def test_a_length_can_be_shown_rounded_to_either_side(value, unit):
    assert parse_length(show_length(value, unit, floor), unit) <= value * (1 + 1e-8) + 1e-6
    # a yard is shown in eighths from a hundredth of one on
    slack = 0.01 * 114.3 if unit == "yd" else 1e-6
    assert parse_length(show_length(value, unit, ceil), unit) >= value * (1 - 1e-8) - slack


@given(LENGTHS, some.sampled_from(UNITS))
def test_a_passed_on_length_is_no_longer_than_it_was_and_hardly_shorter(value, unit):
    typed = parse_length(type_length(value, unit), unit)
    assert typed <= value * (1 + 1e-8)
    least = {"mm": 0.001, "cm": 0.001, "m": 0.01, "in": 0.05 * value + 0.0001 * 25.4, "yd": 0.0001 * 914.4}
    assert value - typed <= least[unit] + 0.0001 * value


@given(LENGTHS, some.sampled_from(UNITS))
# just beyond what an eighth may lose, and just within once it has four decimals
@example(61385.25, "yd")
def test_passing_a_length_on_twice_changes_nothing_more(value, unit):
    once = type_length(value, unit)
    assert type_length(parse_length(once, unit), unit) == once


def test_a_small_length_passed_on_in_inches_does_not_vanish():
    # 1 mm of elastic is less than an eighth, 6 mm less than a quarter
    assert type_length(1, "in") == "0.0393"
    assert type_length(6, "in") == "0.2362"
    assert type_length(10, "in") == "3/8"
    assert type_length(460.375, "in") == "18 1/8"


def test_every_unit_has_its_millimetres():
    assert sorted(MILLIMETRES) == sorted(UNITS)
