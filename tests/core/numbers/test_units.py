"""Lengths: exact inches, and texts that come back as the same length."""

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.numbers.rounding import ceil, floor
from backend.core.numbers.units import (
    MILLIMETRES,
    UNITS,
    from_mm,
    parse_length,
    show_length,
    to_mm,
    type_length,
)

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
def test_a_length_typed_out_is_the_nearest_its_unit_can_show(value, unit):
    typed = parse_length(type_length(value, unit), unit)
    step = {"mm": 0.1, "cm": 0.1, "m": 1, "in": 3.175, "yd": 0.001 * value + 0.0001 * 914.4}[unit]
    assert abs(typed - value) <= step / 2 + 1e-6 + 1e-8 * value


@given(LENGTHS, some.sampled_from(UNITS))
def test_what_must_fit_is_typed_out_no_longer_than_it_is(value, unit):
    assert parse_length(type_length(value, unit, floor), unit) <= value * (1 + 1e-8) + 1e-6


def test_a_size_is_typed_out_to_the_nearest_eighth_and_what_must_fit_below_it():
    assert type_length(165, "in") == "6 1/2"
    assert type_length(1400, "in") == "55 1/8"
    assert type_length(1399, "in") == "55 1/8"
    assert type_length(1399, "in", floor) == "55"
    assert type_length(450.6666, "mm") == "450.7"
    assert type_length(450.6666, "mm", floor) == "450.6"


def test_a_small_length_passed_on_in_inches_does_not_vanish():
    # 1 mm of elastic is less than an eighth, 6 mm less than a quarter
    assert type_length(1, "in") == "0.0394"
    assert type_length(6, "in", floor) == "0.2362"
    assert type_length(10, "in") == "3/8"
    assert type_length(460.375, "in") == "18 1/8"


def test_every_unit_has_its_millimetres():
    assert sorted(MILLIMETRES) == sorted(UNITS)
