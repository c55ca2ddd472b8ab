"""What goes back for pieces of a sale that come back."""

from ..errors import Problems, problem
from ..money import add_up
from ..rounding import half_up


def refund_of(lines, back, amount):
    """Work out what pieces of a sale are worth when they come back.

    Takes: lines of the sale, each with quantity and total (minor units); back,
    how many pieces of each come back; amount, what was paid, the most that is
    given back.
    Returns: {"lines": [{product, size, name, quantity, total}], "amount"}:
    lines of which nothing comes back are left out; a part of a line is worth
    its share of the line's total, to the nearest minor unit.
    Raises: Problems naming `back` or `back.N` beyond the line.
    Source: common practice, no source.
    """
    _refuse_other_than_parts(lines, back)
    told = []
    for line, pieces in zip(lines, back):
        if pieces:
            row = {name: line.get(name) for name in ("product", "size")}
            row["name"] = line.get("name") or ""
            row["quantity"] = pieces
            row["total"] = half_up(line["total"] * pieces / line["quantity"])
            told.append(row)
    return {"lines": told, "amount": min(add_up([row["total"] for row in told]), amount)}


def _refuse_other_than_parts(lines, back):
    if len(lines) != len(back):
        raise Problems([problem("back", "rows", len(back), len(lines), "list")])
    problems = []
    for number, (line, pieces) in enumerate(zip(lines, back)):
        if pieces > line["quantity"]:
            problems.append(problem("back." + str(number), "highest", pieces, line["quantity"], "count"))
    if problems:
        raise Problems(problems)
