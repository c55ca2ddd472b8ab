"""A day's report as CSV: one line for each figure, so that days can be put below each other."""

from ..numbers.money import show_money
from ..numbers.numerals import decimal
from .parts import FIGURES, called, told_day
from .spreadsheet import csv_line, guarded

COLUMNS = ("day", "market", "part", "what", "more") + FIGURES + ("currency",)
BOX_PARTS = ("float", "cash_sales", "cash_refunds", "paid_in", "taken_out", "expected", "counted_total",
             "difference")  # fmt: skip


def report_csv(facts, voids, day, booking, stall, hours, stock, boxes, names, currency):
    """Write a day's report as CSV (RFC 4180), money in the currency's units.

    Takes: as `told_day`; names also of the booking. What was voided is told,
    and is no part of any sum.
    Raises: Problems as `day_report` does.
    """
    told = told_day(facts, voids, day, booking, stall, hours, stock, boxes, names)
    taken = told["takings"]
    whole = {"words": "All", "times": taken["sales"], "pieces": taken["pieces"], "amount": taken["amount"]}
    rows = [("Takings", whole)]
    for part in told["parts"]:
        rows += [(part["title"], row) for row in part["rows"]]
    rows += _of_boxes(told, names)
    market = called(names, booking)
    return csv_line(COLUMNS) + "".join([_line(day, market, part, row, currency) for part, row in rows])


def _line(day, market, part, row, currency):
    # numbers stay numbers: only text could be a formula
    cells = [guarded(text) for text in (day, market, part, row["words"], row.get("more", ""))]
    for figure in FIGURES:
        value = row.get(figure)
        if value is None:
            cells.append("")
        else:
            cells.append(show_money(value, currency) if figure == "amount" else decimal(value, 0))
    return csv_line(cells + [currency])


def _of_boxes(told, names):
    rows = []
    for box in told["boxes"]:
        for name in BOX_PARTS:
            if box[name] is not None:
                words = name.replace("_", " ")
                rows.append((called(names, box["box"]), {"words": words, "amount": box[name]}))
    if told["no_box"]:
        rows.append(("Cash boxes", {"words": "cash in no box", "amount": told["no_box"]}))
    return rows
