"""Rows of one strip size: the arithmetic of two-stage layouts on one cloth.

A row lies right across the cloth and is then cross-cut. In an *across* row the
strips' length lies across the cloth and the row is `strip_width` high; in an
*along* row it is the other way round. A row is better filled by strips of its
own height than by any others, so these two kinds are all an exact two-stage
layout of one size needs.
"""

from ..rounding import ceil, floor, step_up


def row_kind(direction, strip_length, strip_width, usable_width, repeat=0):
    """Describe one kind of row: strips a row and its height in mm."""
    if direction == "across":
        reach, height = strip_length, strip_width
    else:
        reach, height = strip_width, strip_length
    if repeat:
        height = step_up(height, repeat)
    return {"direction": direction, "per_row": floor(usable_width / reach), "row_height": height}


def shortest(kinds, quantity):
    """Find the rows that give `quantity` strips in the least length.

    Takes: one or two kinds of row, each with at least one strip a row.
    Returns: bands, a list of {direction, per_row, row_height, rows}; of equal
    lengths the one with fewest rows of the less dense kind.
    """
    dense, rare = _by_density(kinds)
    best = None
    for count in _rare_counts(dense, rare):
        rest = quantity - count * (rare["per_row"] if rare else 0)
        rows = max(0, ceil(rest / dense["per_row"]))
        bands = _bands(dense, rows, rare, count)
        length = length_of(bands)
        # a real gain only, or a float's last bit would choose
        if best is None or length < best[0] - 1e-6:
            best = (length, bands)
    return best[1]


def fullest(kinds, length):
    """Find the rows that give the most strips in a length of cloth.

    Returns: bands as `shortest` does; of equal yields the shorter.
    """
    dense, rare = _by_density(kinds)
    best = None
    for count in _rare_counts(dense, rare):
        left = length - count * (rare["row_height"] if rare else 0)
        rows = floor(left / dense["row_height"])
        if rows < 0:
            break
        bands = _bands(dense, rows, rare, count)
        found = (pieces_of(bands), -length_of(bands))
        if best is None or found[0] > best[0][0] or found[0] == best[0][0] and found[1] > best[0][1] + 1e-6:
            best = (found, bands)
    return best[1] if best else []


def pieces_of(bands):
    """Count the strips in bands."""
    return sum([band["rows"] * band["per_row"] for band in bands])


def length_of(bands):
    """Add up the height of bands in mm."""
    total = 0.0
    for band in bands:
        total += band["rows"] * band["row_height"]
    return total


def _by_density(kinds):
    if len(kinds) == 1:
        return kinds[0], None
    first, second = kinds
    if first["row_height"] * second["per_row"] <= second["row_height"] * first["per_row"]:
        return first, second
    return second, first


def _rare_counts(dense, rare):
    # as many rare rows as a dense row has strips could be exchanged for dense
    # rows with as many strips and no more length
    return range(dense["per_row"]) if rare else range(1)


def _bands(dense, dense_rows, rare, rare_rows):
    bands = []
    for kind, rows in ((dense, dense_rows), (rare, rare_rows)):
        if rows:
            bands.append({
                "direction": kind["direction"],
                "rows": rows,
                "per_row": kind["per_row"],
                "row_height": kind["row_height"],
            })  # fmt: skip
    return bands
