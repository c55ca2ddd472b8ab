"""What a helper may do depends on what is there: today's sales, up to the sale, new bookings."""

from ..core.errors import problem
from ..core.records.checking import kind_named
from ..store import lookups


def problems(connection, device, change, taken):
    """Say what forbids a helper's change, beside what the log holds.

    Takes: taken, the changes accepted before it in the same push. What it
    refers to may still be on another phone: then nothing forbids it.
    """
    if device.role == "owner":
        return []
    if change.kind == "void":
        return _void_problems(connection, device, change, taken)
    if change.kind == "refund":
        return _refund_problems(connection, device, change, taken)
    if kind_named(change.kind).helper == "make":
        return _make_problems(connection, device, change, taken)
    return []


def _void_problems(connection, device, change, taken):
    sale = _sale(connection, device, change.values["sale"], taken)
    if sale and sale["day"] != change.values["day"]:
        return [problem("sale", "other_day")]
    return []


def _refund_problems(connection, device, change, taken):
    wanted, amount = change.values["sale"], change.values["amount"]
    if wanted is None:
        return [problem("sale", "sale_needed")]
    sale = _sale(connection, device, wanted, taken)
    if sale is None:
        return []
    before = lookups.refunded(connection, device.business, wanted)
    before += sum(
        earlier.values["amount"]
        for earlier in taken
        if earlier.kind == "refund" and earlier.values["sale"] == wanted
    )
    left = max(0, sale["amount"] - before)
    return [problem("amount", "beyond_sale", amount, left, "money")] if amount > left else []


def _sale(connection, device, id, taken):
    for earlier in taken:
        if earlier.kind == "sale" and earlier.id == id:
            return earlier.values
    return lookups.sale(connection, device.business, id)


def _make_problems(connection, device, change, taken):
    here = any(earlier.kind == change.kind and earlier.id == change.record for earlier in taken)
    if here or lookups.is_there(connection, device.business, change.kind, change.record):
        return [problem("kind", "role", change.kind)]
    return []
