"""What a helper may make and not edit depends on what is there.

Voids and refunds are no matter of this: they happened at the stall, so they are recorded
whatever they are, and owners look at those that are odd (core/reviewing/doubtful.py). But
what is void is of the kind that is voided so: a cut is no purchase.
"""

from ..core.declaring.errors import problem
from ..core.records.checking import kind_named
from ..store import log, lookups


def problems(connection, device, change, taken):
    """Say what forbids a helper's change, beside what the log holds.

    Takes: taken, the changes accepted before it in the same push.
    """
    if device.role == "owner":
        return []
    kind = kind_named(change.kind)
    if kind.voids:
        return _of_another_kind(connection, device, change, kind)
    if kind.helper != "make":
        return []
    here = any(earlier.kind == change.kind and earlier.id == change.record for earlier in taken)
    if here or lookups.is_there(connection, device.business, change.kind, change.record):
        return [problem("kind", "role", change.kind)]
    return []


def _of_another_kind(connection, device, change, kind):
    void = change.values[kind.voids]
    there = log.kind_of(connection, device.business, void)
    right = kind.field(kind.voids).links
    return [] if there in (None, right) else [problem(kind.voids, "not_of_kind")]
