"""Rows of one strip size: the arithmetic of two-stage layouts on one cloth.

A row lies right across the cloth and is then cross-cut. In an *across* row the
strips' length lies across the cloth and the row is `strip_width` high; in an
*along* row it is the other way round. Of the two ways to lie in the higher row
its own takes less of the width, and in the lower row only its own goes in, so
rows of one kind each are all that an exact two-stage layout of one size needs.

With two kinds, D the denser (less height a strip) with d strips a row and R the
rarer with r: d rows of R hold as many strips as r rows of D, which are no
higher. So some best layout has fewer than d rows of R, and it is enough to try
those; where d is large it is quicker to try the few numbers of rows of D that
leave so few rows of R.

On a print rows start on its repeat, and only the last may be as high as its strips: with
each kind as the last, the rows before it are the same question.
"""

from ..numbers.rounding import at_most, floor, step_up

SAME = 1e-6  # mm; lengths closer than this are equal


def row_kind(direction, strip_length, strip_width, usable_width, repeat=0):
    """Describe one kind of row: strips a row, its height in mm and how high its strips lie."""
    if direction == "across":
        reach, height = strip_length, strip_width
    else:
        reach, height = strip_width, strip_length
    return {
        "direction": direction,
        "per_row": floor(usable_width / reach),
        "row_height": step_up(height, repeat) if repeat else height,
        "strip_height": height,
    }


def shortest(kinds, quantity):
    """Find the rows that give `quantity` strips in the least length.

    Takes: one or two kinds of row, each with at least one strip a row.
    Returns: bands, a list of {direction, per_row, row_height, strip_height, rows}, the
    last row in the last of them; of equal lengths the one with fewest rows of the less dense kind.
    """
    if not _any_padded(kinds):
        return _shortest(kinds, quantity)
    best = None
    for last in kinds:
        bands = _with_last(_shortest(kinds, quantity - last["per_row"]), last)
        if best is None or length_of(bands) < length_of(best) - SAME:
            best = bands
    return best


def fullest(kinds, length):
    """Find the rows that give the most strips in a length of cloth.

    Returns: bands as `shortest` does; of equal yields the shorter.
    """
    if not _any_padded(kinds):
        return fullest_on_repeat(kinds, length)
    best = []
    for last in kinds:
        if at_most(last["strip_height"], length):
            bands = _with_last(fullest_on_repeat(kinds, length - last["strip_height"]), last)
            more = pieces_of(bands) - pieces_of(best)
            if more > 0 or more == 0 and length_of(bands) < length_of(best) - SAME:
                best = bands
    return best


def fullest_on_repeat(kinds, length):
    """Find the same where another row follows the last, so that it ends on the print's repeat, too."""
    dense, rare = _by_density(kinds)
    best = (0, 0.0, (0, 0))
    for counts in _filling(dense, rare, length):
        pieces = _total(dense, rare, counts, "per_row")
        used = _total(dense, rare, counts, "row_height")
        if pieces > best[0] or pieces == best[0] and used < best[1] - SAME:
            best = (pieces, used, counts)
    return _bands(dense, rare, best[2])


def _shortest(kinds, quantity):
    dense, rare = _by_density(kinds)
    best = None
    for counts in _covering(dense, rare, quantity):
        length = _total(dense, rare, counts, "row_height")
        # a real gain only, or a float's last bit would choose
        if best is None or length < best[0] - SAME:
            best = (length, counts)
    return _bands(dense, rare, best[1])


def _any_padded(kinds):
    return len([kind for kind in kinds if kind["row_height"] != kind["strip_height"]]) > 0


def _with_last(bands, last):
    rows = 1
    for band in bands:
        if band["direction"] == last["direction"]:
            rows += band["rows"]
    others = [band for band in bands if band["direction"] != last["direction"]]
    return others + [_band(last, rows)]


def _total(dense, rare, counts, part):
    total = counts[0] * dense[part]
    return total + counts[1] * rare[part] if counts[1] else total


def _covering(dense, rare, quantity):
    # (rows of dense, rows of rare) worth trying for a quantity
    most = _rows_for(quantity, dense["per_row"])
    if rare is None:
        return [(most, 0)]
    d, r = dense["per_row"], rare["per_row"]
    if d <= r:
        rows = range(min(d, _rows_for(quantity, r) + 1))
        return [(_rows_for(quantity - count * r, d), count) for count in rows]
    # fewer than d rows of rare hold under r rows of dense
    rows = range(most, max(-1, most - r - 1), -1)
    return [(count, _rows_for(quantity - count * d, r)) for count in rows]


def _filling(dense, rare, length):
    # (rows of dense, rows of rare) worth trying for a length
    most = _rows_in(length, dense)
    if rare is None:
        return [(most, 0)]
    d, r = dense["per_row"], rare["per_row"]
    if d <= r:
        rows = range(min(d, _rows_in(length, rare) + 1))
        return [(_rows_in(length - count * rare["row_height"], dense), count) for count in rows]
    # fewer than d rows of rare are lower than this many rows of dense
    window = floor(d * rare["row_height"] / dense["row_height"]) + 2
    rows = range(most, max(-1, most - window), -1)
    return [(count, _rows_in(length - count * dense["row_height"], rare)) for count in rows]


def _rows_for(quantity, per_row):
    return max(0, -(-quantity // per_row))


def _rows_in(length, kind):
    return max(0, floor(length / kind["row_height"]))


def pieces_of(bands):
    """Count the strips in bands."""
    total = 0
    for band in bands:
        total += band["rows"] * band["per_row"]
    return total


def rows_of(bands):
    """Count the rows in bands."""
    total = 0
    for band in bands:
        total += band["rows"]
    return total


def length_of(bands):
    """Add up the height of bands in mm, of the last row only as high as its strips."""
    total = 0.0
    for band in bands:
        total += band["rows"] * band["row_height"]
    return total - (bands[-1]["row_height"] - bands[-1]["strip_height"]) if bands else total


def _by_density(kinds):
    if len(kinds) == 1:
        return kinds[0], None
    first, second = kinds
    if first["row_height"] * second["per_row"] > second["row_height"] * first["per_row"]:
        first, second = second, first
    # a rarer row that is no lower is never better
    lower = second["row_height"] < first["row_height"]
    return first, second if lower or second["per_row"] > first["per_row"] else None


def _bands(dense, rare, counts):
    return [_band(kind, rows) for kind, rows in ((dense, counts[0]), (rare, counts[1])) if rows > 0]


def _band(kind, rows):
    return {
        "direction": kind["direction"],
        "rows": rows,
        "per_row": kind["per_row"],
        "row_height": kind["row_height"],
        "strip_height": kind["strip_height"],
    }
