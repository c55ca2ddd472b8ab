"""Digits in and out: what is typed on a phone, and what it reads."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.numbers.numerals import decimal, eighths, parse, pointed, read_eighths
from backend.core.numbers.rounding import ceil, floor

pytestmark = pytest.mark.full


@pytest.mark.parametrize(
    "text, number",
    [
        ("46.2", 46.2), ("46,2", 46.2), ("46", 46), (" 46 ", 46), (".5", 0.5), ("5.", 5), ("0", 0),
        ("-3", -3),
        ("18 1/8", 18.125), ("1/8", 0.125), ("18\u00a01/8", 18.125), ("  18   1/8  ", 18.125),
        ("½", 0.5), ("6½", 6.5), ("6 ½", 6.5), ("18⅛", 18.125), ("-2¾", -2.75), ("1⅜", 1.375),
        ("⅝", 0.625), ("⅞", 0.875), ("¼", 0.25), ("18-1/8", 18.125), ("18–1/8", 18.125),
        ("18 - 1/8", 18.125), ("18-⅛", 18.125), ("18 1⁄8", 18.125), ("1⁄8", 0.125), ("18 1∕8", 18.125),
        ("18\u202f1/8", 18.125), ("-18-1/8", -18.125), ("−3", -3), ("18+1/8", 18.125),
        ("18 1 / 8", 18.125), ("1 / 8", 0.125), ("0 1/8", 0.125),
        ("-1/2", -0.5), ("-2 1/2", -2.5), ("0.1", 0.1), ("999999999999999", 999999999999999),
    ],
)  # fmt: skip
def test_what_is_typed_is_read(text, number):
    assert parse(text) == number
    assert isinstance(parse(text), int) == isinstance(number, int)


@pytest.mark.parametrize(
    "text",
    ["", " ", "-", "--1", "wide", "18 5", "1/8 18", "1/0", "1/", "/8", "1.5/8", "18.5 1/8", "1 1/8 1", "1e5",
     "1.2.3", "1,234.5", "+5", "٣", "1\t2", "0x10", "½½", "½6", "6½ 1/8", "6.5½",
     "1½/2", "½/2", "18-1", "1/8-18", "18--1/8",
     "18-", "-½-", "²", "⅓⁄8", "18 1", "1/ 8/2", "½ ½", "18.5-1/8", "1_000", "nan", "inf", "- 1/8", "1 -1/8",
     "1234567890123456", "18 12345/12345"],
)  # fmt: skip
def test_what_is_no_number_is_none(text):
    assert parse(text) is None


@given(some.text(max_size=12))
def test_any_text_is_a_number_or_none(text):
    assert parse(text) is None or parse(text) == parse(text.strip(" "))


@given(some.integers(-8000, 8000))
def test_eighths_are_read_back_as_they_were_written(count):
    assert parse(eighths(count / 8)) == count / 8


@given(some.floats(0, 10000))
def test_parse_of_eighths_is_within_a_sixteenth(value):
    assert abs(parse(eighths(value)) - value) <= 1 / 16 + 1e-6
    assert value - 1 / 8 - 1e-5 < parse(eighths(value, floor)) <= value + 1e-5
    assert value - 1e-5 <= parse(eighths(value, ceil)) < value + 1 / 8 + 1e-5


def test_eighths_read_as_on_a_tape():
    shown = [eighths(value) for value in (18.125, 0.5, 0.75, 3, 0, 2.99, -0.5, -18.25)]
    assert shown == ["18 1/8", "1/2", "3/4", "3", "0", "3", "-1/2", "-18 1/4"]


def test_eighths_are_printed_as_on_a_tape_and_read_back():
    shown = [read_eighths(value) for value in (18.125, 0.5, 0.75, 3, 0, 2.99, -0.5, -18.25)]
    assert shown == ["18⅛", "½", "¾", "3", "0", "3", "-½", "-18¼"]
    assert [parse(text) for text in shown] == [18.125, 0.5, 0.75, 3, 0, 3, -0.5, -18.25]


def test_decimals_round_half_up_and_drop_zeros():
    shown = [decimal(*pair) for pair in ((46.25, 1), (46.0, 1), (0.05, 1), (-0.05, 1), (-0.04, 1), (100, 0))]
    assert shown == ["46.3", "46", "0.1", "-0.1", "0", "100"]
    assert decimal(450.6666, 2, floor) == "450.66"
    assert decimal(0.101, 1, ceil) == "0.2"


@given(some.integers(-(2**53), 2**53), some.integers(0, 4))
def test_the_point_goes_in_without_losing_a_digit(count, places):
    assert Fraction(pointed(count, places)) == Fraction(count, 10**places)


@given(some.integers(0, 10**9), some.integers(0, 3))
def test_decimals_are_read_back_as_they_were_written(count, places):
    value = count / 10**places
    assert parse(decimal(value, places)) == value
