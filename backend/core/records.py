"""The kinds of record: what each holds, and how edits from two phones merge.

A *description* (a piece, a cloth) is edited field by field; a *fact* (a
signature) is appended and never edited. Both travel as changes.
"""

import json

from .buying.fabric_per_dozen import INPUTS as FABRIC_FIELDS
from .buying.fabric_per_dozen import MOST_COST
from .errors import Problems, problem, refuse
from .reading import brief, read, read_part
from .safety.safe_cutting_checklist import CLOTHS, TOOLS
from .sizing.strip_length import INPUTS as STRIP_FIELDS
from .spec import NEEDED, Field, by_name


class Kind:
    """One kind of record: its name, whether it is a fact, and its fields."""

    def __init__(self, name, fact, help, fields):
        self.name = name
        self.fact = fact
        self.help = help
        self.fields = fields

    def describe(self):
        """Return the declaration as plain data for JSON."""
        return {
            "name": self.name,
            "fact": self.fact,
            "help": self.help,
            "fields": [field.describe() for field in self.fields],
        }


def _same(fields, names):
    # the calculator's own declaration: one source for limits and help
    known = by_name(fields)
    return [known[name] for name in names]


ARCHIVED = Field("archived", "flag", "Put away: no longer offered", False)
STRIP_NAMES = ("loop", "fullness", "tube_width", "end_seam", "side_seam")
CLOTH_NAMES = ("bolt_width", "selvedge", "shrink_length", "shrink_width", "squaring", "mixed",
               "repeat", "shop_increment", "minimum_cut")  # fmt: skip

KINDS = [
    Kind("piece", False, "A size she makes", [
        Field("name", "text", "What you call this size", most=60, example="Everyday"),
    ] + _same(STRIP_FIELDS, STRIP_NAMES) + [ARCHIVED]),
    Kind("cloth", False, "A cloth as bought", [
        Field("name", "text", "What you call this cloth", most=60, example="Seagrass lawn"),
    ] + _same(FABRIC_FIELDS, CLOTH_NAMES + ("price", "price_length")) + [
        Field("tear", "flag", "Tears well along the grain", False),
        ARCHIVED,
    ]),
    Kind("list-line", False, "A line of the shopping list", [
        Field("name", "text", "What to buy", most=80, example="Seagrass lawn"),
        Field("for_what", "text", "What it is for", "", most=80),
        Field("quantity", "count", "Pieces it is for", None, lowest=1),
        Field("length_to_buy", "length", "Length to ask for", None, highest=10000000000, unit="cm"),
        Field("cost", "money", "What it should cost", None, highest=MOST_COST),
        Field("bought", "flag", "In the bag", False),
        ARCHIVED,
    ]),
    Kind("checklist-signature", True, "A safe-working checklist signed for the day", [
        Field("tool", "choice", "Tool it was for", choices=TOOLS),
        Field("cloth", "choice", "Cloth it was for", choices=CLOTHS),
        Field("person", "text", "Who signed", most=60),
        Field("day", "text", "Local date, YYYY-MM-DD", most=10, shape="date"),
        Field("ticked", "list", "Items ticked", fields=[Field("item", "text", "Item id")], most=80),
        Field("skipped", "text", "Why musts were left unticked", "", most=200),
    ]),
]  # fmt: skip


def kind_named(name):
    """Find a kind.

    Raises: Problems on `kind` if there is none.
    """
    for kind in KINDS:
        if kind.name == name:
            return kind
    refuse("kind", "choice", brief(name), ", ".join([known.name for known in KINDS]), "choice")


def check(kind_name, fields, new):
    """Check the fields of a change; returns them with defaults if it is new.

    Takes: new, true for a fact or the first change of a description; an edit
    carries only the fields it changes.
    Raises: Problems listing every bad field.
    """
    kind = kind_named(kind_name)
    if new:
        return read(kind.fields, fields)
    values, problems = read_part(kind.fields, fields, "", False)
    needed = [field.name for field in kind.fields if field.default == NEEDED]
    for name in needed:
        if name in values and values[name] is None:
            problems.append(problem(name, "required"))
    if problems:
        raise Problems(problems)
    return values


def fold(changes):
    """Fold changes of descriptions into records; the order of arrival is free.

    The later stamp wins each field; of equal stamps the greater value.
    Takes: changes as in the log, each {kind, record, stamp, fields} or more.
    Returns: {kind: {record: {field: value}}}.
    Raises: Problems naming each `changes.N` that is no such change.
    """
    _refuse_other_than_changes(changes)
    folded, won = {}, {}
    for change in changes:
        records = folded.setdefault(change["kind"], {})
        record = records.setdefault(change["record"], {})
        for name in change["fields"]:
            value = change["fields"][name]
            key = (change["kind"], change["record"], name)
            rank = (change["stamp"],) + _rank(value)
            if key not in won or rank > won[key]:
                won[key] = rank
                record[name] = value
    return folded


def _refuse_other_than_changes(changes):
    problems = []
    for index, change in enumerate(changes):
        good = isinstance(change, dict) and isinstance(change.get("fields"), dict)
        for part in ("kind", "record", "stamp"):
            good = good and isinstance(change.get(part), str)
        if not good:
            problems.append(problem("changes." + str(index), "change"))
    if problems:
        raise Problems(problems)


def _rank(value):
    # an order among values of any shape, the same on both runtimes
    if value is None:
        return (0, 0)
    if isinstance(value, bool):
        return (1, int(value))
    if isinstance(value, (int, float)):
        return (2, value)
    if isinstance(value, str):
        return (3, value)
    return (4, json.dumps(value))
