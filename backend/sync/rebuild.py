"""The tables made again from the log, exactly as the exchanges left them."""

import json

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
        tables.write(connection, business, [_taken(row) for row in page])
    return last


def _taken(row):
    fields = json.loads(row.fields)
    values = check(row.kind, fields, kind_named(row.kind).fact)
    return Taken(row.kind, row.record or row.id, row.at, row.stamp, values)
