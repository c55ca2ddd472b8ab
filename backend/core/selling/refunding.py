"""What goes back for pieces of a sale that come back."""

from ..declaring.errors import Problems, problem
from ..numbers.money import add_up
from ..numbers.rounding import half_up


def refund_of(lines, back, amount, refunds):
    """Work out what pieces of a sale are worth when they come back.

    Takes: lines of the sale, each with quantity and total (minor units); back,
    how many pieces of each come back, None for all that are left; amount, what
    was paid; refunds, what was given back of it before, each with its lines and
    amount.
    Returns: {"lines": [{product, size, name, quantity, total}], "amount",
    "left": pieces of each line that may still come back, "left_amount": and so
    much money}: lines of which nothing comes back are left out. The pieces of a
    line are worth its total together, and each part its share, to the nearest
    minor unit; with the last piece comes all that is left of what was paid.
    Raises: Problems naming `back` or `back.N` beyond what is left of the line.
    Source: common practice, no source.
    """
    before = _returned(lines, refunds)
    left = [line["quantity"] - pieces for line, pieces in zip(lines, before)]
    left_amount = max(0, amount - add_up([refund["amount"] for refund in refunds]))
    back = left if back is None else back
    _refuse_other_than_parts(left, back)
    told = []
    for line, pieces, earlier in zip(lines, back, before):
        if pieces:
            row = {name: line.get(name) for name in ("product", "size")}
            row["name"] = line.get("name") or ""
            row["quantity"] = pieces
            row["total"] = _share(line, earlier + pieces) - _share(line, earlier)
            told.append(row)
    worth = add_up([row["total"] for row in told])
    given = left_amount if told and back == left else min(worth, left_amount)
    return {"lines": told, "amount": given, "left": left, "left_amount": left_amount}


def _share(line, pieces):
    return half_up(line["total"] * pieces / line["quantity"])


def _returned(lines, refunds):
    # pieces that came back before, laid on the lines that sold such goods, the first line first
    before = [0 for _ in lines]
    for refund in refunds:
        for row in refund["lines"]:
            pieces = row["quantity"]
            for number, line in enumerate(lines):
                if _goods(line) == _goods(row):
                    more = min(pieces, line["quantity"] - before[number])
                    before[number] += more
                    pieces -= more
    return before


def _goods(line):
    return (line.get("product"), line.get("size"), line.get("name") or "")


def _refuse_other_than_parts(left, back):
    if len(left) != len(back):
        raise Problems([problem("back", "rows", len(back), len(left), "list")])
    problems = []
    for number, (most, pieces) in enumerate(zip(left, back)):
        if pieces > most:
            problems.append(problem("back." + str(number), "highest", pieces, most, "count"))
    if problems:
        raise Problems(problems)
