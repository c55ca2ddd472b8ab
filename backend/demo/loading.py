"""The year into a business, through the push that phones use."""

from datetime import UTC, datetime

from ..core.inventing.year import Year
from ..fixtures import read_all
from ..store import log
from ..sync.exchange import MOST_PUSHED
from ..sync.push import push


class HasRecords(Exception):
    """The business has records, which the demo would mix with."""


class Sender:
    """A phone of the demo, as a push knows phones."""

    def __init__(self, business, phone):
        self.business = business
        self.id = phone.id
        self.role = phone.role


def load(connection, business, today):
    """Push the year before a day into a business without records; returns how many changes it is.

    Takes: today, a date.
    Raises: HasRecords.
    """
    if log.lock(connection, business).last_seq:
        raise HasRecords
    loaded = 0
    for phone, online_at, changes in evenings(business, today):
        for start in range(0, len(changes), MOST_PUSHED):
            part = changes[start : start + MOST_PUSHED]
            results = push(connection, Sender(business, phone), part, online_at)
            refused = [result.problems for result in results if result.status != "accepted"]
            if refused:
                raise RuntimeError(f"the demo breaks a rule of records: {refused[:3]}")
            loaded += len(part)
    return loaded


def evenings(business, today):
    """Make the year's changes; yields (phone, UTC ms when it is online, changes), evening by evening."""
    year = Year(read_all(), business, today.isoformat(), local_minutes(today))
    while year.left():
        online_at = year.live()
        for phone in year.phones:
            changes = phone.hand_over()
            if changes:
                yield phone, online_at, changes


def local_minutes(day):
    """Tell this machine's local time less UTC on a day, in minutes."""
    noon = datetime(day.year, day.month, day.day, 12).astimezone(UTC)
    return int((datetime(day.year, day.month, day.day, 12, tzinfo=UTC) - noon).total_seconds()) // 60
