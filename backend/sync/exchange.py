"""One exchange: take in what a phone sends, then give it what it has not seen."""

import uuid

from ..store import devices, log, reading, writing
from .changes import SCHEMA
from .pull import pull
from .push import push

MOST_PUSHED = 1_000
SEEN_EVERY_MS = 60_000


class NewerSchema(Exception):
    """The phone's records are of a version that this server does not know yet."""


def exchange(device, epoch, cursor, schema, changes, now, unsent=None, follows=None):
    """Take changes in and read a page, all or nothing.

    Takes: device, the sender, as store.devices keeps it; epoch and
    cursor, where the phone stands; changes, at most MOST_PUSHED; now, UTC ms;
    follows, the last change of a push that the phone has not heard of: nothing
    is taken in before it, and the page begins after it.
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
    # one transaction for all: each waits for the disk, and what is sent next is not in this page yet
    with (writing if changes or seen else reading)() as connection:
        if follows:
            log.lock(connection, device.business)
            before = log.known(connection, device.business, [follows]).get(follows)
            changes, cursor = (changes, max(cursor, before.seq)) if before else ([], cursor)
        if changes:
            results = push(connection, device, changes, now)
        if seen:
            devices.change(connection, device.business, device.id, **seen)
        taken = [result.seq for result in results if result.status == "accepted"]
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
