"""method-compare: which way of making a piece takes least, and whether that can be told yet."""

from math import sqrt

from ..declaring.errors import Problems, note, problem
from ..declaring.spec import Calculator, Field
from ..numbers.rounding import GUARD, ceil
from ..numbers.samples import do_vary, mean_of, reach_of_difference, reach_of_mean, variance_of

SURE = 0.95
MOST_ROWS = 1000000  # rows that anybody could be asked for

ROW = [
    Field("minutes", "minutes", "Minutes at work in one sitting", example=95),
    Field("made", "count", "Pieces made in it", lowest=1, example=12),
    Field("good", "count", "Pieces of them that are good", lowest=1, example=11),
]
METHOD = [
    Field("name", "text", "The way of making", example="Tubes turned in one go"),
    Field("rows", "list", "Sittings, each by itself", fields=ROW, fewest=1, most=60),
    Field("materials", "money", "Materials of one piece made", 0),
]
INPUTS = [
    Field("methods", "list", "Ways of making", fields=METHOD, fewest=2, most=5,
          group="The ways"),
    Field("wage", "money", "An hour's wage: then cost is compared, and not minutes", None,
          group="What an hour costs"),
]  # fmt: skip

TOLD = [
    Field("name", "text", "The way of making"),
    Field("mean", "number", "A good piece takes: minutes, or with a wage minor units of money"),
    Field("low", "number", "The true mean is hardly below, with 95 % confidence", None, lowest=-1e15,
          close=True),
    Field("high", "number", "Nor above", None, lowest=-1e15, close=True),
]  # fmt: skip
AGAINST = [
    Field("name", "text", "Another way of making"),
    Field("difference", "number", "What a good piece takes more than the best way", lowest=-1e15),
    Field("low", "number", "The true difference is hardly below, with 95 % confidence", None,
          lowest=-1e15, close=True),
    Field("high", "number", "Nor above", None, lowest=-1e15, close=True),
    Field("verdict", "choice", "Whether the best way is the better one", choices=("clear", "cannot tell")),
    Field("more", "count", "Sittings of each that would tell, if the difference stays as it is", None),
]  # fmt: skip
OUTPUTS = [
    Field("methods", "list", "Each way by itself", fields=TOLD, most=5),
    Field("best", "text", "The way that takes least for a good piece",
          formula="the least mean of minutes ÷ good pieces, or of cost ÷ good pieces with {wage}"),
    Field("against", "list", "The others against it", fields=AGAINST, most=4),
]  # fmt: skip


def work(given):
    """Compare ways of making by what a good piece takes: minutes, or cost where there is a wage.

    A sitting is one value, whatever was made in it. The best has the least mean (of equal ones the first);
    each other way is clear of it where the 95 % interval of the difference leaves out nothing. `more` is how
    many rows each way would need, by the spread seen so far. Sittings that never vary tell no spread.
    Returns: methods, best and against, the latter in the order given; low and high None of one sitting, and
    where no sitting differs.
    Raises: Problems where more is good than was made.
    Source: B. L. Welch, Biometrika 34 (1947) 28–35, degrees of freedom rounded down.
    """
    _refuse_too_good(given["methods"])
    measured = [_measured(method, given["wage"]) for method in given["methods"]]
    means = [mean_of(values) for values in measured]
    best = _least(means)
    names = [method["name"] for method in given["methods"]]
    result = {
        "methods": [_told(*one) for one in zip(names, measured, means)],
        "best": names[best],
        "against": [
            _against(names[other], measured[best], measured[other])
            for other in range(len(names))
            if other != best
        ],
    }
    return result, _notes(given)


def _refuse_too_good(methods):
    problems = []
    for index, method in enumerate(methods):
        for row, sitting in enumerate(method["rows"]):
            if sitting["good"] > sitting["made"]:
                field = "methods." + str(index) + ".rows." + str(row) + ".good"
                problems.append(problem(field, "good_above_made", sitting["good"], sitting["made"], "count"))
    if problems:
        raise Problems(problems)


def _measured(method, wage):
    if wage is None:
        return [row["minutes"] / row["good"] for row in method["rows"]]
    return [
        (row["minutes"] * wage / 60 + method["materials"] * row["made"]) / row["good"]
        for row in method["rows"]
    ]


def _least(means):
    best = 0
    for place, mean in enumerate(means):
        # equal ones may differ by a float's last bits
        if mean < means[best] * (1 - GUARD):
            best = place
    return best


def _told(name, values, mean):
    reach = reach_of_mean(values, SURE) if do_vary(values) else None
    low, high = (None, None) if reach is None else (mean - reach, mean + reach)
    return {"name": name, "mean": mean, "low": low, "high": high}


def _against(name, best, other):
    reach, t = reach_of_difference(best, other, SURE)
    difference = mean_of(other) - mean_of(best)
    told = {"name": name, "difference": difference, "low": None, "high": None}
    told.update({"verdict": "cannot tell", "more": None})
    if reach is not None:
        told.update({"low": difference - reach, "high": difference + reach})
        if told["low"] > GUARD * mean_of(other):
            told["verdict"] = "clear"
        else:
            told["more"] = _rows_to_tell(
                difference, t, variance_of(best) + variance_of(other), mean_of(other)
            )
    return told


def _rows_to_tell(difference, t, variance, mean):
    # two that are the same are never told apart
    if difference <= GUARD * mean:
        return None
    root = t * sqrt(variance) / difference
    return ceil(root * root) if root * root <= MOST_ROWS else None


def _notes(given):
    unused = [method for method in given["methods"] if method["materials"]]
    return [note("wage", "materials_without_wage")] if unused and given["wage"] is None else []


CALCULATOR = Calculator(
    "method-compare",
    "Ways of making",
    "Which way of making takes least for a good piece, and whether your sittings tell them apart yet.",
    INPUTS,
    OUTPUTS,
    work,
    main=("best", "against"),
)
