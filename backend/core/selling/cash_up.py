"""cash-up: what the cash box should hold, and what was counted in it."""

from ..declaring.errors import note
from ..declaring.spec import Calculator, Field
from ..numbers.money import add_up

MOST_MONEY = 1000000000
# what a day's facts can come to: the largest amount, as often as facts can be asked about
MOST_IN_ALL = MOST_MONEY * 100000

COUNTED = [
    Field("value", "money", "Value of the note or coin", lowest=1, highest=MOST_MONEY, example=200),
    Field("count", "count", "How many of it", example=12),
]

INPUTS = [
    Field("float", "money", "Change money at the start", highest=MOST_IN_ALL, example=4000),
    Field("cash_sales", "money", "Cash taken for sales", highest=MOST_IN_ALL, example=21450),
    Field("cash_refunds", "money", "Cash given back", 0, highest=MOST_IN_ALL),
    Field("paid_in", "money", "Cash put in beside", 0, highest=MOST_IN_ALL),
    Field("taken_out", "money", "Cash taken out beside", 0, highest=MOST_IN_ALL),
    Field("counted", "list", "The count by note and coin", fields=COUNTED, most=40),
]

TOLD = [
    Field("value", "money", "Value of the note or coin"),
    Field("count", "count", "How many of it"),
    Field("total", "money", "What they come to"),
]

OUTPUTS = [
    Field("expected", "money", "What the box should hold",
          formula="{float} + {cash_sales} + {paid_in} − {cash_refunds} − {taken_out}"),
    Field("counted_total", "money", "What it holds"),
    Field("difference", "money", "Counted less expected: below nothing, money is missing",
          formula="{counted_total} − {expected}"),
    Field("takings", "money", "What cash sales brought", formula="{cash_sales} − {cash_refunds}"),
    Field("counted", "list", "The count, row by row", fields=TOLD, most=40),
]  # fmt: skip


def work(given):
    """Work out what the box should hold and how the count differs.

    Returns: money in minor units; difference is counted − expected. An expected
    amount below nothing is said in a note: more was taken out than came in.
    Source: common practice, no source.
    """
    expected = given["float"] + given["cash_sales"] + given["paid_in"]
    expected -= given["cash_refunds"] + given["taken_out"]
    counted = [
        {"value": row["value"], "count": row["count"], "total": row["value"] * row["count"]}
        for row in given["counted"]
    ]
    total = add_up([row["total"] for row in counted])
    result = {
        "expected": expected,
        "counted_total": total,
        "difference": total - expected,
        "takings": given["cash_sales"] - given["cash_refunds"],
        "counted": counted,
    }
    notes = []
    if expected < 0:
        notes.append(note("expected", "less_than_nothing", -expected, None, "money"))
    return result, notes


CALCULATOR = Calculator(
    "cash-up",
    "Cash-up",
    "What the cash box should hold, what it holds, and the difference.",
    INPUTS,
    OUTPUTS,
    work,
    main=("difference", "expected"),
)
