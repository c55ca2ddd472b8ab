"""Money: whole minor units of each currency, no cent made or lost."""

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as some

from backend.core.numbers.money import COINS, EXPONENTS, cost_of, each, parse_money, show_each, show_money

pytestmark = pytest.mark.full
CURRENCIES = some.sampled_from(sorted(EXPONENTS))


def test_currencies_have_the_exponents_of_iso_4217():
    # ISO 4217
    named = {"JPY": 0, "EUR": 2, "USD": 2, "GBP": 2, "CHF": 2, "BHD": 3, "KWD": 3}
    assert {currency: EXPONENTS[currency] for currency in named} == named


@given(some.integers(0, 10**12), CURRENCIES)
def test_money_is_read_back_as_it_was_written(minor, currency):
    assert parse_money(show_money(minor, currency), currency) == minor


@given(some.integers(0, 2**53 - 1), CURRENCIES)
def test_written_money_is_exact(minor, currency):
    assert Decimal(show_money(minor, currency)) == Decimal(minor).scaleb(-EXPONENTS[currency])


def test_money_reads_and_writes_as_people_do():
    assert parse_money("8.90", "EUR") == parse_money("8,9", "EUR") == 890
    assert parse_money("8.905", "EUR") is None
    assert parse_money("8.905", "KWD") == 8905
    assert parse_money("890", "JPY") == 890
    assert parse_money("8.9", "JPY") is None
    assert parse_money("dear", "EUR") is None
    assert show_money(890, "EUR") == "8.90"
    assert show_money(890, "JPY") == "890"
    assert show_money(38.57, "EUR", 2) == "0.3857"


@given(some.integers(0, 10**12), some.integers(1, 10**5))
def test_a_share_is_half_up_to_two_decimals(total, count):
    exact = (Decimal(total) / count).quantize(Decimal("0.01"), ROUND_HALF_UP)
    assert Decimal(repr(each(total, count))) == exact


@given(some.integers(1, 10**5), some.integers(0, 10**5), some.integers(10, 10**4))
def test_a_cost_is_half_up(amount, price, per):
    exact = (Decimal(amount) * price / per).quantize(Decimal(1), ROUND_HALF_UP)
    assert cost_of(float(amount), price, float(per)) == exact


def test_a_cost_each_is_told_in_coins_below_one_whole_unit():
    told = [show_each(minor, "EUR") for minor in (38.57, 0, 99.94, 100, 166.67)]
    assert told == ["38.6 c", "0 c", "99.9 c", "1.00 EUR", "1.67 EUR"]
    assert (show_each(38.57, "GBP"), show_each(38.57, "JPY"), show_each(38.57, "SEK")) == (
        "38.6 p",
        "39 JPY",
        "0.39 SEK",
    )
    assert all(EXPONENTS[currency] == 2 for currency in COINS)


def test_a_cost_on_the_half_goes_up_by_the_yard_too():
    # 3 eighths of a yard at 10.20 a yard are 382.5 cents
    assert cost_of(3 * 114.3, 1020, 914.4) == 383
