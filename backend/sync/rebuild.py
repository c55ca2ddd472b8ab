"""The tables made again from the log, exactly as the exchanges left them.

What the check would not take any more, as a fact from before a limit, stays in the log
and is set aside: phones do the same, and its owner hears of it there.
"""

import json

from ..core.declaring.errors import Problems
from ..core.records.checking import kind_named
from ..store import log, tables
from ..store.tables import Taken
from .checking import check

AT_ONCE = 2_000


def rebuild(connection, business):
    """Make a business's tables again from its log; returns how many changes it holds."""
    last = log.lock(connection, business).last_seq
    tables.clear(connection, business)
    for after in range(0, last, AT_ONCE):
        page = log.page(connection, business, after, min(last, after + AT_ONCE))
        taken = [_taken(row) for row in page]
        tables.write(connection, business, [change for change in taken if change])
    return last


def _taken(row):
    try:
        values = check(row.kind, json.loads(row.fields), kind_named(row.kind).fact)
    except Problems:
        return None
    return Taken(row.kind, row.record or row.id, row.at, row.stamp, values)
