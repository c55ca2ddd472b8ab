"""The list of calculators, and the one way to ask one."""

from .buying import cloth_compare, fabric_per_dozen, remnant_yield
from .counting import count_variance, stock_on_hand
from .errors import refuse
from .reading import brief, read
from .safety import safe_cutting_checklist
from .selling import basket_total, cash_up, change_due
from .sizing import elastic_cut_length, strip_length

CALCULATORS = [
    strip_length.CALCULATOR,
    elastic_cut_length.CALCULATOR,
    fabric_per_dozen.CALCULATOR,
    cloth_compare.CALCULATOR,
    remnant_yield.CALCULATOR,
    safe_cutting_checklist.CALCULATOR,
    basket_total.CALCULATOR,
    change_due.CALCULATOR,
    cash_up.CALCULATOR,
    stock_on_hand.CALCULATOR,
    count_variance.CALCULATOR,
]


def calculator_named(name):
    """Find a calculator.

    Raises: Problems on `name` if there is none.
    """
    for calculator in CALCULATORS:
        if calculator.name == name:
            return calculator
    refuse("name", "choice", brief(name), ", ".join([known.name for known in CALCULATORS]), "choice")


def answer(name, given):
    """Ask a calculator: check the input, work, and order the answer.

    Returns: {"result": {output: value}, "notes": [note]}.
    Raises: Problems listing every bad field.
    """
    calculator = calculator_named(name)
    result, notes = calculator.work(read(calculator.inputs, given))
    ordered = {field.name: result[field.name] for field in calculator.outputs}
    return {"result": ordered, "notes": notes}
