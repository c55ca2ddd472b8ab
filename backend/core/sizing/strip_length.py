"""strip-length: the strip to cut for one piece."""

from ..declaring.errors import note, refuse
from ..declaring.spec import Calculator, Field
from ..numbers.rounding import at_most, floor, step_down, step_nearest

RULER_STEPS = (1.0, 3.175)  # a millimetre, and an eighth of an inch

INPUTS = [
    Field("loop", "length", "Relaxed inner length of the finished elastic ring", 165,
          lowest=10, highest=2000, group="The piece"),
    Field("fullness", "ratio", "How many times longer the finished cloth is than the loop", 2.8,
          lowest=1, highest=8, group="The piece"),
    Field("tube_width", "length", "Flat width of the finished tube", 45,
          lowest=1, highest=1000, group="The piece"),
    Field("end_seam", "length", "Taken at each short end to close the ring", 10,
          highest=100, group="Seams"),
    Field("side_seam", "length", "Taken at each long edge to close the tube", 10,
          highest=100, group="Seams"),
    Field("stretch_limit", "percent", "How much further the elastic gives when pulled", 100,
          highest=1000, group="Stretch"),
    Field("stretch_cloth", "flag", "The cloth itself stretches, so that it does not stop the loop",
          False, group="Stretch"),
    Field("usable_width", "length", "Between the selvedges after washing: fits whole strips across",
          None, lowest=10, highest=10000, unit="cm", group="To fit a cloth", rounded=floor),
    Field("fullness_min", "ratio", "Least fullness you would accept", 1.8,
          lowest=1, highest=8, group="To fit a cloth"),
    Field("fullness_max", "ratio", "Most fullness you would accept", 3.5,
          lowest=1, highest=8, group="To fit a cloth"),
    Field("ruler_step", "length", "What your ruler shows: 1 mm, or 1/8 in (3.175 mm)", None,
          choices=RULER_STEPS, choice_words=("1 mm", "1/8 in"), lowest=1, highest=3.175,
          group="To fit a cloth"),
]  # fmt: skip

FIT = [
    Field("per_row", "count", "Strips side by side across the cloth"),
    Field("strip_length", "length", "Cut length that wastes no width", rounded=floor),
    Field("fullness", "ratio", "Fullness that gives"),
]

OUTPUTS = [
    Field("strip_length", "length", "Cut length, round the loop",
          formula="{loop} × {fullness} + 2 × {end_seam}"),
    Field("strip_width", "length", "Cut width, round the tube",
          formula="2 × {tube_width} + 2 × {side_seam}"),
    Field("opens_to", "length", "How far the finished piece opens",
          formula="{loop} × the smaller of {fullness} and 1 + {stretch_limit} ÷ 100"),
    Field("stopped_by", "choice", "What stops it opening further", choices=("cloth", "elastic"),
          formula="the smaller: the cloth at {fullness}, or the elastic at 1 + {stretch_limit} ÷ 100"),
    Field("fits", "list", "Strip lengths that waste no width, most fullness first", fields=FIT, most=1000),
    Field("best_fit", "object", "The fit nearest the wanted fullness", None, fields=FIT),
]  # fmt: skip


def work(given):
    """Work out the strip's cut size, how far it opens and what fits a width.

    Returns: strip_length, strip_width and opens_to in mm; stopped_by; fits,
    longest strip first; best_fit, the fit nearest the wanted fullness (of two
    equally near, the longer strip), None if there is none.
    Source: the formula is geometry; usual fullness about 2 (Stephenson,
    Cutting and Draping), the limits common practice, no source.
    """
    step = given["ruler_step"]
    if given["fullness_min"] > given["fullness_max"]:
        refuse("fullness_min", "limits_crossed", given["fullness_min"], given["fullness_max"], "ratio")
    result = {
        "strip_length": _read_off(given["loop"] * given["fullness"] + 2 * given["end_seam"], step),
        "strip_width": _read_off(2 * given["tube_width"] + 2 * given["side_seam"], step),
    }
    result.update(_opening(given))
    width = given["usable_width"]
    result["fits"] = _fits(given) if width else []
    result["best_fit"] = _best_fit(result["fits"], given["fullness"])
    notes = []
    if width and not result["fits"]:
        notes.append(note("usable_width", "no_fit", width, None, "length"))
    return result, notes


def _read_off(size, step):
    return step_nearest(size, step) if step else size


def _opening(given):
    by_elastic = 1 + given["stretch_limit"] / 100
    by_cloth = given["fullness"]
    if given["stretch_cloth"] or by_elastic <= by_cloth:
        return {"opens_to": given["loop"] * by_elastic, "stopped_by": "elastic"}
    return {"opens_to": given["loop"] * by_cloth, "stopped_by": "cloth"}


def _fits(given):
    seams = 2 * given["end_seam"]
    longest = given["loop"] * given["fullness_max"] + seams
    shortest = given["loop"] * given["fullness_min"] + seams
    width = given["usable_width"]
    fits = []
    step = given["ruler_step"] or 0.0
    # a strip too long may come inside by rounding down to the ruler
    for per_row in range(max(1, floor(width / (longest + step))), floor(width / shortest) + 1):
        strip = width / per_row
        if step:
            strip = step_down(strip, step)
        fullness = (strip - seams) / given["loop"]
        if at_most(given["fullness_min"], fullness) and at_most(fullness, given["fullness_max"]):
            fits.append({"per_row": per_row, "strip_length": strip, "fullness": fullness})
    return fits


def _best_fit(fits, wanted):
    best = None
    for fit in fits:
        distance = abs(fit["fullness"] - wanted)
        if best is None or not at_most(best[0], distance):
            best = (distance, fit)
    return best[1] if best else None


CALCULATOR = Calculator(
    "strip-length",
    "Strip",
    "The strip to cut for one piece: its length runs round the loop, its width round the tube.",
    INPUTS,
    OUTPUTS,
    work,
    main=("strip_length", "strip_width"),
)
