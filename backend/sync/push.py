"""Taking changes in: each is accepted, known already, or rejected by itself."""

from ..core.declaring.errors import problem
from ..core.records.checking import kind_named
from ..core.records.envelope import MOST_AHEAD_MS
from ..store import log, tables
from ..store.tables import Taken
from . import limits_of_helpers
from .changes import hash_at, hidden_part, receive_all

MOST_STAMPED_AHEAD_MS = 60_000


class Result:
    """What became of one change: its number in the log, its stamp and time if not as sent; or problems."""

    __slots__ = ("status", "seq", "stamp", "at", "problems")

    def __init__(self, status, seq=None, stamp=None, at=None, problems=()):
        self.status = status
        self.seq = seq
        self.stamp = stamp
        self.at = at
        self.problems = problems


class Sent:
    """A change's stamp and time as they were sent."""

    __slots__ = ("stamp", "at")

    def __init__(self, stamp, at):
        self.stamp = stamp
        self.at = at


def push(connection, device, changes, received_at):
    """Take changes into the log and the tables, within a transaction that writes.

    Takes: device, the sender, with `business`, `id` and `role`; received_at,
    UTC ms. Returns: a Result for each, in order.
    """
    received = receive_all(changes, device)
    head = log.lock(connection, device.business)
    ids = list({change.id for change in received if change.hash})
    known = log.known(connection, device.business, ids) if ids else {}
    clock = Clamp(received, received_at)
    results, rows, taken = [], [], []
    for change in received:
        there = known.get(change.id)
        # what a role may not write is not compared either: a guess would be told from a hit
        if there and (not change.problems or device.role == "owner" or there.device == device.id):
            results.append(_known(change, there))
            continue
        problems = change.problems or limits_of_helpers.problems(connection, device, change, taken)
        if problems:
            results.append(Result("rejected", problems=problems))
            continue
        sent = Sent(change.stamp, change.at)
        change.seq, change.stamp = head.last_seq + len(rows) + 1, clock.stamp(change.stamp)
        if change.at > clock.latest_event:
            change.at = clock.latest_event
            change.hash = hash_at(change, change.at)
        change.device, change.received_at = device.id, received_at
        rows.append(_row(change, device, received_at))
        taken.append(Taken(change.kind, change.record or change.id, change.at, change.stamp, change.values))
        # the same may come again in this very push
        known[change.id] = change
        results.append(_result("accepted", change, sent))
    if rows:
        log.append(connection, device.business, rows)
        tables.write(connection, device.business, taken)
    return results


def _known(change, there):
    held_back = there.at == there.received_at + MOST_AHEAD_MS < change.at
    if change.hash == there.hash or (held_back and hash_at(change, there.at) == there.hash):
        return _result("duplicate", there, change)
    return Result("rejected", problems=[problem("id", "other_content")])


def _result(status, logged, sent):
    stamp = None if logged.stamp == sent.stamp else logged.stamp
    return Result(status, logged.seq, stamp, None if logged.at == sent.at else logged.at)


def _row(change, device, received_at):
    hides = kind_named(change.kind).hidden_from("helper")
    return {
        "business": device.business,
        "seq": change.seq,
        "id": change.id,
        "kind": change.kind,
        "record": change.record,
        "fields": change.text,
        "at": change.at,
        "stamp": change.stamp,
        "schema": change.schema,
        "replaces": change.replaces,
        "hash": change.hash,
        "received_at": received_at,
        "device": device.id,
        "hidden": hidden_part(change.kind, change.values) if hides else 0,
    }


class Clamp:
    """Holds stamps that are too far ahead to the latest time allowed, in their own order; and events."""

    def __init__(self, received, received_at):
        self.latest = received_at + MOST_STAMPED_AHEAD_MS
        self.latest_event = received_at + MOST_AHEAD_MS
        ahead = {change.stamp for change in received if change.hash and int(change.stamp[:13]) > self.latest}
        self.clamped = {
            stamp: f"{self.latest:013}-{counter:04}-{stamp[-36:]}"
            for counter, stamp in enumerate(sorted(ahead))
        }

    def stamp(self, stamp):
        """Return a stamp as it is logged."""
        return self.clamped.get(stamp, stamp)
