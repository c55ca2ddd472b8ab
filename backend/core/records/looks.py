"""Looks: what is asked of a field of a fact, where it is given, and what is bad about it.

A look is (field, the rule where it is missing or None, how it is plain, its
limits, the check of what is not plain). A check says None, or what is bad:
[(path, rule, given, limit, quantity)].
"""

from ..declaring.reading import LARGEST, is_number
from ..declaring.spec import DECIMAL, LIMITS, NEEDED, WHOLE
from ..numbers.shapes import SHAPES
from .kinds import is_one_thing, names_goods

MOST_TEXT = 80
MOST_ROWS = 500

TEXT, NAME, NUMBER, CHOICE, ROWS, OTHER = 1, 2, 3, 4, 5, 6
# days found to be some, among what is readable: no text is named so
DAYS = 0
NO_OBJECT = [("", "object", None, None, "object")]


def _text(most=MOST_TEXT):
    def check(value, readable):
        if isinstance(value, str):
            return None if len(value) <= most else [("", "characters", None, most, "text")]
        return [("", "text", None, None, "text")]

    return TEXT, 0, most, check


def name_look():
    """Ask for a text that leads to a record, and may be part of the name of stock."""

    def check(value, readable):
        bad = text(value, readable)
        if bad is None and not value.replace(" ", ""):
            bad = [("", "required", None, None, "text")]
        if bad is None and not _can_be_read(value):
            bad = [("", "unreadable", None, None, "text")]
        if bad is None:
            # the same few come again and again
            readable[value] = True
        return bad

    text = _text()[3]
    return NAME, None, None, check


def _can_be_read(text):
    # no character of control, as they part the names of a key, and no half of a pair
    for mark in text:
        if mark < " " or (mark > "\ud7ff" and mark < "\ue000"):
            return False
    return True


def _whole(lowest, highest, quantity):
    def check(value, readable):
        if not is_number(value):
            return [("", "number", None, None, quantity)]
        if value < lowest:
            return [("", "lowest", value, lowest, quantity)]
        if value > highest:
            return [("", "highest", value, highest, quantity)]
        return None if value == int(value) else [("", "whole", value, None, quantity)]

    return NUMBER, lowest, highest, check


def _choice(choices):
    def check(value, readable):
        return [("", "choice", "", ", ".join(choices), "choice")]

    return CHOICE, None, choices, check


def _flag():
    def check(value, readable):
        return None if isinstance(value, bool) else [("", "flag", None, None, "flag")]

    return OTHER, None, None, check


def _decimal(lowest, highest, quantity):
    def check(value, readable):
        if is_number(value) and lowest <= value <= highest:
            return None
        return [("", "number", None, None, quantity)]

    return OTHER, None, None, check


def _day():
    text, is_day = _text()[3], SHAPES["date"]

    def check(value, readable):
        # the same few come again and again
        days = readable.setdefault(DAYS, {})
        if isinstance(value, str) and value in days:
            return None
        bad = text(value, readable)
        if bad is None and not is_day(value):
            bad = [("", "date", None, None, "text")]
        if bad is None:
            days[value] = True
        return bad

    return OTHER, None, None, check


def _each(look_at_row):
    def check(rows, readable):
        if not isinstance(rows, list):
            return [("", "list", None, None, "list")]
        if len(rows) > MOST_ROWS:
            return [("", "rows", len(rows), MOST_ROWS, "list")]
        bad = None
        for index, row in enumerate(rows):
            found = look_at_row(row, readable)
            if found:
                bad = (bad or []) + _below(str(index), found)
        return bad

    return check


def _plain_rows():
    return OTHER, None, None, _each(name_look()[3])


def rows_look(looks):
    """Ask for a list of rows, of each as `bad_fields` does."""

    def check(row, readable):
        return bad_fields(looks, row, readable) if isinstance(row, dict) else NO_OBJECT

    return ROWS, None, looks, _each(check)


NOT_ONE_THING = [("product", "product_or_size", None, None, None)]
PIECES = _whole(0, LIMITS["count"][1], "count")
KIND = ("kind", "required") + _text()
AT = ("at", "required") + _whole(0, LIMITS["instant"][1], "instant")


def pieces_look(name):
    """Ask how many pieces there are of something."""
    return (name, "required") + PIECES


QUANTITY = pieces_look("quantity")
# of goods that are moved
GOODS = (("product", None) + name_look(), ("size", None) + name_look(), QUANTITY)
# where nothing but a product may be named
NAMED_PRODUCT = ("product", "required") + name_look()


def id_look(needed):
    """Look at the id of a fact."""
    return ("id", "required" if needed else None) + _text()


def bad_fields(looks, row, readable):
    """Say what is bad about a row: None, or as a check does.

    Takes: looks, (a look for each field, whether goods must be named or None);
    readable, texts found to be readable, which grows.
    """
    bad = None
    for name, missing, plain, low, high, check in looks[0]:
        value = row.get(name)
        if value is None:
            if not missing:
                continue
            found = [("", missing, None, None, None)]
        else:
            # nearly all are plain, and seen to be good without asking further
            if plain == TEXT:
                if isinstance(value, str) and len(value) <= high:
                    continue
            elif plain == NAME:
                if isinstance(value, str) and value in readable:
                    continue
            elif plain == NUMBER:
                if not isinstance(value, bool) and isinstance(value, int) and low <= value <= high:
                    continue
            elif plain == CHOICE:
                if value in high:
                    continue
            elif plain == ROWS and isinstance(value, list) and len(value) <= MOST_ROWS:
                for one in value:
                    if not isinstance(one, dict) or bad_fields(high, one, readable):
                        break
                else:
                    continue
            found = check(value, readable)
        if found:
            bad = (bad or []) + _below(name, found)
    if looks[1] is not None and not is_one_thing(row, looks[1]):
        bad = (bad or []) + NOT_ONE_THING
    return bad


def _below(name, found):
    return [(name + ("." + bad[0] if bad[0] else ""),) + bad[1:] for bad in found]


def look_at(field, needed, apart=False):
    """Look at a field as it is declared; apart, true where its rows must name goods as stock is named."""
    missing = ("flag" if field.quantity == "flag" else "required") if needed else None
    return (field.name, missing) + _look_of(field, apart)


def is_needed(field):
    """Say whether a field has no default."""
    return field.default == NEEDED


def _look_of(field, apart):
    if field.quantity in WHOLE:
        # money may be any sum that both runtimes tell exactly
        lowest = -LARGEST if field.quantity == "money" else 0
        highest = LARGEST if field.quantity == "money" else max(LIMITS[field.quantity][1], field.highest)
        return _whole(lowest, highest, field.quantity)
    if field.quantity in DECIMAL:
        return _decimal(field.lowest, field.highest, field.quantity)
    if field.quantity == "choice":
        return _choice(field.choices)
    if field.quantity == "flag":
        return _flag()
    if field.quantity == "day":
        return _day()
    if field.quantity == "list" and field.item:
        return _plain_rows()
    if field.quantity == "list":
        rows = field.fields or ()
        return rows_look((
            tuple([look_at(one, is_needed(one), apart) for one in rows]),
            names_goods(rows) if apart else None,
        ))  # fmt: skip
    return name_look() if field.quantity == "id" else _text(max(MOST_TEXT, field.most))
