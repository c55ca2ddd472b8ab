"""What the exchange says about a change, beside what the core says about its fields."""

from ..core.presenting import wording

TEMPLATES = {
    "instant": "must be a time in UTC milliseconds",
    "stamp": "must be 13 digits, 4 digits and a device's id, joined by hyphens",
    "schema": "is no version of records known here",
    "other_content": "is here already with other content: make the correction a change of its own",
    "not_of_kind": "names something of another kind",
    "other_device": "is another phone's: only an owner may pass on what others made",
}


def word(item):
    """Word one problem."""
    return TEMPLATES.get(item["rule"]) or wording.word(item)
