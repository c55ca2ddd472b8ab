"""A day's report in parts, each a small table: what the screen shows and the file holds."""

from ..numbers.numerals import decimal
from .day_report import day_report

PAYMENTS = {"cash": "Cash", "card": "Card", "other": "Other", "none": "Swapped, no money"}
REASONS = {"spoilt": "Spoilt", "given": "Given away", "lost": "Lost", "found": "Found again"}
# what each figure is called, in the order of the columns
FIGURES = ("times", "pieces", "back", "set_aside", "asked", "left", "amount")


def told_day(facts, voids, day, booking, stall, hours, stock, boxes, names):
    """Report a day at a market in parts.

    Takes: as `day_report`, and names, {id: what it is called}, of products,
    sizes, offers and boxes.
    Returns: what `day_report` tells, and "parts": [{"title", "columns":
    [{"figure", "name"}], "rows": [{"about", "words", "more", "at", "sale",
    "share", and each figure of the columns}]}], parts without a row left out.
    `share` is how far a bar reaches, in percent of the longest; at and sale, of
    what has them, else None.
    Raises: Problems as `day_report` does.
    """
    report = day_report(facts, voids, day, booking, stall, hours, stock, boxes)
    parts = [
        _part("How it was paid", "How", ("times", "Sales"), _payments(report)),
        _part("By hour", "From", ("times", "Sales"), _hours(report["hours"])),
        _part("By product", "Product", ("pieces", "Sold", "left", "Left"), _products(report, names)),
        _part("Offers and discounts", "What for", ("times", "Times"), _reductions(report, names)),
        _part("Swapped, and left without money", "What", ("pieces", "Pieces"), _without_money(report), ()),
        _part("Void, and given back", "What", ("pieces", "Pieces"), _undone(report)),
    ]
    report["parts"] = [part for part in parts if part["rows"]]
    return report


def called(names, name):
    """Find what an id is called; the id itself where nothing is known."""
    found = names.get(name) if name else None
    return found if isinstance(found, str) else name or ""


def _part(title, what, columns, rows, money=("amount", "Money")):
    pairs = ("words", what) + columns + money
    named = [{"figure": pairs[at], "name": pairs[at + 1]} for at in range(0, len(pairs), 2)]
    return {"title": title, "columns": named, "rows": rows}


def _row(about, words, more="", at=None, sale=None, share=None):
    row = {figure: None for figure in FIGURES}
    row.update({"about": about, "words": words, "more": more, "at": at, "sale": sale, "share": share})
    return row


def _with(row, times=None, pieces=None, amount=None):
    row.update({"times": times, "pieces": pieces, "amount": amount})
    return row


def _payments(report):
    rows = []
    for paid in report["takings"]["payments"]:
        row = _row(paid["payment"], PAYMENTS[paid["payment"]])
        rows.append(_with(row, paid["sales"], None, paid["amount"]))
    return rows


def _hours(hours):
    longest = max([hour["amount"] for hour in hours] + [1])
    rows = []
    for hour in hours:
        share = max(0, hour["amount"] * 100 // longest)
        row = _row(hour["name"], hour["name"] or "Another time", share=share)
        rows.append(_with(row, hour["sales"], hour["pieces"], hour["amount"]))
    return rows


def _products(report, names):
    rows = []
    for goods in report["products"]:
        about = goods["product"] or goods["size"] or goods["name"]
        words = called(names, about) + (", cloth not named" if goods["size"] else "")
        row = _row(about, words, _beside(goods))
        _with(row, None, goods["pieces"], goods["amount"] - goods["given_back"])
        row.update({name: goods[name] for name in ("back", "set_aside", "asked", "left")})
        rows.append(row)
    if report["rounded"]:
        rows.append(_with(_row("rounded", "Rounding of cash"), amount=report["rounded"]))
    return rows


def _beside(goods):
    counts = (("back", " back"), ("set_aside", " set aside"), ("asked", " asked for, none left"))
    return ", ".join([decimal(goods[name], 0) + words for name, words in counts if goods[name]])


def _reductions(report, names):
    rows = []
    for use in report["offers"]:
        row = _row(use["offer"], called(names, use["offer"]))
        rows.append(_with(row, use["times"], None, -use["saving"]))
    for given in report["discounts"]:
        row = _row("off", given["reason"] or "Discount without a reason")
        rows.append(_with(row, given["times"], None, -given["amount"]))
    return rows


def _without_money(report):
    rows, swaps = [], report["swaps"]
    if swaps["times"]:
        row = _row("swaps", "Swapped", decimal(swaps["back"], 0) + " came back")
        rows.append(_with(row, swaps["times"], swaps["out"]))
    for aside in report["set_asides"]:
        rows.append(_with(_row(aside["reason"], REASONS[aside["reason"]]), None, aside["pieces"]))
    return rows


def _undone(report):
    rows = []
    for void in report["voids"]:
        row = _row("void", "Void", void["reason"], void["at"], void["sale"])
        rows.append(_with(row, 1, void["pieces"], void["amount"]))
    for back in report["refunds"]:
        words = "Given back, spoilt" if back["goods"] == "spoilt" else "Given back"
        row = _row("refund", words, back["reason"], back["at"], back["sale"])
        rows.append(_with(row, 1, back["pieces"], -back["amount"]))
    return rows
