"""Giving changes out: a page of the log as a phone of this role may see it."""

import json

from ..core.records.access import seen_by
from ..store import log
from .changes import canonical

MOST_CHANGES = 5_000


class Page:
    """A part of the log: what is above `after`, up to and with `through`.

    `changes` are JSON texts, since they are only passed on; `hidden` are the
    numbers that this role may not see. What the phone has sent with this very
    request is left out: it has that, and the results tell its numbers.
    """

    def __init__(self, epoch, after, through, more):
        self.epoch = epoch
        self.after = after
        self.through = through
        self.more = more
        self.changes = []
        self.hidden = []


def pull(connection, device, epoch, cursor, taken=(), most=MOST_CHANGES):
    """Read the next page after a cursor; from the start, where the cursor is of another life.

    Takes: taken, numbers without a gap, of what the phone has just sent.
    """
    here, last = log.head(connection, device.business)
    after = cursor if epoch == here else 0
    through = min(last, after + most)
    page = Page(here, after, through, through < last)
    for start, end in _around(after, through, taken):
        for row in log.page(connection, device.business, start, end):
            if row.hidden and device.role != "owner":
                _add_part(page, row, device.role)
            else:
                page.changes.append(_text(row, row.fields))
    return page


def _around(after, through, taken):
    if not taken:
        return [(after, through)]
    parts = (after, min(through, taken[0] - 1)), (max(after, taken[-1]), through)
    return [(start, end) for start, end in parts if start < end]


def _add_part(page, row, role):
    if row.hidden == 2:
        page.hidden.append(row.seq)
    else:
        fields = seen_by(row.kind, json.loads(row.fields), role)
        page.changes.append(_text(row, canonical(fields), ',"partial":true'))


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
