"""Giving changes out: a page of the log as a phone of this role may see it."""

import json

from ..core.records.access import seen_by
from ..core.records.checking import KINDS
from ..store import devices, log
from .changes import canonical

MOST_CHANGES = 5_000
# what a phone takes in at a time, unpacked: the rest comes with the next page
MOST_BYTES = 4_000_000
WATCHED = frozenset(kind.name for kind in KINDS if kind.is_watched())


class Page:
    """A part of the log: what is above `after`, up to and with `through`.

    `changes` are JSON texts, since they are only passed on; `hidden` are the
    numbers that this role may not see; `last` is the id of the change at
    `through`, by which the phone is known to be of this log. What the phone has sent with this very
    request is left out: it has that, and the results tell its numbers.
    """

    def __init__(self, epoch, after, through, more):
        self.epoch = epoch
        self.after = after
        self.through = through
        self.more = more
        self.last = None
        self.changes = []
        self.hidden = []


def pull(connection, device, after, taken=(), most=MOST_CHANGES):
    """Read the next page after a number of the log: as many changes as allowed, and as many bytes.

    Takes: taken, numbers without a gap, of what the phone has just sent.
    """
    epoch, last_seq = log.head(connection, device.business)
    through = min(last_seq, after + most)
    page = Page(epoch, after, through, through < last_seq)
    _fill(page, connection, device, _around(after, through, taken))
    page.last = log.mark_at(connection, device.business, page.through, device.role)
    return page


def _fill(page, connection, device, parts):
    size, helpers = 0, devices.helpers(connection, device.business) if device.role == "owner" else ()
    for start, end in parts:
        with log.page(connection, device.business, start, end) as rows:
            for row in rows:
                text = _told(row, device.role, helpers)
                size += 0 if text is None else len(text) if text.isascii() else len(text.encode())
                if size > MOST_BYTES and (page.changes or page.hidden):
                    page.through, page.more = row.seq - 1, True
                    return
                if text is None:
                    page.hidden.append(row.seq)
                else:
                    page.changes.append(text)


def _told(row, role, helpers):
    # None for what the role may not see
    if row.hidden and role != "owner":
        if row.hidden == 2:
            return None
        return _text(row, canonical(seen_by(row.kind, json.loads(row.fields), role)), ',"partial":true')
    maker = row.stamp[-36:]
    if row.kind in WATCHED and maker in helpers:
        # what an owner's phone sent again, as after a restore, came when nobody knows any more
        received = row.received_at if row.device == maker else row.at
        return _text(row, row.fields, f',"received":{received}')
    return _text(row, row.fields)


def _around(after, through, taken):
    if not taken:
        return [(after, through)]
    parts = (after, min(through, taken[0] - 1)), (max(after, taken[-1]), through)
    return [(start, end) for start, end in parts if start < end]


def _text(row, fields, more=""):
    # a row is taken apart once: asking it for each name costs more
    _, seq, id, kind, record, _, at, stamp, schema, replaces, *_ = row
    if record:
        more = f',"record":"{record}"{more}'
    if replaces:
        more = f',"replaces":"{replaces}"{more}'
    return (
        f'{{"seq":{seq},"id":"{id}","kind":"{kind}","at":{at},"stamp":"{stamp}",'
        f'"schema":{schema}{more},"fields":{fields}}}'
    )
