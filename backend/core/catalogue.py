"""The list of calculators, and the one way to ask one."""

from .declaring.errors import Problems, refuse
from .declaring.reading import brief, read
from .declaring.within import within

# where each is declared: loaded when first asked, as a phone at its start waits for each module
PACKAGE = __name__[: -len("catalogue")]
MODULES = [
    ("strip-length", "sizing.strip_length"),
    ("elastic-cut-length", "sizing.elastic_cut_length"),
    ("fabric-per-dozen", "buying.fabric_per_dozen"),
    ("cloth-compare", "buying.cloth_compare"),
    ("remnant-yield", "buying.remnant_yield"),
    ("safe-cutting-checklist", "safety.safe_cutting_checklist"),
    ("cutting-layout", "cutting.cutting_layout"),
    ("elastic-rolls", "cutting.elastic_rolls"),
    ("remnant-best-mix", "cutting.remnant_best_mix"),
    ("buy-list", "buying.buy_list"),
    ("batch-time", "making.batch_time"),
    ("batch-order", "making.batch_order"),
    ("method-compare", "making.method_compare"),
    ("thread", "making.thread"),
    ("sample-check", "making.sample_check"),
    ("unit-cost", "costing.unit_cost"),
    ("price", "costing.price"),
    ("break-even", "costing.break_even"),
    ("offer-check", "costing.offer_check"),
    ("market-result", "deciding.market_result"),
    ("bring-to-market", "deciding.bring_to_market"),
    ("make-next", "deciding.make_next"),
    ("basket-total", "selling.basket_total"),
    ("change-due", "selling.change_due"),
    ("cash-up", "selling.cash_up"),
    ("stock-on-hand", "counting.stock_on_hand"),
    ("count-variance", "counting.count_variance"),
]
NAMES = [name for name, _ in MODULES]


def calculators():
    """List every calculator, in the order of the work."""
    return [calculator_named(name) for name in NAMES]


def calculator_named(name):
    """Find a calculator.

    Raises: Problems on `name` if there is none.
    """
    for known, module in MODULES:
        if known == name:
            return __import__(PACKAGE + module, None, None, ("CALCULATOR",)).CALCULATOR
    refuse("name", "choice", brief(name), ", ".join(NAMES), "choice")


def answer(name, given):
    """Ask a calculator: check the input, work, and order the answer.

    Returns: {"result": {output: value}, "notes": [note]}.
    Raises: Problems listing every bad field.
    """
    calculator = calculator_named(name)
    return told(calculator, calculator.work(read(calculator.inputs, given)))


def answer_of_facts(name, given):
    """Answer what facts add up to, as `answer` does.

    Each fact is within the limits of a record; what many add up to may be beyond
    those of a calculator, and shuts no screen: it counts as the limit then.
    """
    try:
        return answer(name, given)
    except Problems:
        return answer(name, within(calculator_named(name).inputs, given))


def told(calculator, answered):
    """Put a calculator's (result, notes) into the order of its declaration."""
    result, notes = answered
    ordered = {field.name: result[field.name] for field in calculator.outputs}
    return {"result": ordered, "notes": notes}
