"""JSON text of changes, parsed with the core's bounds at the speed a push needs."""

import json
import sys

from ..core.declaring import reading
from ..core.declaring.errors import refuse

ALL_BUT_STRUCTURE = bytes(set(range(256)) - set(b'"\\[]{}'))
ONE_SORT = bytes.maketrans(b"{}", b"[]")


def load(text):
    """Parse JSON text as `core.reading.load` does; whole numbers stay whole however they are written.

    Raises: Problems with rule `json` or `depth`.
    """
    if not _is_surely_shallow(text):
        # refuses; or it is only text that looks like structure
        reading.load(text)
    try:
        return json.loads(text, parse_float=_number, parse_constant=_refuse_constant)
    except ValueError:
        refuse("", "json")


def _is_surely_shallow(text):
    """Say whether the nesting is within bounds, by what is left when all but brackets is taken away."""
    left = text.encode("utf-8", "surrogatepass").translate(ONE_SORT, ALL_BUT_STRUCTURE)
    left = left.replace(b'""', b"")
    if b'"' in left:
        return False
    for _ in range(reading.MOST_DEPTH):
        # takes the innermost level, and only that
        left = left.replace(b"[]", b"")
    return not left


def _number(text):
    # one value has one text, and so one hash: 2.0 and 2 are the same to a phone
    value = max(-sys.float_info.max, min(sys.float_info.max, float(text)))
    return int(value) if value.is_integer() and abs(value) <= reading.LARGEST else value


def _refuse_constant(name):
    raise ValueError(name)
