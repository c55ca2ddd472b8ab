"""The calendar of the year: market days, Fridays, and local times in UTC ms."""

from ..numbers.calendar import EPOCH, MINUTE_MS, day_of, weekday
from ..numbers.money import spread
from .chance import Chance

DAY_MS = 86400000
FRIDAY = 4
# days of the year, the last of them yesterday
DAYS = 365
# so far ahead markets are booked: a first Sunday comes sooner
BOOKED_AHEAD = 35
EXTRA = "extra"


class MarketDay:
    """One day at a market: where, which day, how many sales, and whether the stall stays up after it.

    Days with the same `booked_as` are one booking; `expected` is how many sales
    one would think of, before its weather is known. `market` is None for a booking
    that is of no market.
    """

    def __init__(self, market, number, weight, booked_as, stays):
        self.market = market
        self.number = number
        self.day = day_of(number)
        self.weight = weight
        self.booked_as = booked_as
        self.stays = stays
        self.sales = 0
        self.expected = 0
        self.booking = None


def market_days(year, today):
    """List the market days from the first of the year on, and those booked ahead.

    Takes: year, as the fixtures tell it; today, the number of the day after the
    year's last. Where no market is held today there is an extra one.
    """
    found = []
    for number in range(today - DAYS, today + BOOKED_AHEAD):
        held = [day for day in [_held(row, number, today) for row in year["markets"]] if day]
        if number == today and not held:
            held = [MarketDay(None, number, year["today"]["weight"], EXTRA, False)]
        found += held[:1]
    over = [one for one in found if one.number < today]
    weights = [one.weight for one in over]
    for one, sales in zip(over, spread(year["sales"], weights)):
        one.expected = sales
    for one in found[len(over) :]:
        one.expected = spread(year["sales"], [one.weight] + weights)[0]
    for one, sales in zip(over, spread(year["sales"], _weathered(year, weights))):
        one.sales = sales
    return found


def _weathered(year, weights):
    # the weather of a day brings more customers or fewer than one would think; its draws are its own
    chance = Chance(year["seed"] + 3)
    kinds, likely = year["weather"], [row["share"] for row in year["weather"]]
    weathered = []
    for weight in weights:
        kind = chance.by_weight(kinds, likely)
        percent = kind["percent"] - kind["give_or_take"] + chance.below(2 * kind["give_or_take"] + 1)
        weathered.append(weight * percent)
    return weathered


def _held(row, number, today):
    # the day of a booking that it is: only the first one has the weekday of the rule
    for passed in range(row["days"]):
        begun = number - passed
        if _begins(row, begun):
            first = max(begun, today - DAYS)
            booked_as = row["market"] + " " + day_of(first)
            return MarketDay(row["market"], number, row["weight"], booked_as, passed < row["days"] - 1)
    return None


def _begins(row, number):
    day = day_of(number)
    nth = (int(day[8:]) - 1) // 7 + 1
    return (
        weekday(number) == row["weekday"]
        and row["from"] <= day[5:] <= row["to"]
        and row["nth"] in (None, nth)
    )


def fridays(first, today):
    """List the Fridays from one day up to, and without, another."""
    return [number for number in range(first, today) if weekday(number) == FRIDAY]


def clock_at(offset_minutes):
    """Make the function that gives a local time as UTC ms.

    It takes a day's number, HH:MM, and seconds after that.
    """

    def at(number, clock, seconds=0):
        minutes = int(clock[:2]) * 60 + int(clock[3:]) - offset_minutes
        return (number - EPOCH) * DAY_MS + minutes * MINUTE_MS + seconds * 1000

    return at
