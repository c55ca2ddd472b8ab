"""One exchange: take in what a phone sends, then give it what it has not seen."""

import uuid

from ..store import devices, log, reading, writing
from .changes import SCHEMA
from .pull import pull
from .push import push

MOST_PUSHED = 1_500
SEEN_EVERY_MS = 60_000


class NewerSchema(Exception):
    """The phone's records are of a version that this server does not know yet."""


def exchange(device, epoch, cursor, schema, changes, now, unsent=None):
    """Take changes in, commit, then read a page.

    Takes: device, the sender, as store.devices keeps it; epoch and
    cursor, where the phone stands; changes, at most MOST_PUSHED; now, UTC ms.
    Returns: (results, page); what was accepted just now is in the results, not
    in the page. A phone of another life of this log gets the page from the
    start, with the epoch that is not its own.
    Raises: NewerSchema, with nothing consumed.
    """
    if schema > SCHEMA:
        raise NewerSchema
    _notice_another_life(device.business, epoch, cursor)
    results = []
    seen = _seen(device, unsent, now)
    # one transaction for both: each waits for the disk
    if changes or seen:
        with writing() as connection:
            if changes:
                results = push(connection, device, changes, now)
            if seen:
                devices.change(connection, device.business, device.id, **seen)
    taken = [result.seq for result in results if result.status == "accepted"]
    with reading() as connection:
        return results, pull(connection, device, epoch, cursor, taken)


def _seen(device, unsent, now):
    # what is to be remembered of the phone; nothing is, if that is fresh still
    if unsent in (None, device.unsent) and now - (device.seen_at or 0) < SEEN_EVERY_MS:
        return {}
    return {"seen_at": now} | ({} if unsent is None else {"unsent": unsent})


def _notice_another_life(business, epoch, cursor):
    # a phone has seen more of this log than there is: it was put back without a word
    with reading() as connection:
        if not _is_beyond(log.head(connection, business), epoch, cursor):
            return
    with writing() as connection:
        if _is_beyond(log.lock(connection, business), epoch, cursor):
            log.renew(connection, business, str(uuid.uuid4()))


def _is_beyond(head, epoch, cursor):
    return epoch == head.epoch and cursor > head.last_seq
