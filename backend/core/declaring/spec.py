"""The declaration mechanism: one statement of each field, used by all.

From a `Calculator` come the API schema, the OpenAPI page, the form on the
phone and the error texts; from a record kind (records.py), its checks.
"""

from ..numbers.rounding import ROUNDINGS, half_up
from ..numbers.units import BASE

# the default of a field that must be given
NEEDED = "needed"

WHOLE = ("money", "count", "instant")
# what is text, whatever else it must be
WORDS = ("text", "choice", "id", "day")
DECIMAL = ("length", "percent", "ratio", "minutes", "number")

# limits of a quantity where a field states none of its own
LIMITS = {
    "length": (0, 100000),
    "money": (0, 1000000000),
    "percent": (0, 100),
    "ratio": (0, 100),
    "minutes": (0, 100000),
    "count": (0, 100000),
    "number": (0, 1000000000000),
    # up to the end of the year 9999
    "instant": (0, 253402300799999),
}
MOST = {"text": 80, "id": 36, "day": 10, "list": 50}
SHAPES = {"id": "id", "day": "date"}


class Field:
    """One input or output: its name, quantity, limits, default and help.

    Takes: quantity, a key of units.BASE; default, NEEDED, None (may be left
    out) or a value in the base unit; lowest and highest, inclusive; choices
    for `choice`; fields of an `object`, or of each row, or item where rows are plain
    values, and most (rows) for `list`; most (characters) for `text`; unit, the unit a
    screen offers first; formula, for an output, with its inputs and outputs in
    braces; group, the heading it stands under; rounded, which way the last
    digit of a length goes on a screen, floor for what something must fit into;
    shape, what a text must look like, a key of shapes.SHAPES; drawn, true for rows
    that a screen draws instead of telling; asked, true for a length that a shop is
    asked for; links, the kind of record that an `id` leads to; instead, fields of an
    object that may be given instead of a number; when, (field, its choices): a screen
    asks for it only where that choice is one of these; close, true for a
    number worked out with exp, log or atan, which no two runtimes round alike: it is
    the same to 1e-12, and every other to the last bit.
    """

    def __init__(self, name, quantity, help, default=NEEDED, lowest=None, highest=None,
                 choices=None, fields=None, most=None, label=None, unit=None, group=None,
                 formula=None, example=None, fewest=None, keeps_number=False, choice_words=None,
                 rounded=half_up, shape=None, item=None, drawn=False, asked=False,
                 links=None, close=False, instead=None, when=None):  # fmt: skip
        self.name = name
        self.quantity = quantity
        self.help = help
        # as `read` converts what is given, so are defaults
        self.default = float(default) if quantity in DECIMAL and _is_number(default) else default
        limits = LIMITS.get(quantity, (None, None))
        self.lowest = limits[0] if lowest is None else lowest
        self.highest = limits[1] if highest is None else highest
        self.example = example
        self.choices = choices
        # such a choice may be given as a number, too: 2 for "2"
        self.has_numbers = quantity == "choice" and len([one for one in choices if one in "23"]) > 0
        self.fields = fields
        self.most = most if most is not None else MOST.get(quantity)
        self.label = label or name.replace("_", " ")
        self.fewest = fewest
        self.keeps_number = keeps_number
        self.choice_words = choice_words
        self.rounded = rounded
        self.shape = shape or SHAPES.get(quantity)
        self.item = item
        self.drawn = drawn
        self.asked = asked
        self.links = links
        self.close = close
        self.instead = instead
        self.when = when
        self.unit = unit or {"length": "mm"}.get(quantity, BASE[quantity])
        self.group = group
        self.formula = formula

    def describe(self):
        """Return the field as plain data for JSON."""
        told = {
            "name": self.name,
            "label": self.label,
            "quantity": self.quantity,
            "base_unit": BASE[self.quantity],
            "unit": self.unit,
            "help": self.help,
            "required": self.default == NEEDED,
            "default": None if self.default == NEEDED else self.default,
            "lowest": self.lowest,
            "highest": self.highest,
            "choices": list(self.choices) if self.choices else None,
            "fewest": self.fewest,
            "choice_words": list(self.choice_words) if self.choice_words else None,
            "keeps_number": self.keeps_number,
            "rounded": [name for name in ROUNDINGS if ROUNDINGS[name] is self.rounded][0],
            "most": self.most,
            "example": self.example,
            "group": self.group,
            "formula": self.formula,
        }
        if self.when:
            told["when"] = {"field": self.when[0], "choices": list(self.when[1])}
        if self.fields:
            told["fields"] = [field.describe() for field in self.fields]
        if self.links:
            told["links"] = self.links
        if self.close:
            told["close"] = True
        if self.instead:
            told["instead"] = [field.describe() for field in self.instead]
        if self.shape:
            told["shape"] = self.shape
        if self.item:
            told["item"] = self.item.describe()
        return told


def _is_number(value):
    return not isinstance(value, str) and value is not None


class Calculator:
    """A calculation with a name: what it takes, what it gives, and the work.

    Takes: work, a function of the checked values (a dict with every input
    field) that returns (result, notes) and raises errors.Problems; main, the
    outputs a screen keeps in view; by_steps, of a long calculation, its (start,
    advance, best): start of the checked values, among them `steps`, returns a
    state, advance of state and steps whether all is done, best of a state what
    `work` returns.
    """

    def __init__(self, name, title, help, inputs, outputs, work, main=(), by_steps=None):
        self.name = name
        self.title = title
        self.help = help
        self.inputs = inputs
        self.outputs = outputs
        self.work = work
        self.main = main
        self.by_steps = by_steps

    def describe(self):
        """Return the declaration as plain data for JSON."""
        return {
            "name": self.name,
            "title": self.title,
            "help": self.help,
            "inputs": [field.describe() for field in self.inputs],
            "outputs": [field.describe() for field in self.outputs],
            "main": list(self.main),
        }


def by_name(fields):
    """Index fields by their names."""
    return {field.name: field for field in fields}
