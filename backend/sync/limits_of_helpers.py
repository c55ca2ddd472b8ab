"""What a helper may make and not edit depends on what is there.

Voids and refunds are no matter of this: they happened at the stall, so they are recorded
whatever they are, and owners look at those that are odd (core/reviewing/doubtful.py).
"""

from ..core.declaring.errors import problem
from ..core.records.checking import kind_named
from ..store import lookups


def problems(connection, device, change, taken):
    """Say what forbids a helper's change, beside what the log holds.

    Takes: taken, the changes accepted before it in the same push.
    """
    if device.role == "owner" or kind_named(change.kind).helper != "make":
        return []
    here = any(earlier.kind == change.kind and earlier.id == change.record for earlier in taken)
    if here or lookups.is_there(connection, device.business, change.kind, change.record):
        return [problem("kind", "role", change.kind)]
    return []
