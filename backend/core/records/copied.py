"""Changes that come from a saved copy: which of them can be taken in."""

from ..errors import Problems
from ..reading import read
from ..spec import Field, by_name
from .checking import check, kind_named

CHANGE = [
    Field("id", "id", "Its name"),
    Field("kind", "text", "Its kind"),
    Field("fields", "object", "What it says"),
    Field("record", "id", "The record described; a fact has none", None),
    Field("at", "instant", "When it happened"),
    Field("stamp", "text", "Its place in the order of edits", shape="stamp"),
]
NAMES = list(by_name(CHANGE))


def good_changes(changes):
    """Say of each change of a copy whether it can be taken in.

    A change with parts left out is none, and what the check of its kind refuses
    is not laid over what is here.
    """
    return [_is_good(change) for change in changes]


def _is_good(change):
    if not isinstance(change, dict) or change.get("partial"):
        return False
    try:
        read(CHANGE, {name: change.get(name) for name in NAMES})
        kind = kind_named(change["kind"])
        check(kind.name, change["fields"], kind.fact)
    except Problems:
        return False
    return kind.fact == (change.get("record") is None)
