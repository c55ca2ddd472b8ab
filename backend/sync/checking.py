"""The core's check of a record's fields, at the speed a push needs.

Each kind's declaration is turned once into a few plain comparisons a field.
What passes them is good; whatever does not is asked of the core's own check,
which alone refuses and words.
"""

import re
from functools import cache, lru_cache

from ..core.declaring.spec import DECIMAL, NEEDED, WHOLE
from ..core.numbers.shapes import SHAPES
from ..core.records import checking

ID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")
CANNOT_BE_KEPT = re.compile("[\0\ud800-\udfff]")


def check(kind_name, fields, new):
    """Check fields as `core.records.checking.check` does, and with the same answer."""
    kind = checking.kind_named(kind_name)
    values = _rows(kind)(fields, new) if isinstance(fields, dict) else None
    if values is None or (new and kind.also and kind.also(values)):
        return checking.check(kind_name, fields, new)
    return values


@cache
def _rows(kind):
    return _reader_of(kind.fields)


def _reader_of(fields):
    """Make the reader of an object: its values, or None if in doubt."""
    readers = {field.name: _value_reader(field) for field in fields}
    defaults = {field.name: field.default for field in fields}
    needed = {field.name for field in fields if field.default == NEEDED}

    def read(given, whole):
        if type(given) is not dict or (whole and not needed <= given.keys()):
            return None
        values = defaults.copy() if whole else {}
        for name, value in given.items():
            reader = readers.get(name)
            if reader is None or value is None and name in needed:
                return None
            if value is not None:
                value = reader(value)
                if value is None:
                    return None
            elif whole:
                continue
            values[name] = value
        return values

    return read


def _value_reader(field):
    if field.quantity in WHOLE and not field.choices:
        low, high = field.lowest, field.highest
        return lambda value: value if type(value) is int and low <= value <= high else None
    if field.quantity in DECIMAL and not field.choices:
        low, high = field.lowest, field.highest
        return lambda value: float(value) if type(value) in (int, float) and low <= value <= high else None
    if field.quantity == "flag":
        return lambda value: value if type(value) is bool else None
    if field.quantity == "id":
        return lambda value: value if type(value) is str and _is_id(value) else None
    if field.quantity == "choice":
        choices = frozenset(field.choices)
        return lambda value: value if type(value) is str and value in choices else None
    if field.quantity == "list" and (field.fields or field.item):
        return _list_reader(field)
    if field.quantity in ("text", "day"):
        return _text_reader(field)
    # in doubt, always: the core knows
    return lambda value: None


@lru_cache(4096)
def _is_id(text):
    # the same few places and products come again and again
    return ID.fullmatch(text) is not None


def _list_reader(field):
    fewest, most = field.fewest or 0, field.most
    read = _value_reader(field.item) if field.item else _reader_of(field.fields)
    more = () if field.item else (True,)

    def read_list(given):
        if type(given) is not list or not fewest <= len(given) <= most:
            return None
        values = [read(row, *more) for row in given]
        return None if None in values else values

    return read_list


def _text_reader(field):
    most = field.most
    shape = lru_cache(SHAPES[field.shape]) if field.shape else None

    def read_text(given):
        if type(given) is not str or len(given) > most or CANNOT_BE_KEPT.search(given):
            return None
        # an empty text may be as good as missing
        return given if given.strip(" ") or shape is None and field.default != NEEDED else None

    def read_shaped(given):
        text = read_text(given)
        return text if text and shape(text) else None

    return read_shaped if shape else read_text
