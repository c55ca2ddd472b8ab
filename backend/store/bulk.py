"""Many rows into a table by one `executemany`, at close to the driver's own speed.

SQLAlchemy looks at every value of every row again; here a table's statement is
compiled once, and only columns whose type has something to convert are touched.
"""

from functools import cache
from operator import itemgetter

from sqlalchemy import JSON, insert

from .database import to_json


def put(connection, table, rows):
    """Insert rows, all of them with a value for every column.

    Takes: rows, a list of dicts, at least one, which it may use up.
    """
    text, in_order, conversions = _statement(table, connection.dialect)
    for name, convert in conversions:
        for row in rows:
            row[name] = convert(row[name])
    connection.exec_driver_sql(text, list(map(in_order, rows)) if in_order else rows)


@cache
def _statement(table, dialect):
    """Compile a table's insert: (SQL, what puts a row in its order if it has one, [(name, conversion)])."""
    compiled = insert(table).compile(dialect=dialect)
    conversions = [
        (column.name, convert) for column in table.columns if (convert := _conversion(column, dialect))
    ]
    in_order = itemgetter(*compiled.positiontup) if compiled.positiontup else None
    return str(compiled), in_order, conversions


def _conversion(column, dialect):
    if isinstance(column.type, JSON):
        return _json_or_null
    return column.type.dialect_impl(dialect).bind_processor(dialect)


def _json_or_null(value):
    # most lists of most records are empty
    return "[]" if value == [] else None if value is None else to_json(value)
