"""count-variance: how far counts and books agree, and what the missing pieces are worth."""

from ..declaring.errors import note
from ..declaring.spec import Calculator, Field
from ..numbers.money import add_up
from ..numbers.ordering import in_text_order
from ..numbers.rounding import at_most

MOST_LINES = 500
# a count of helpers may have any number of them
MOST_COUNTED = 100000
# what facts can come to: the most pieces of one, as often as facts can be asked about
MOST_PIECES = 100000 * 100000
MOST_PRICE = 1000000000
MOST_OFF = 100 * 2 * MOST_PIECES

LINE = [
    Field("place", "text", "Where it was counted", example="Home shelf"),
    Field("product", "text", "What was counted", example="Everyday, Seagrass lawn"),
    Field(
        "expected", "count", "Pieces there should be", lowest=-MOST_PIECES, highest=MOST_PIECES, example=24
    ),
    Field("counted", "count", "Pieces seen", highest=MOST_PIECES, example=23),
    Field("price", "money", "What one is worth", None, highest=MOST_PRICE, example=600),
    Field(
        "sold_meanwhile",
        "count",
        "Pieces sold between its first and last counted line",
        0,
        highest=MOST_PIECES,
    ),
    Field("already_out", "flag", "Those were gone when they were counted", True),
]

TOLERANCE = Field("tolerance", "percent", "A count this near to the book still counts as right", 3)
INPUTS = [Field("lines", "list", "What was counted", fields=LINE, most=MOST_LINES, fewest=1), TOLERANCE]
OF_A_COUNT = [
    Field("lines", "list", "What was counted", fields=LINE, most=MOST_COUNTED, fewest=1),
    TOLERANCE,
]

TOLD_LINE = [
    Field("place", "text", "Where"),
    Field("product", "text", "What"),
    Field("difference", "count", "Counted less expected"),
    Field("off_by", "percent", "Share of what was expected", None, lowest=-MOST_OFF, highest=MOST_OFF),
    Field("right", "flag", "Within the tolerance"),
    Field("value", "money", "What the difference is worth", None),
]

TOTALS = [
    Field("accuracy", "percent", "Share of lines that were right"),
    Field("net_difference", "count", "Counted less expected, what is missing against what is too many"),
    Field("missing", "count", "Pieces that are missing"),
    Field("extra", "count", "Pieces too many"),
    Field("missing_value", "money", "What the missing pieces are worth"),
    Field("extra_value", "money", "What the pieces too many are worth"),
]

OUTPUTS = TOTALS + [
    Field("lines", "list", "Line by line", fields=TOLD_LINE, most=MOST_LINES),
    Field("places", "list", "By place", fields=[Field("place", "text", "Where")] + TOTALS, most=MOST_LINES),
    Field(
        "products", "list", "By product", fields=[Field("product", "text", "What")] + TOTALS, most=MOST_LINES
    ),
]


def work(given):
    """Compare counts with books: accuracy, and what is missing and too many.

    A line is right where the count is within `tolerance` percent of what was
    expected; where nothing was expected, only if nothing was seen. Pieces sold
    while they were counted, and not already out by then, are taken off the
    count. What is missing in one place never makes up for what is too many in
    another: accuracy sees both, the net difference neither.
    Returns: accuracy in percent; differences are counted − expected; values in
    minor units, of lines with a price.
    Source: record accuracy as the supply-chain metric (references.md).
    """
    lines = [_line(line, given["tolerance"]) for line in given["lines"]]
    result = _totals(lines)
    result["lines"] = lines
    result["places"] = _by("place", lines)
    result["products"] = _by("product", lines)
    unpriced = [line for line in lines if line["difference"] and line["value"] is None]
    notes = []
    if unpriced:
        notes.append(note("missing_value", "without_price", len(unpriced), None, "count"))
    return result, notes


def _line(line, tolerance):
    counted = line["counted"] - (0 if line["already_out"] else line["sold_meanwhile"])
    expected, difference = line["expected"], counted - line["expected"]
    return {
        "place": line["place"],
        "product": line["product"],
        "difference": difference,
        "off_by": 100 * difference / abs(expected) if expected else None,
        "right": at_most(100 * abs(difference), tolerance * abs(expected)),
        "value": None if line["price"] is None else difference * line["price"],
    }


def _totals(lines):
    differences = [line["difference"] for line in lines]
    values = [line["value"] or 0 for line in lines]
    right = [line for line in lines if line["right"]]
    return {
        "accuracy": 100 * len(right) / len(lines),
        "net_difference": add_up(differences),
        "missing": -add_up([pieces for pieces in differences if pieces < 0]),
        "extra": add_up([pieces for pieces in differences if pieces > 0]),
        "missing_value": -add_up([value for value in values if value < 0]),
        "extra_value": add_up([value for value in values if value > 0]),
    }


def _by(name, lines):
    groups = {}
    for line in lines:
        groups.setdefault(line[name], []).append(line)
    told = []
    for text in in_text_order(list(groups)):
        row = {name: text}
        row.update(_totals(groups[text]))
        told.append(row)
    return told


CALCULATOR = Calculator(
    "count-variance",
    "Count and books",
    "How far a count and the books agree, and what is missing.",
    INPUTS,
    OUTPUTS,
    work,
    main=("accuracy", "missing_value"),
)
