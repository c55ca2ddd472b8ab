"""remnant-yield: the most strips one piece of known width and length gives."""

from ..cutting.placed import PLACED
from ..declaring.errors import Problems, note, problem, refuse
from ..declaring.spec import Calculator, Field
from ..numbers.rounding import floor
from .rows import fullest, pieces_of, row_kind

MOST_PIECES = 2000

INPUTS = [
    Field("width", "length", "Width of the remnant as it can be cut now",
          lowest=1, highest=10000, unit="cm", example=600, group="The remnant", rounded=floor),
    Field("length", "length", "Length of the remnant as it can be cut now",
          lowest=1, highest=100000, unit="cm", example=450, group="The remnant", rounded=floor),
    Field("strip_length", "length", "Cut length of the strip, round the loop",
          lowest=1, highest=10000, example=482, group="The strip"),
    Field("strip_width", "length", "Cut width of the strip, round the tube",
          lowest=1, highest=10000, example=110, group="The strip"),
    Field("nap", "flag", "Pile, nap or stripes: all strips lie one way", False, group="The strip"),
    Field("selvedge", "length", "Still to trim off, each side", 0, highest=500, group="Not ready yet"),
    Field("shrink_length", "percent", "Length still to lose in the wash", 0,
          highest=50, group="Not ready yet"),
    Field("shrink_width", "percent", "Width still to lose in the wash", 0,
          highest=50, group="Not ready yet"),
    Field("squaring", "length", "Still to lose for two straight ends", 0,
          highest=2000, group="Not ready yet"),
]  # fmt: skip

OUTPUTS = [
    Field("pieces", "count", "Strips it gives",
          formula="the most of all two-stage layouts on {usable_width} × {usable_length}"),
    Field("first_cuts", "choice", "Which cuts come first", choices=("across", "along")),
    Field("waste", "percent", "Share of the usable remnant that is left over",
          formula="100 × (1 − {pieces} × {strip_length} × {strip_width} ÷ "
                  "({usable_width} × {usable_length}))"),
    Field("usable_width", "length", "Width that can be cut", unit="cm", rounded=floor,
          formula="{width} × (1 − {shrink_width} ÷ 100) − 2 × {selvedge}"),
    Field("usable_length", "length", "Length that can be cut", unit="cm", rounded=floor,
          formula="{length} × (1 − {shrink_length} ÷ 100) − {squaring}"),
    Field("placed", "list", "Where each strip lies", fields=PLACED, most=MOST_PIECES, drawn=True),
]  # fmt: skip


def work(given):
    """Find the most strips a remnant gives, exactly, and where they lie.

    Exact over all guillotine layouts of two stages (cuts right through, then
    cross cuts of each row), with either cut first and, unless nap forbids it,
    strips lying both ways.
    Returns: pieces; placed, from the near left corner, in mm; waste in percent.
    Raises: Problems if nothing usable is left or over 2,000 pieces fit.
    """
    width, length = _usable(given)
    first_cuts, bands = _best(given, width, length)
    pieces = pieces_of(bands)
    if pieces > MOST_PIECES:
        refuse("strip_length", "too_many_pieces", pieces, MOST_PIECES, "count")
    strips_area = pieces * given["strip_length"] * given["strip_width"]
    result = {
        "pieces": pieces,
        "first_cuts": first_cuts,
        "usable_width": width,
        "usable_length": length,
        "waste": max(0.0, 100 * (1 - strips_area / (width * length))),
        "placed": _placed(bands, given, first_cuts == "along"),
    }
    notes = []
    if not pieces:
        notes.append(note("pieces", "none_fit", _too_long_by(given, width, length), None, "length"))
    return result, notes


def _usable(given):
    width = given["width"] * (1 - given["shrink_width"] / 100) - 2 * given["selvedge"]
    length = given["length"] * (1 - given["shrink_length"] / 100) - given["squaring"]
    problems = []
    if width <= 0:
        problems.append(problem("width", "no_cloth_left", given["width"] - width, None, "length"))
    if length <= 0:
        problems.append(problem("length", "no_length_left", given["length"] - length, None, "length"))
    if problems:
        raise Problems(problems)
    return width, length


def _best(given, width, length):
    best = None
    for first_cuts, across, along in (("across", width, length), ("along", length, width)):
        for kinds in _kinds(given, across):
            bands = fullest(kinds, along)
            if best is None or pieces_of(bands) > pieces_of(best[1]):
                best = (first_cuts, bands)
    return best or ("across", [])


def _kinds(given, across):
    # sets of row kinds that may share a layout; where the first cuts run
    # along, rows stand upright and `direction` is as seen from such a row
    kinds = []
    for direction in ("across", "along"):
        kind = row_kind(direction, given["strip_length"], given["strip_width"], across)
        if kind["per_row"]:
            kinds.append(kind)
    if given["nap"] or not kinds:
        return [[kind] for kind in kinds]
    return [kinds]


def _placed(bands, given, upright):
    placed, offset = [], 0.0
    for band in bands:
        along_row = band["direction"] == "along"
        reach = given["strip_width"] if along_row else given["strip_length"]
        for _ in range(band["rows"]):
            for index in range(band["per_row"]):
                spot = (offset, index * reach) if upright else (index * reach, offset)
                placed.append({
                    "x": spot[0],
                    "y": spot[1],
                    "length": given["strip_length"],
                    "width": given["strip_width"],
                    # lying along an upright row is lying across the cloth
                    "turned": along_row != upright,
                })  # fmt: skip
            offset += band["row_height"]
    return placed


def _too_long_by(given, width, length):
    longer, shorter = max(width, length), min(width, length)
    long_side = max(given["strip_length"], given["strip_width"])
    short_side = min(given["strip_length"], given["strip_width"])
    return max(long_side - longer, short_side - shorter)


CALCULATOR = Calculator(
    "remnant-yield",
    "Remnant",
    "The most strips one remnant gives, and where each of them lies.",
    INPUTS,
    OUTPUTS,
    work,
    main=("pieces", "waste"),
)
