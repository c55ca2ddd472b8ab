"""The year into a business, through the push that phones use."""

from ..store import log
from ..sync.exchange import MOST_PUSHED
from ..sync.push import push
from .year import evenings


class HasRecords(Exception):
    """The business has records, which the demo would mix with."""


class Sender:
    """A phone of the demo, as a push knows phones."""

    def __init__(self, business, phone):
        self.business = business
        self.id = phone.id
        self.role = phone.role


def load(connection, business):
    """Push the year into a business without records; returns how many changes it is.

    Raises: HasRecords.
    """
    if log.lock(connection, business).last_seq:
        raise HasRecords
    loaded = 0
    for phone, online_at, changes in evenings(business):
        for start in range(0, len(changes), MOST_PUSHED):
            part = changes[start : start + MOST_PUSHED]
            results = push(connection, Sender(business, phone), part, online_at)
            refused = [result.problems for result in results if result.status != "accepted"]
            if refused:
                raise RuntimeError(f"the demo breaks a rule of records: {refused[:3]}")
            loaded += len(part)
    return loaded
