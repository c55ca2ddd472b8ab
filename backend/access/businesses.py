"""The businesses kept here: begun, and named."""

import uuid

from ..store import log, lookups

UNNAMED = "not named yet"


class Business:
    """One business: its id and what it is called."""

    def __init__(self, id, name):
        self.id = id
        self.name = name


def begin(connection, now):
    """Begin a business that a phone will name; returns its id."""
    id = str(uuid.uuid4())
    log.begin(connection, id, str(uuid.uuid4()), now)
    return id


def all_of(connection):
    """List all businesses, oldest first."""
    return [
        Business(id, lookups.business_name(connection, id) or UNNAMED) for id in log.businesses(connection)
    ]
