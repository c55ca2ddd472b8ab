"""sample-check: how many pieces of a batch to look at, and what they say of all of it."""

from ..declaring.errors import Problems, note, problem
from ..declaring.spec import Calculator, Field
from ..numbers.drawing import from_a_long_run, from_a_lot
from ..numbers.rounding import at_most, ceil

# the lot up to which a sample size is used
SIZES = ((8, 2), (15, 3), (25, 5), (50, 8), (90, 13), (150, 20), (280, 32), (500, 50), (1200, 80),
         (3200, 125), (10000, 200))  # fmt: skip
# the sample size that accepts with none bad, by the quality level; from two sizes on, with so many
NONE_BAD = {1.0: 13, 1.5: 8, 2.5: 5, 4.0: 3, 6.5: 2}
ACCEPTED = (1, 2, 3, 5, 7, 10, 14, 21)
WORST = 25  # percent: the end of the curve
SMALL = (0, 1, 2)

INPUTS = [
    Field("lot", "count", "Pieces in the batch", lowest=2, highest=10000, example=48, group="The batch"),
    Field("aql", "percent", "Share of bad pieces that may pass in the long run", 2.5,
          choices=(1.0, 1.5, 2.5, 4.0, 6.5), group="The sample"),
    Field("first", "count", "The first piece drawn, counted from 1", 1, lowest=1, highest=10000,
          group="The sample"),
    Field("inspected", "count", "Pieces looked at so far", None, highest=10000, group="So far"),
    Field("found", "count", "Bad ones among them", None, highest=10000, group="So far"),
    Field("limit", "percent", "Share of bad pieces that a batch must not have, for a small sample", 10,
          group="A small sample"),
    Field("risk", "percent", "Chance that such a batch passes all the same", 10, group="A small sample"),
]  # fmt: skip

POINT = [
    Field("bad", "percent", "Share of bad pieces"),
    Field("lot", "percent", "Chance that this batch passes with at least that share bad"),
    Field("long_run", "percent", "Chance that a batch of a long run with that share bad passes"),
]

PLAN = [
    Field("accept", "count", "Most bad ones with which it passes"),
    Field("sample", "count", "Pieces to look at; nothing if no sample does", None),
    Field("chance", "percent", "Chance that a batch at the limit passes", None),
    Field("finds_one", "percent", "Chance to refuse a batch with one bad piece", None),
]

OUTPUTS = [
    Field("sample", "count", "Pieces to look at",
          formula="looked up in ISO 2859-1 for {lot} at {aql}, at most all of them"),
    Field("accept", "count", "Most bad ones with which the batch passes",
          formula="looked up in ISO 2859-1 for {lot} at {aql}"),
    Field("reject", "count", "Bad ones with which it does not", formula="{accept} + 1"),
    Field("verdict", "choice", "What is certain by now", None, choices=("accept", "reject", "go on"),
          choice_words=("the batch passes", "the batch does not pass", "go on looking")),
    Field("draw", "list", "Which pieces, counted from 1", item=Field("piece", "count", "Its number"),
          most=200),
    Field("distance", "count", "From one of them to the next", lowest=1),
    Field("at_aql", "percent", "Chance that a batch of a long run passes with just the share that may"),
    Field("curve", "list", "How likely a batch passes, by how bad it is", fields=POINT, drawn=True),
    Field("small", "list", "The smallest sample that lets so bad a batch pass that seldom", fields=PLAN),
]  # fmt: skip


def work(given):
    """Find the sample of a batch, what it says by now, and how sure that is.

    Single sampling at normal inspection, level II. A sample as large as the batch is
    all of it. Pieces are drawn from `first` on at even distances, round the end of the
    batch if need be. `verdict` is certain before the last piece where no more bad
    ones, or no more pieces, can change it; None while nothing is told to be looked at.
    The curve and `small` take a share of the batch for that many whole pieces at
    least; chances of the batch are hypergeometric, of a long run binomial.
    Returns: chances in percent; sample, chance and finds_one of a small plan None
    where so few pieces are bad that none refuses them.
    Raises: Problems on first, inspected or found beyond the batch, and on found above
    inspected.
    Source: ISO 2859-1, MIL-STD-105E, tables I and II-A.
    """
    _refuse_what_cannot_be(given)
    lot = given["lot"]
    size, accept = plan(lot, given["aql"])
    size = min(size, lot)
    curve = [_point(percent, accept, size, lot) for percent in range(WORST + 1)]
    small = [_small(given, most) for most in SMALL]
    notes = []
    if None in [row["sample"] for row in small]:
        notes.append(note("small", "no_sample_does", _bad_of(given["limit"], lot), None, "count"))
    distance = lot // size
    result = {
        "sample": size,
        "accept": accept,
        "reject": accept + 1,
        "verdict": _verdict(given, size, accept),
        "draw": [(given["first"] - 1 + index * distance) % lot + 1 for index in range(size)],
        "distance": distance,
        "at_aql": 100 * from_a_long_run(accept, size, given["aql"] / 100),
        "curve": curve,
        "small": small,
    }
    return result, notes


def plan(lot, aql):
    """Look up the sample and the most bad ones with which a lot passes: (sample, accept).

    Down the column of a quality level, sizes too small for it lead to the first that
    accepts with none bad; the size after that leads back to it, the next one on.
    Source: ISO 2859-1, MIL-STD-105E, tables I and II-A.
    Example: plan(48, 4.0) == (13, 1)
    """
    sizes = [size for _, size in SIZES]
    row = [most >= lot for most, _ in SIZES].index(True)
    start = sizes.index(NONE_BAD[aql])
    if row <= start + 1:
        return sizes[start], 0
    row = max(row, start + 3)
    return sizes[row], ACCEPTED[row - start - 3]


def _refuse_what_cannot_be(given):
    lot, inspected, found = given["lot"], given["inspected"], given["found"]
    problems = []
    for name in ("first", "inspected"):
        if given[name] is not None and given[name] > lot:
            problems.append(problem(name, "highest", given[name], lot, "count"))
    seen = lot if inspected is None else inspected
    if found is not None and found > seen:
        problems.append(problem("found", "highest", found, seen, "count"))
    if problems:
        raise Problems(problems)


def _verdict(given, size, accept):
    if given["inspected"] is None and given["found"] is None:
        return None
    found = given["found"] or 0
    left = max(0, size - max(found, given["inspected"] or 0))
    if found > accept:
        return "reject"
    return "accept" if found + left <= accept else "go on"


def _bad_of(percent, lot):
    return ceil(percent * lot / 100)


def _point(percent, accept, size, lot):
    return {
        "bad": float(percent),
        "lot": 100 * from_a_lot(accept, size, _bad_of(percent, lot), lot),
        "long_run": 100 * from_a_long_run(accept, size, percent / 100),
    }


def _small(given, accept):
    lot, bad = given["lot"], _bad_of(given["limit"], given["lot"])
    if bad <= accept:
        return {"accept": accept, "sample": None, "chance": None, "finds_one": None}

    def is_enough(size):
        return at_most(100 * from_a_lot(accept, size, bad, lot), given["risk"])

    # doubled until it is enough, as a large one takes long to work out; then halved between
    low, high = 0, 1
    while high < lot and not is_enough(high):
        low, high = high, min(lot, 2 * high)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if is_enough(middle) else (middle, high)
    return {
        "accept": accept,
        "sample": high,
        "chance": 100 * from_a_lot(accept, high, bad, lot),
        "finds_one": 100 * (1 - from_a_lot(accept, high, 1, lot)),
    }


CALCULATOR = Calculator(
    "sample-check",
    "Sample",
    "How many pieces of a batch to look at, which ones, and what they say of all of it.",
    INPUTS,
    OUTPUTS,
    work,
    main=("sample", "accept", "verdict"),
)
