"""Money in integer minor units, with each currency's own exponent.

Source: ISO 4217 (JPY 0, EUR 2, BHD 3 and so on).
"""

from .numerals import decimal, parse, pointed
from .ordering import in_order
from .rounding import floor, half_up

EXPONENTS = {
    "AUD": 2, "BHD": 3, "BRL": 2, "CAD": 2, "CHF": 2, "CLP": 0, "CNY": 2, "CZK": 2, "DKK": 2,
    "EUR": 2, "GBP": 2, "HKD": 2, "HUF": 2, "IDR": 2, "ILS": 2, "INR": 2, "ISK": 0, "JOD": 3,
    "JPY": 0, "KRW": 0, "KWD": 3, "MAD": 2, "MXN": 2, "MYR": 2, "NOK": 2, "NZD": 2, "OMR": 3,
    "PHP": 2, "PLN": 2, "RON": 2, "SEK": 2, "SGD": 2, "THB": 2, "TND": 3, "TRY": 2, "UAH": 2,
    "USD": 2, "VND": 0, "ZAR": 2,
}  # fmt: skip


# what the hundredth of a currency is called where prices are said in it; from memory
COINS = {
    "AUD": "c", "CAD": "c", "EUR": "c", "GBP": "p", "HKD": "c", "MXN": "c", "NZD": "c", "SGD": "c",
    "USD": "c", "ZAR": "c",
}  # fmt: skip


def parse_money(text, currency):
    """Read typed money as minor units; None if it is none or has too many decimals.

    Example: parse_money("8.90", "EUR") == 890
    """
    value = parse(text)
    if value is None:
        return None
    parts = value * 10 ** EXPONENTS[currency]
    minor = half_up(parts)
    exact = abs(parts - minor) < 1e-6 + 1e-12 * abs(parts)
    return minor if exact else None


def show_money(minor, currency, more=0):
    """Write minor units as plain digits; `more` decimals for a cost each.

    Example: show_money(890, "EUR") == "8.90"
    """
    return pointed(half_up(minor * 10**more), EXPONENTS[currency] + more)


def show_each(minor, currency):
    """Write a cost each as coins say it: to a tenth of the small coin, from one whole unit on as it is paid.

    Example: show_each(38.57, "EUR") == "38.6 c"
    """
    if currency in COINS and abs(minor) < 10 ** EXPONENTS[currency]:
        return decimal(minor, 1) + " " + COINS[currency]
    return show_money(minor, currency) + " " + currency


def cost_of(amount, price, per):
    """Work out price × amount ÷ per in minor units, rounded half up."""
    return half_up(amount * price / per)


def each(total, count):
    """Share minor units over pieces, half up to two decimals of a minor unit.

    Example: each(1000, 3) == 333.33
    """
    return (total * 200 + count) // (2 * count) / 100


def to_hundredths(value):
    """Round an amount a piece half up to two decimals of a minor unit.

    Example: to_hundredths(533.335) == 533.34
    """
    return half_up(value * 100) / 100


def spread(amount, weights):
    """Split minor units by weights so that the parts add up: largest remainder, ties in order.

    Example: spread(100, [1, 1, 1]) == [34, 33, 33]
    """
    whole = add_up(weights)
    if not whole:
        return [0] * len(weights)
    parts = [amount * weight // whole for weight in weights]
    numbers = in_order(list(range(len(weights))), lambda number: -(amount * weights[number] % whole))
    for number in numbers[: amount - add_up(parts)]:
        parts[number] += 1
    return parts


def rounded_together(amounts):
    """Round amounts of minor units so that they add up to their own sum, rounded half up.

    Largest remainder, of those equal to a millionth in order.
    Example: rounded_together([100 / 3, 100 / 3, 100 / 3]) == [34, 33, 33]
    """
    whole = 0.0
    for amount in amounts:
        whole += amount
    parts = [floor(amount) for amount in amounts]
    rests = [half_up(1000000 * (amount - part)) for amount, part in zip(amounts, parts)]
    numbers = in_order(list(range(len(amounts))), lambda number: -rests[number])
    for number in numbers[: half_up(whole) - add_up(parts)]:
        parts[number] += 1
    return parts


def add_up(numbers):
    """Add up whole numbers; floats would add up differently on the runtimes."""
    whole = 0
    for number in numbers:
        whole += number
    return whole
