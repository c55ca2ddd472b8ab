"""One exchange: take in what a phone sends, then give it what it has not seen."""

from ..core.records.envelope import SCHEMA
from ..store import devices, log, reading, writing
from .pull import pull
from .push import push

MOST_PUSHED = 1_500
SEEN_EVERY_MS = 60_000


class NewerSchema(Exception):
    """The phone's records are of a version that this server does not know yet."""


def exchange(device, epoch, cursor, schema, changes, now, unsent=None, last=None):
    """Take changes in, commit, then read a page.

    Takes: device, the sender, as store.devices keeps it; epoch and
    cursor, where the phone stands; changes, at most MOST_PUSHED; now, UTC ms;
    last, the id of the change at the cursor, None where the phone does not know it.
    Returns: (results, page); what was accepted just now is in the results, not
    in the page. A phone of another life of this log gets the page from the
    start: with an epoch that is not its own, or, where the log was put back
    without a word (a snapshot), with its own. Of what it sent nothing is taken, and there are no
    results: it sends all again.
    Raises: NewerSchema, with nothing consumed.
    """
    if schema > SCHEMA:
        raise NewerSchema
    results, stands = [], None
    seen = _seen(device, unsent, now)
    # one transaction for both: each waits for the disk
    if changes or seen:
        with writing() as connection:
            if changes:
                head = log.lock(connection, device.business)
                stands = _stands(connection, device, head, epoch, cursor, last)
                # what comes late from before would be stamped after what was made later
                results = push(connection, device, changes, now) if stands else []
            if seen:
                devices.change(connection, device.business, device.id, **seen)
    taken = _own(device, changes, results)
    with reading() as connection:
        if stands is None:
            head = log.head(connection, device.business)
            stands = _stands(connection, device, head, epoch, cursor, last)
        return results, pull(connection, device, cursor if stands else 0, taken)


def _own(device, changes, results):
    # numbers of what was accepted just now; where some is another phone's, as after a restore, more is told
    accepted = [
        (change, result.seq)
        for change, result in zip(changes, results, strict=False)
        if result.status == "accepted"
    ]
    if any(change["stamp"][-36:] != device.id for change, _ in accepted):
        return []
    return [seq for _, seq in accepted]


def _seen(device, unsent, now):
    # what is to be remembered of the phone; nothing is, if that is fresh still
    if unsent in (None, device.unsent) and now - (device.seen_at or 0) < SEEN_EVERY_MS:
        return {}
    return {"seen_at": now} | ({} if unsent is None else {"unsent": unsent})


def _stands(connection, device, head, epoch, cursor, last):
    # whether the log goes on from where the phone stands: as long as it saw, and the same there
    here, last_seq = head
    if epoch != here or cursor > last_seq:
        return False
    if last is None or not cursor:
        return True
    # an earlier version told a helper the id itself
    return last in (log.mark_at(connection, device.business, cursor, role) for role in (device.role, "owner"))
