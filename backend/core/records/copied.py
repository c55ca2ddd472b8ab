"""Changes that come from a saved copy: which of them can be taken in."""

from ..declaring.errors import Problems
from ..declaring.reading import read
from .checking import check, kind_named
from .envelope import ENVELOPE

# what was made by an older version, or answers a change that is not here, is as good
READ = [field for field in ENVELOPE if field.name not in ("schema", "replaces")]


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
        read(READ, {field.name: change.get(field.name) for field in READ})
        kind = kind_named(change["kind"])
        check(kind.name, change["fields"], kind.fact)
    except Problems:
        return False
    return kind.fact == (change.get("record") is None)
