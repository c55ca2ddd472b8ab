"""Why a number is what it is: its formula, her numbers in it, what matters most."""

from ..catalogue import answer, calculator_named
from ..declaring.errors import Problems, refuse
from ..declaring.reading import brief, is_number
from ..declaring.spec import WORDS, by_name
from ..numbers.numerals import decimal
from ..numbers.rounding import at_most
from .forms import fill, show_exactly, unit_of

NUDGE = 5  # percent by which "what matters most" moves each input
MOST_SHOWN = 3
UNMOVED = ("list", "object", "flag", "instant") + WORDS


def why(name, typed, units, currency, output):
    """Explain one output: its formula, her numbers in it, what matters most.

    Returns: {"words", "numbers", "equals", "matters": [text]}, the numbers to
    their last figure; the texts are empty where the output has no formula or the form no answer.
    """
    calculator = calculator_named(name)
    outputs = by_name(calculator.outputs)
    if output not in outputs:
        known = ", ".join([item.name for item in calculator.outputs])
        refuse("output", "choice", brief(output), known, "choice")
    filled = fill(name, typed, units, currency)
    field = outputs[output]
    if filled["result"] is None or filled["result"][output] is None or not field.formula:
        return {"words": "", "numbers": "", "equals": "", "matters": []}
    words = numbers = field.formula
    defaults = {item.name: item.default for item in calculator.inputs}
    defaults.update(filled["input"])
    # of an input and an output by one name, the formula means what came out
    for known, values in ((calculator.outputs, filled["result"]), (calculator.inputs, defaults)):
        for item in known:
            mark = "{" + item.name + "}"
            if mark in numbers:
                key = "=" + item.name if known is calculator.outputs else item.name
                text = _in_formula(item, values[item.name], unit_of(item, key, units), currency)
                words = words.replace(mark, item.label)
                numbers = numbers.replace(mark, text or "—")
    return {
        "words": words,
        "numbers": numbers,
        "equals": show_exactly(
            field, filled["result"][output], unit_of(field, "=" + output, units), currency
        ),
        "matters": _matters(calculator, filled, defaults, field, units, currency),
    }


def _in_formula(field, value, unit, currency):
    shown = show_exactly(field, value, unit, currency)
    # "2.8 × + 2 × 10 mm" would read the sign of a ratio as a factor
    return shown.split(" ")[0] if field.quantity in ("ratio", "percent") else shown


def _matters(calculator, filled, values, output, units, currency):
    before = filled["result"][output.name]
    if not is_number(before):
        return []
    moved = []
    for order, field in enumerate(calculator.inputs):
        value = values[field.name]
        if field.quantity in UNMOVED or not value or field.choices:
            continue
        changed = dict(filled["input"])
        changed[field.name] = value + _nudge(field, value)
        try:
            after = answer(calculator.name, changed)["result"][output.name]
        except Problems:
            continue
        if after is not None and not at_most(abs(after - before), 0):
            moved.append((-abs(after - before), order, field, after - before))
    moved.sort(key=lambda item: (item[0], item[1]))
    unit = unit_of(output, "=" + output.name, units)
    return [
        _step_words(field)
        + ": "
        + ("+" if change > 0 else "−")
        + show_exactly(output, abs(change), unit, currency)
        for _, _, field, change in moved[:MOST_SHOWN]
    ]


def _nudge(field, value):
    if field.quantity == "count":
        return 1
    if field.quantity == "money":
        return max(1, int(value * NUDGE / 100))
    return value * NUDGE / 100


def _step_words(field):
    step = "1" if field.quantity == "count" else decimal(NUDGE, 0) + " %"
    return field.label + ", " + step + " more"
