"""Every table of a business, read as text to compare."""

import json

from sqlalchemy import select

from backend.core.records.checking import KINDS
from backend.store import reading
from backend.store.models import table_of
from backend.store.models.selling import GoodsLine


def tables_of(business):
    """Read every table of a business: {name: sorted rows}. Needs an app context."""
    told = {}
    with reading() as connection:
        for table in [table_of(kind.name) for kind in KINDS] + [GoodsLine.__table__]:
            rows = connection.execute(select(table).where(table.c.business == business)).mappings()
            told[table.name] = sorted(
                json.dumps(dict(row) | {"business": ""}, sort_keys=True) for row in rows
            )
    return told
