"""A day's report as CSV: one line for each figure, so that days can be put below each other."""

from ..money import show_money
from ..numerals import decimal
from ..spreadsheet import csv_line, guarded
from .day_report import day_report

COLUMNS = ("day", "market", "part", "what", "times", "pieces", "amount", "currency")
BOX_PARTS = ("float", "cash_sales", "cash_refunds", "paid_in", "taken_out", "expected", "counted_total",
             "difference")  # fmt: skip


def report_csv(facts, voids, day, booking, stall, hours, stock, boxes, names, currency):
    """Write a day's report as CSV (RFC 4180), money in the currency's units.

    Takes: as `day_report`, and names, {id: what it is called}, of the booking,
    products, sizes, offers and boxes.
    Raises: Problems as `day_report` does.
    """
    report = day_report(facts, voids, day, booking, stall, hours, stock, boxes)
    lines = [csv_line(COLUMNS)]
    for part, what, times, pieces, amount in _figures(report, names):
        cells = [day, _called(names, booking), part, what, times, pieces]
        cells.append("" if amount is None else show_money(amount, currency))
        # numbers stay numbers: only text could be a formula
        texts = [guarded(cell) if isinstance(cell, str) else _whole(cell) for cell in cells[:-1]]
        lines.append(csv_line(texts + [cells[-1], currency]))
    return "".join(lines)


def _whole(count):
    return "" if count is None else decimal(count, 0)


def _called(names, name):
    found = names.get(name) if name else None
    return found if isinstance(found, str) else name or ""


def _figures(report, names):
    taken = report["takings"]
    rows = [("takings", "all", taken["sales"], taken["pieces"], taken["amount"])]
    for row in taken["payments"]:
        rows.append(("payment", row["payment"], row["sales"], None, row["amount"]))
    for row in report["hours"]:
        rows.append(("hour", row["name"], row["sales"], row["pieces"], row["amount"]))
    rows += _of_goods(report, names)
    if report["rounded"]:
        rows.append(("rounded", "", None, None, report["rounded"]))
    for row in report["offers"]:
        rows.append(("offer", _called(names, row["offer"]), row["times"], None, row["saving"]))
    for row in report["discounts"]:
        rows.append(("discount", row["reason"], row["times"], None, row["amount"]))
    for part, name in (("void", "voids"), ("refund", "refunds")):
        for row in report[name]:
            rows.append((part, row["reason"], 1, row["pieces"], row["amount"]))
    swaps = report["swaps"]
    if swaps["times"]:
        rows.append(("swap", "", swaps["times"], swaps["out"], 0))
    for row in report["set_asides"]:
        rows.append((row["reason"], "", None, row["pieces"], None))
    return rows + _of_boxes(report, names)


def _of_goods(report, names):
    rows = []
    for row in report["products"]:
        called = row["name"] or _called(names, row["product"] or row["size"])
        figures = [("sold", row["pieces"], row["amount"]), ("back", row["back"], -row["given_back"])]
        figures += [("set aside", row["set_aside"], None), ("asked for", row["asked"], None)]
        rows += [(part, called, None, pieces, amount) for part, pieces, amount in figures if pieces]
        if row["left"] is not None:
            rows.append(("left", called, None, row["left"], None))
    return rows


def _of_boxes(report, names):
    rows = []
    for box in report["boxes"]:
        for name in BOX_PARTS:
            if box[name] is not None:
                rows.append((name.replace("_", " "), _called(names, box["box"]), None, None, box[name]))
    if report["no_box"]:
        rows.append(("cash in no box", "", None, None, report["no_box"]))
    return rows
