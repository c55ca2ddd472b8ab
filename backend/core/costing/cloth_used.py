"""What cuts used of each cloth, and which of it went into which pieces."""

from ..declaring.errors import Problems
from ..making.waiting import strips_of
from ..numbers.ordering import in_order
from ..planning.strips import strip_of

# sizes are calculated here, not read off a ruler
EXACT = "mm"


def cloth_used(recorded, lines):
    """Give the cloth of each cut to the pieces that were sewn of its strips, the first cut first.

    A cut uses its rows less the offcuts that were saved, in mm² of washed and trimmed cloth,
    and never less than its strips; its strips share that by their area. Pieces without a cut
    before them count for their strip alone. Which strips a product is of is what `waiting_strips`
    takes them for.
    Takes: lines, as `lines_made` lists them.
    Returns: ({cloth: [{"at", "day", "quantity", "line", "cut", "batch", "result", "product", "pieces"}]},
    {number of a line: pieces without a cut}); of strips that still wait line, batch, result and product
    are None.
    """
    waiting, uses, uncut, areas = {}, {}, {}, {}
    cuts = [(cut["at"], 0, cut["id"], cut) for cut in recorded.of("cut")]
    sewn = [(line["at"], 1, line["result"], line) for line in lines]
    for _, is_sewn, _, row in in_order(cuts + sewn, lambda row: row[:3]):
        if not is_sewn:
            _lay_in(waiting, recorded, row, areas)
            continue
        strips = strips_of(row["product"], recorded.record("batch", row["batch"]), _products(recorded, row))
        left = _take(waiting, uses, strips, row)
        if left and strips:
            cloth, size = strips[0]
            whole = {"at": row["at"], "day": row["day"], "cut": None, "each": area_of_strip(recorded, size)}
            _use(uses, cloth, whole, left, row)
        uncut[row["line"]] = left
    for cloth, size in list(waiting):
        for strips in waiting[(cloth, size)]:
            if strips["left"]:
                _use(uses, cloth, strips, strips["left"], None)
    return uses, uncut


def area_of_strip(recorded, size):
    """Work out the area of a size's strip in mm²; 0 where the size is not here."""
    fields = recorded.record("piece", size)
    try:
        length, width = strip_of(fields, EXACT) if fields else (0.0, 0.0)
    except Problems:
        return 0.0
    return length * width


def width_of(cloth):
    """Work out the usable width of a bolt, washed and trimmed; None where it is not measured."""
    if cloth is None or cloth["bolt_width"] is None or cloth["shrink_width"] is None:
        return None
    return cloth["bolt_width"] * (1 - cloth["shrink_width"] / 100) - 2 * cloth["selvedge"]


def _products(recorded, line):
    return {line["product"]: recorded.record("product", line["product"])}


def _lay_in(waiting, recorded, cut, areas):
    # {(cloth, size): strips of each cut}, the earliest cut first; areas are those known so far
    strips = 0.0
    for line in cut["lines"]:
        if line["size"] not in areas:
            areas[line["size"]] = area_of_strip(recorded, line["size"])
        strips += areas[line["size"]] * line["quantity"]
    share = _used(recorded, cut, strips) / strips if strips else 0.0
    for line in cut["lines"]:
        row = {"at": cut["at"], "day": cut["day"], "cut": cut["id"]}
        row.update({"each": areas[line["size"]] * share, "left": line["quantity"]})
        waiting.setdefault((cut["cloth"], line["size"]), []).append(row)


def _used(recorded, cut, strips):
    # mm² that a cut used
    remnant = recorded.record("remnant", cut["remnant"])
    width = remnant["width"] if remnant else width_of(recorded.record("cloth", cut["cloth"]))
    if width is None:
        return strips
    area = cut["length"] * width
    for id in cut["offcuts"]:
        saved = recorded.record("remnant", id)
        if saved:
            area -= saved["width"] * saved["length"]
    return max(area, strips)


def _take(waiting, uses, strips, line):
    # returns the pieces for which there are no strips
    left = line["made"]
    for key in strips:
        rows = waiting.get(key, [])
        while left and rows:
            row = rows[0]
            taken = min(left, row["left"])
            row["left"] -= taken
            left -= taken
            if taken:
                _use(uses, key[0], row, taken, line)
            if not row["left"]:
                rows.pop(0)
    return left


def _use(uses, cloth, strips, pieces, line):
    uses.setdefault(cloth, []).append({
        "at": strips["at"],
        "quantity": strips["each"] * pieces,
        "line": line["line"] if line else None,
        "day": strips["day"],
        "cut": strips["cut"],
        "batch": line["batch"] if line else None,
        "result": line["result"] if line else None,
        "product": line["product"] if line else None,
        "pieces": pieces,
    })  # fmt: skip
