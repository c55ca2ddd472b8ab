"""Facts as the fold takes them: only the fields it needs are looked at.

Facts come by the thousand, so they are not read field by field as forms are;
each of what a kind needs is checked once, the rest is left alone, and kinds
that move no stock pass by.
"""

from ..errors import Problems, problem
from ..reading import is_number
from ..spec import LIMITS

LATEST = LIMITS["instant"][1]
MOST_PIECES = LIMITS["count"][1]
MOST_TEXT = 80
MOST_REASON = 200
MOST_ROWS = 500
MOST_NAMED = 200

# of each kind, the texts it needs that are no place
TEXTS = {
    "sale": ("id",),
    "void": ("sale",),
    "refund": (),
    "move": (),
    "set-aside": (),
    "count-line": ("session",),
    "count-close": ("session",),
}
PLACES = {"void": (), "move": ("from", "to")}
CHOICES = {
    "refund": ("goods", ("table", "spoilt")),
    "set-aside": ("reason", ("spoilt", "given", "lost", "found")),
    "count-close": ("scope", ("all", "list")),
}
# the lists of rows, needed or not
LISTS = {
    "sale": (("lines", True), ("returned", False)),
    "refund": (("lines", True),),
    "count-close": (("listed", False), ("answers", False), ("reasons", False)),
}
OF_ONE_PRODUCT = ("move", "set-aside", "count-line")


def refuse_other_than_facts(facts):
    """Check what the fold needs of each fact.

    Raises: Problems naming each `facts.N.field` that is missing or no such
    thing, of about the first 200.
    """
    reader = _Reader()
    for index, fact in enumerate(facts):
        if len(reader.problems) < MOST_NAMED:
            reader.fact(index, fact)
    if reader.problems:
        raise Problems(reader.problems)


class _Reader:
    def __init__(self):
        self.problems = []
        # names of places and goods that were found readable
        self.readable = {}
        # numbers and names that lead to where it reads; put together only for problems
        self.where = []

    def fact(self, index, fact):
        """Look at one fact, the index-th."""
        self.where = [index]
        if not isinstance(fact, dict):
            self._bad("", "object", quantity="object")
            return
        kind = fact.get("kind")
        self._text(fact, "kind")
        self._whole(fact, "at", LATEST)
        if not isinstance(kind, str) or kind not in TEXTS:
            return
        if fact.get("id") is not None:
            self._text(fact, "id")
        for name in TEXTS[kind]:
            self._text(fact, name)
        for name in PLACES.get(kind, ("place",)):
            self._name(fact, name)
        for name, needed in LISTS.get(kind, ()):
            self._rows(fact, name, needed)
        if kind in CHOICES:
            name, allowed = CHOICES[kind]
            if fact.get(name) not in allowed:
                self._bad(name, "choice", "", ", ".join(allowed), "choice")
        if kind in OF_ONE_PRODUCT:
            self._goods(fact, True)
            self._whole(fact, "quantity", MOST_PIECES)
        if kind == "count-line" and fact.get("box_label") is not None:
            self._text(fact, "box_label")

    def _text(self, holder, name, most=MOST_TEXT):
        value = holder.get(name)
        if not isinstance(value, str):
            self._bad(name, "required" if value is None else "text", quantity="text")
        elif len(value) > most:
            self._bad(name, "characters", None, most, "text")
        else:
            return True
        return False

    def _name(self, holder, name):
        if holder.get(name) not in self.readable and self._text(holder, name):
            if _can_be_read(holder[name]):
                self.readable[holder[name]] = True
            else:
                self._bad(name, "unreadable", quantity="text")

    def _whole(self, holder, name, highest):
        value = holder.get(name)
        if not isinstance(value, bool) and isinstance(value, int) and 0 <= value <= highest:
            return
        rule, limit = "whole", None
        if value is None:
            rule = "required"
        elif not is_number(value):
            rule, value = "number", None
        elif value < 0:
            rule, limit = "lowest", 0
        elif value > highest:
            rule, limit = "highest", highest
        elif value == int(value):
            return
        self._bad(name, rule, value, limit, "instant" if name == "at" else "count")

    def _rows(self, fact, name, needed):
        rows = fact.get(name)
        if rows is None:
            if needed:
                self._bad(name, "required", quantity="list")
        elif not isinstance(rows, list):
            self._bad(name, "list", quantity="list")
        elif len(rows) > MOST_ROWS:
            self._bad(name, "rows", len(rows), MOST_ROWS, "list")
        else:
            for index, row in enumerate(rows):
                self.where = [self.where[0], name, index]
                self._row(row, name)
                self.where = [self.where[0]]

    def _row(self, row, name):
        if not isinstance(row, dict):
            self._bad("", "object", quantity="object")
            return
        # what was sold at a free price is neither product nor size
        self._goods(row, name != "lines")
        if name == "answers":
            self._text(row, "sale")
            if not isinstance(row.get("already_out"), bool):
                self._bad("already_out", "flag", quantity="flag")
        elif name == "reasons":
            self._text(row, "reason", MOST_REASON)
        elif name != "listed":
            self._whole(row, "quantity", MOST_PIECES)

    def _goods(self, row, needed):
        product, size = row.get("product"), row.get("size")
        if product is not None:
            self._name(row, "product")
        if size is not None:
            self._name(row, "size")
        if (product is None) == (size is None) and (needed or size is not None):
            self._bad("product", "product_or_size")

    def _bad(self, name, rule, given=None, limit=None, quantity=None):
        path = "facts"
        for number in self.where:
            path += "." + (number if isinstance(number, str) else str(number))
        self.problems.append(problem(path + ("." + name if name else ""), rule, given, limit, quantity))


def _can_be_read(text):
    # no character of control, as they part the names of a key, and no half of a pair
    for mark in text:
        if mark < " " or (mark > "\ud7ff" and mark < "\ue000"):
            return False
    return True
