"""Facts in the log that no check let pass: as from before a limit, or from a later version."""

from backend.store import log
from backend.sync.changes import canonical, hash_of
from tests.phones import now, uuid7


def put_past_the_check(connection, business, device, facts):
    """Append facts to a log as they are; returns their ids.

    Takes: device, the id of the phone that is said to have made them; facts, [(kind, fields, at)].
    """
    last = log.lock(connection, business).last_seq
    rows = []
    for number, (kind, fields, at) in enumerate(facts, 1):
        row = {"business": business, "seq": last + number, "id": uuid7(), "kind": kind, "record": None}
        row |= {
            "fields": canonical(fields),
            "at": at,
            "stamp": f"{at % 10**13:013}-0001-{device}",
            "schema": 1,
        }
        row |= {"replaces": None, "received_at": now(), "device": device, "hidden": 0}
        rows.append(row | {"hash": hash_of(row)})
    log.append(connection, business, rows)
    return [row["id"] for row in rows]
