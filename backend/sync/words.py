"""What the exchange says about a change, beside what the core says about its fields."""

from ..core import wording

TEMPLATES = {
    "instant": "must be a time in UTC milliseconds",
    "stamp": "must be 13 digits, 4 digits and a device's id, joined by hyphens",
    "schema": "is no version of records known here",
    "other_content": "is here already with other content: make the correction a change of its own",
    "other_device": "is another phone's: only an owner may pass on what others made",
    "other_day": "is of another day: an owner may void it",
    "sale_needed": "is needed: without the sale only an owner may refund",
    "beyond_sale": "is more than is left of the sale, {limit}; {given} given",
}


def errors_of(problems):
    """Word problems in base units, as {field: [messages]}."""
    errors = {}
    for item in problems:
        errors.setdefault(item["field"], []).append(word(item))
    return errors


def word(item):
    """Word one problem."""
    text = TEMPLATES.get(item["rule"])
    if text is None:
        return wording.word(item)
    for key in ("limit", "given"):
        if "{" + key + "}" in text:
            text = text.replace("{" + key + "}", wording.amount(item[key], item["quantity"]))
    return text
