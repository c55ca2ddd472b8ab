"""elastic-cut-length: the elastic to cut for one loop, knot included."""

from math import pi, sqrt

from ..declaring.errors import Problems, note, problem
from ..declaring.spec import Calculator, Field
from ..numbers.rounding import at_most, floor

# Length of cord in the knot, in cord diameters, between which a real knot lies.
OPEN_OVERHAND = 10.1  # open tight overhand, end to end: computed by minimisation, unpublished
TIGHT_TREFOIL = 16.372861  # closed tight trefoil: Knot Atlas, Ideal knots
SLIPS_BELOW = 15  # percent of stretch: common practice, no source
SPREAD_SHARE = 0.25  # of the mean take-up: common practice, no source

SAMPLE = [
    Field("cut", "length", "Elastic cut for this test knot", lowest=1, highest=5000, example=240),
    Field("loop", "length", "Loop it gave, elastic rested", lowest=1, highest=5000, example=165),
    Field("tail_a", "length", "First tail beyond the knot", highest=1000, example=20),
    Field("tail_b", "length", "Second tail beyond the knot", highest=1000, example=20),
]

INPUTS = [
    Field("loop", "length", "Relaxed inner length of the finished elastic ring",
          lowest=10, highest=2000, example=165, group="The loop"),
    Field("tail", "length", "Elastic left beyond the knot, each end", 20,
          highest=500, group="The loop"),
    Field("strands", "count", "Strands that share the knot", 2, lowest=1, highest=8, group="The knot"),
    Field("elastic_width", "length", "Width of the braided elastic", 6,
          lowest=0.5, highest=50, group="The knot"),
    Field("elastic_thickness", "length", "Thickness of the braided elastic", 1,
          lowest=0.1, highest=10, group="The knot"),
    Field("pull", "ratio", "Stretched ÷ relaxed length when the knot is drawn tight", 2.0,
          lowest=1, highest=5, group="The knot"),
    Field("knot_takeup", "length", "Elastic the knot takes up, if you know it", None,
          highest=500, group="The knot"),
    Field("samples", "list", "Test knots you have tied and measured", [],
          fields=SAMPLE, most=50, group="Test knots"),
    Field("roll_length", "length", "Elastic on the roll", None,
          lowest=100, highest=1000000, unit="m", group="From a roll", rounded=floor),
    Field("wraps", "count", "Times it goes round the hair", None, lowest=1, highest=10, group="Worn"),
    Field("bundle_diameter", "length", "Across the bundle of hair", None,
          lowest=1, highest=200, group="Worn"),
    Field("bulk", "length", "Cloth round the elastic", 10, highest=100, group="Worn"),
    Field("stretch_limit", "percent", "How much further the elastic gives when pulled", 100,
          highest=1000, group="Worn"),
]  # fmt: skip

OUTPUTS = [
    Field("cut_length", "length", "Elastic to cut for one piece",
          formula="{loop} + {knot_takeup} + 2 × {tail}"),
    Field("knot_takeup", "length", "Elastic that disappears into the knot",
          formula="given; or the mean of your test knots; "
                  "or halfway from {knot_takeup_low} to {knot_takeup_high}"),
    Field("takeup_from", "choice", "Where the take-up comes from",
          choices=("given", "measured", "estimated")),
    Field("knot_takeup_low", "length", "Least, if estimated: an open tight overhand", None,
          formula="{strands} × 10.1 × √{strands} × d ÷ ({pull} × √{pull}), with "
                  "d = √(4 × {elastic_width} × {elastic_thickness} ÷ π)"),
    Field("knot_takeup_high", "length", "Most, if estimated: a closed tight knot", None,
          formula="{strands} × 16.372861 × √{strands} × d ÷ ({pull} × √{pull}), with "
                  "d = √(4 × {elastic_width} × {elastic_thickness} ÷ π)"),
    Field("spread", "length", "Standard deviation of the measured take-up", None),
    Field("pieces_per_roll", "count", "Pieces a roll gives", None,
          formula="{roll_length} ÷ {cut_length}, rounded down"),
    Field("roll_left", "length", "Left on the roll after them", None,
          formula="{roll_length} − {pieces_per_roll} × {cut_length}"),
    Field("worn_length", "length", "Length of the loop when worn", None,
          formula="{wraps} × π × ({bundle_diameter} + {bulk})"),
    Field("worn_stretch", "percent", "Stretch that needs", None, lowest=-100,
          formula="({worn_length} ÷ {loop} − 1) × 100"),
    Field("grip", "choice", "How it will hold", None, choices=("will slip", "holds", "too tight"),
          formula="{worn_stretch} of stretch: too tight above {stretch_limit}, slips below 15"),
]  # fmt: skip


def work(given):
    """Work out the elastic to cut, from a given, measured or estimated knot.

    Returns: lengths in mm; takeup_from; with roll_length the pieces a roll
    gives; with wraps and bundle_diameter how it will hold when worn.
    Raises: Problems if a sample is shorter than its own loop and tails, or if
    only one of wraps and bundle_diameter is given.
    Source: see the constants; strands share the knot as one bundle of equal
    area, and stretched elastic thins at constant volume.
    """
    _refuse_what_does_not_agree(given)
    result, notes = _takeup(given)
    result["cut_length"] = given["loop"] + result["knot_takeup"] + 2 * given["tail"]
    result.update(_from_roll(given["roll_length"], result["cut_length"], notes))
    result.update(_worn(given))
    return result, notes


def _refuse_what_does_not_agree(given):
    problems = []
    if given["knot_takeup"] is None:
        for index, sample in enumerate(given["samples"]):
            takeup = _takeup_of(sample)
            if not at_most(0.0, takeup):
                field = "samples." + str(index) + ".cut"
                problems.append(problem(field, "sample_short", -takeup, None, "length"))
    for field, other in (("wraps", "bundle_diameter"), ("bundle_diameter", "wraps")):
        if given[field] is None and given[other] is not None:
            problems.append(problem(field, "wraps_alone"))
    if problems:
        raise Problems(problems)


def _takeup_of(sample):
    return sample["cut"] - sample["loop"] - sample["tail_a"] - sample["tail_b"]


def _takeup(given):
    found = {"knot_takeup_low": None, "knot_takeup_high": None, "spread": None}
    if given["knot_takeup"] is not None:
        found["knot_takeup"] = given["knot_takeup"]
        found["takeup_from"] = "given"
        return found, []
    if given["samples"]:
        mean, spread = _measured(given["samples"])
        found["knot_takeup"], found["spread"] = mean, spread
        found["takeup_from"] = "measured"
        wide = spread is not None and spread > SPREAD_SHARE * mean
        return found, [note("samples", "sample_spread")] if wide else []
    strands, pull = given["strands"], given["pull"]
    diameter = sqrt(4 * given["elastic_width"] * given["elastic_thickness"] / pi)
    bundle = strands * sqrt(strands) * diameter / (pull * sqrt(pull))
    found["knot_takeup_low"] = bundle * OPEN_OVERHAND
    found["knot_takeup_high"] = bundle * TIGHT_TREFOIL
    found["knot_takeup"] = (found["knot_takeup_low"] + found["knot_takeup_high"]) / 2
    found["takeup_from"] = "estimated"
    return found, [note("knot_takeup", "tie_three")]


def _measured(samples):
    takeups = [max(0.0, _takeup_of(sample)) for sample in samples]
    count = len(takeups)
    mean = _total(takeups) / count
    if count == 1:
        return mean, None
    squares = [(takeup - mean) * (takeup - mean) for takeup in takeups]
    return mean, sqrt(_total(squares) / (count - 1))


def _total(values):
    # in order, since the runtimes' own sums of floats differ
    total = 0.0
    for value in values:
        total += value
    return total


def _from_roll(roll_length, cut_length, notes):
    if roll_length is None:
        return {"pieces_per_roll": None, "roll_left": None}
    pieces = floor(roll_length / cut_length)
    if not pieces:
        notes.append(note("roll_length", "roll_short", cut_length, roll_length, "length"))
    return {"pieces_per_roll": pieces, "roll_left": max(0.0, roll_length - pieces * cut_length)}


def _worn(given):
    wraps, bundle = given["wraps"], given["bundle_diameter"]
    if wraps is None:
        return {"worn_length": None, "worn_stretch": None, "grip": None}
    worn = wraps * pi * (bundle + given["bulk"])
    stretch = (worn / given["loop"] - 1) * 100
    grip = "holds"
    if stretch > given["stretch_limit"]:
        grip = "too tight"
    elif stretch < SLIPS_BELOW:
        grip = "will slip"
    return {"worn_length": worn, "worn_stretch": stretch, "grip": grip}


CALCULATOR = Calculator(
    "elastic-cut-length",
    "Elastic",
    "The elastic to cut for one loop, with its tails and what the knot takes up.",
    INPUTS,
    OUTPUTS,
    work,
    main=("cut_length", "knot_takeup"),
)
