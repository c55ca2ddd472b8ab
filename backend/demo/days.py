"""The calendar of the year: market days, Fridays, and local times in UTC ms."""

from datetime import UTC, date, datetime, timedelta

from ..core.money import spread

# Sandholt keeps one time all year, an hour before UTC
LOCAL_MS = 3_600_000


class MarketDay:
    """One day at a market: where, which day, how many sales, and whether the stall stays up after it.

    Days with the same `booked_as` are one booking.
    """

    def __init__(self, market, day, weight, booked_as, stays):
        self.market = market
        self.day = day
        self.weight = weight
        self.booked_as = booked_as
        self.stays = stays
        self.sales = 0
        self.booking = None


def market_days(year):
    """List the market days of the year, each with its share of the sales."""
    found = []
    for row in year["markets"]:
        market, weight = row["market"], row["weight"]
        if "days" in row:
            days = [date.fromisoformat(day) for day in row["days"]]
            found += [MarketDay(market, day, weight, market, day != days[-1]) for day in days]
        else:
            found += [MarketDay(market, day, weight, f"{market} {day}", False) for day in _recurring(row)]
    found.sort(key=lambda one: one.day)
    for one, sales in zip(found, spread(year["sales"], [one.weight for one in found]), strict=True):
        one.sales = sales
    return found


def _recurring(row):
    day, last = date.fromisoformat(row["first"]), date.fromisoformat(row["last"])
    while day <= last:
        if row["every"] == "Saturday" or day.day <= 7:
            yield day
        day += timedelta(days=7)


def fridays(first, last):
    """List the Fridays from one day to another."""
    day = first + timedelta(days=(4 - first.weekday()) % 7)
    return [day + timedelta(days=7 * week) for week in range((last - day).days // 7 + 1)]


def at(day, clock, seconds=0):
    """Give a local time as UTC ms. Example: at(date(1970, 1, 1), "01:00") == 0"""
    hours, minutes = clock.split(":")
    midnight = datetime(day.year, day.month, day.day, tzinfo=UTC)
    passed = (int(hours) * 60 + int(minutes)) * 60 + seconds
    return (int(midnight.timestamp()) + passed) * 1000 - LOCAL_MS
