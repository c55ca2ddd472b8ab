"""Facts as a report takes them: of each kind only what it needs is looked at."""

from ..counting.fold import once
from ..errors import Problems, problem
from ..reading import LARGEST
from ..records.kinds import CASH_MOMENTS, DIRECTIONS, GOODS_END, PAYMENTS, SET_ASIDE

TEXT, WHOLE = "text", "whole"

GOODS = (("product", TEXT, False), ("size", TEXT, False), ("name", TEXT, False), ("quantity", WHOLE, True))
SOLD = GOODS + (("unit_price", WHOLE, False), ("total", WHOLE, True), ("reason", TEXT, False))
REFUNDED = GOODS + (("total", WHOLE, True),)
USED = (("offer", TEXT, True), ("times", WHOLE, True), ("saving", WHOLE, True))
COUNTED = (("value", WHOLE, True), ("count", WHOLE, True))
ALWAYS = (("id", TEXT, True), ("day", TEXT, True), ("at", WHOLE, True))
WHERE = (("booking", TEXT, False), ("box", TEXT, False), ("place", TEXT, False))

# of each kind (field, what it is, whether it is needed): text, whole, choices, or rows of fields
SHAPES = {
    "sale": ALWAYS + WHERE + (
        ("amount", WHOLE, True), ("payment", PAYMENTS, True), ("lines", list(SOLD), True),
        ("returned", list(GOODS), False), ("goods", GOODS_END, False), ("offers", list(USED), False),
        ("off", WHOLE, False), ("reason", TEXT, False),
    ),
    "refund": ALWAYS + WHERE + (
        ("amount", WHOLE, True), ("payment", PAYMENTS, True), ("lines", list(REFUNDED), True),
        ("goods", GOODS_END, True), ("sale", TEXT, False), ("reason", TEXT, False),
    ),
    "void": ALWAYS + (("sale", TEXT, True), ("reason", TEXT, False)),
    "set-aside": ALWAYS + (
        ("place", TEXT, True), ("product", TEXT, True), ("quantity", WHOLE, True),
        ("reason", SET_ASIDE, True),
    ),
    "asked-for": ALWAYS + WHERE + (("product", TEXT, False), ("size", TEXT, False)),
    "count-line": ALWAYS + (("place", TEXT, True),),
    "count-close": ALWAYS + (("place", TEXT, True),),
    "cash-count": ALWAYS + WHERE + (
        ("moment", CASH_MOMENTS, True), ("amount", WHOLE, True), ("counted", list(COUNTED), False),
        ("reason", TEXT, False),
    ),
    "cash-movement": ALWAYS + WHERE + (
        ("direction", DIRECTIONS, True), ("amount", WHOLE, True), ("reason", TEXT, False),
    ),
}  # fmt: skip


def known_facts(facts):
    """Check what a report needs of each fact; returns those of the kinds it knows, each once.

    Raises: Problems naming each `facts.N` that is no fact, or not of its kind.
    """
    bad = [index for index, fact in enumerate(facts) if not _is_fact(fact)]
    if bad:
        raise Problems([problem("facts." + str(index), "object", quantity="object") for index in bad])
    return once([fact for fact in facts if fact["kind"] in SHAPES])


def _is_fact(fact):
    if not isinstance(fact, dict) or not isinstance(fact.get("kind"), str):
        return False
    for name, what, needed in SHAPES.get(fact["kind"], ()):
        value = fact.get(name)
        if value is None:
            if needed:
                return False
        elif isinstance(what, list):
            if not isinstance(value, list) or [row for row in value if not _is_row(row, what)]:
                return False
        elif not _is(value, what):
            return False
    return True


def _is_row(row, fields):
    if not isinstance(row, dict):
        return False
    for name, what, needed in fields:
        value = row.get(name)
        if needed if value is None else not _is(value, what):
            return False
    return True


def _is(value, what):
    if what == TEXT:
        return isinstance(value, str)
    if what == WHOLE:
        return not isinstance(value, bool) and isinstance(value, int) and abs(value) <= LARGEST
    return value in what
