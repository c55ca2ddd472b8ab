"""The tables made of the log: one row a fact, one row a description as it stands.

They hold nothing that the log does not: `rebuild` makes them again from it.
"""

from sqlalchemy import delete, select

from ..core.records.checking import KINDS, kind_named
from ..core.records.merging import merge
from . import bulk
from .models import table_of
from .models.selling import GoodsLine


class Taken:
    """A change as the tables take it: its values are checked and complete."""

    __slots__ = ("kind", "id", "at", "stamp", "values")

    def __init__(self, kind, id, at, stamp, values):
        self.kind = kind
        self.id = id
        self.at = at
        self.stamp = stamp
        self.values = values


def write(connection, business, taken):
    """Work changes into the tables.

    Takes: taken, in any order; the id of a description's change is its record's.
    """
    by_kind = {}
    for change in taken:
        by_kind.setdefault(change.kind, []).append(change)
    for kind, changes in by_kind.items():
        if kind_named(kind).fact:
            _add_facts(connection, business, kind, changes)
        else:
            _merge(connection, business, kind, changes)


def _add_facts(connection, business, kind, changes):
    rows = [{"business": business, "id": change.id, "at": change.at, **change.values} for change in changes]
    bulk.put(connection, table_of(kind), rows)
    lines = [
        line
        for part in goods_lists(kind)
        for change in changes
        for line in _goods_lines(business, change, part)
    ]
    if lines:
        bulk.put(connection, GoodsLine.__table__, lines)


def goods_lists(kind_name):
    """Find the lists whose rows are goods that a fact moves: a Moves for each."""
    return [part for part in kind_named(kind_name).moves if part.goods]


def _goods_lines(business, change, part):
    return [
        {
            "business": business,
            "fact": change.id,
            "part": part.goods,
            "position": position,
            "product": row["product"],
            # what is sewn is named by its product alone
            "size": row.get("size"),
            "quantity": row[part.pieces],
            "total": row[part.worth] if part.worth else None,
        }
        for position, row in enumerate(change.values[part.goods])
    ]


def _merge(connection, business, kind, changes):
    """Merge edits with the records as they stand, by the core's rule."""
    table = table_of(kind)
    there = (table.c.business == business, table.c.id.in_({change.id for change in changes}))
    held = {f"{kind}/{row.id}": _stamped(row) for row in connection.execute(select(table).where(*there))}
    edits = [
        {"kind": kind, "record": change.id, "stamp": change.stamp, "fields": change.values}
        for change in changes
    ]
    connection.execute(delete(table).where(*there))
    rows = [_row(business, kind, key, fields) for key, fields in merge(held, edits).items()]
    bulk.put(connection, table, rows)


def _stamped(row):
    return {name: [row._mapping[name], stamp] for name, stamp in row.stamps.items()}


def _row(business, kind, key, fields):
    row = {field.name: None for field in kind_named(kind).fields}
    for name, (value, _) in fields.items():
        row[name] = value
    stamps = {name: stamp for name, (_, stamp) in fields.items()}
    return {"business": business, "id": key.partition("/")[2], "stamps": stamps, **row}


def clear(connection, business):
    """Empty a business's tables, to be made again from its log."""
    for table in [table_of(kind.name) for kind in KINDS] + [GoodsLine.__table__]:
        connection.execute(delete(table).where(table.c.business == business))
