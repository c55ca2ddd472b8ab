"""The log of a business: one writer at a time, numbered without gaps, read in order.

Whoever writes locks the business's head row first, so that numbers are given in
the order of commits: a reader that has seen a number has seen all below it.
"""

import uuid

from sqlalchemy import JSON, and_, bindparam, func, insert, select, update

from . import bulk
from .models.log import Change, LogHead

TABLE = Change.__table__
# what a helper may know nothing of; less of it: some of its fields alone
ALL_HIDDEN = 2
# rows read at once: one may hold as much as a request may
AT_ONCE = 500
# of a list, or of a plain join, SQLite would think it best to look through the whole log of the business
IDS = bindparam("ids", type_=JSON)
ASKED = {
    "sqlite": func.json_each(IDS).table_valued("value"),
    "postgresql": func.json_array_elements_text(IDS).table_valued("value"),
}
KNOWN_BY = [
    TABLE.c[name] for name in ("id", "seq", "hash", "stamp", "at", "received_at", "device")
]  # fmt: skip
KNOWN = {
    dialect: select(*KNOWN_BY).select_from(
        asked.outerjoin(TABLE, and_(TABLE.c.business == bindparam("business"), TABLE.c.id == asked.c.value))
    )
    for dialect, asked in ASKED.items()
}
PAGE = (
    select(TABLE)
    .where(
        TABLE.c.business == bindparam("business"),
        TABLE.c.seq > bindparam("after"),
        TABLE.c.seq <= bindparam("through"),
    )
    .order_by(TABLE.c.seq)
)


def begin(connection, business, epoch, made_at):
    """Begin the log of a new business."""
    connection.execute(
        insert(LogHead), {"business": business, "epoch": epoch, "last_seq": 0, "made_at": made_at}
    )


def businesses(connection):
    """List the businesses kept here, oldest first."""
    return connection.scalars(select(LogHead.business).order_by(LogHead.made_at, LogHead.business)).all()


def head(connection, business):
    """Read how far a log goes: (epoch, last_seq), or None where there is no such business."""
    return connection.execute(_head(business)).one_or_none()


def lock(connection, business):
    """Read the head, and hold all other writers of this log until this transaction ends."""
    return connection.execute(_head(business).with_for_update()).one()


def _head(business):
    return select(LogHead.epoch, LogHead.last_seq).where(LogHead.business == business)


def known(connection, business, ids):
    """Find which ids the log holds, as {id: row with seq, hash, stamp, at, received_at, device}."""
    rows = connection.execute(KNOWN[connection.dialect.name], {"business": business, "ids": ids})
    return {row.id: row for row in rows if row.id is not None}


def mark_at(connection, business, seq, role):
    """Name the change of a number: its id, None where there is none.

    Who may not see it gets another name for it, from which its id cannot be told.
    """
    wanted = select(TABLE.c.id, TABLE.c.hidden).where(TABLE.c.business == business, TABLE.c.seq == seq)
    found = connection.execute(wanted).one_or_none() if seq else None
    if found is None or role == "owner" or found.hidden < ALL_HIDDEN:
        return found and found.id
    return str(uuid.uuid5(uuid.UUID(business), found.id))


def kind_of(connection, business, id):
    """Find the kind of a change by its id, None where the log has none."""
    wanted = select(TABLE.c.kind).where(TABLE.c.business == business, TABLE.c.id == id)
    return connection.scalar(wanted)


def append(connection, business, rows):
    """Add numbered changes; needs the lock."""
    last_seq = rows[-1]["seq"]
    bulk.put(connection, TABLE, rows)
    connection.execute(update(LogHead).where(LogHead.business == business).values(last_seq=last_seq))


def page(connection, business, after, through):
    """Read the changes numbered above `after` and up to `through`, a part at a time."""
    bounds = {"business": business, "after": after, "through": through}
    return connection.execute(PAGE, bounds, execution_options={"yield_per": AT_ONCE})


def renew(connection, business, epoch):
    """Give a log a new epoch: every phone of the business starts over."""
    connection.execute(update(LogHead).where(LogHead.business == business).values(epoch=epoch))
