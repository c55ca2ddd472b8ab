"""The laps of a step that was timed: which are no measure of it, and how sure the rest makes its time."""

from math import sqrt

from ..numbers.ordering import in_order
from ..numbers.rounding import GUARD, ceil
from ..numbers.samples import mean_of, reach_of_mean, squares_about

FEWEST = 5  # laps from which one may be left out
FURTHEST = 3.5
OF_DEVIATION = 0.6745  # a normal law's quartile
OF_MEAN_DEVIATION = 1.253314  # a normal law's spread, in mean deviations
MOST_LEFT_OUT = 4  # one in so many
SURE = 0.95


def judged_laps(laps):
    """Choose the laps that count, from the minutes of a piece in each.

    What `keep` says of a lap stands, false leaves it out; the others are judged by the median of all but
    those left out so. Nothing is left out where more than one in four would go.
    Takes: laps, [{"minutes", "pieces", "keep"}].
    Returns: (the laps that count, the places of those left out, whether too many would have gone).
    Source: Iglewicz & Hoaglin, How to Detect and Handle Outliers, ASQC 1993, modified z above 3.5; without
    a median deviation, the mean deviation in its place.
    """
    places = [place for place, lap in enumerate(laps) if lap["keep"] is not False]
    far = [place for place in _far(laps, places) if laps[place]["keep"] is None]
    too_many = MOST_LEFT_OUT * len(far) > len(places)
    if too_many:
        far = []
    counted = [laps[place] for place in places if place not in far]
    left_out = [place for place, lap in enumerate(laps) if lap["keep"] is False or place in far]
    return counted, left_out, too_many


def _far(laps, places):
    if len(places) < FEWEST:
        return []
    values = [_each(laps[place]) for place in places]
    middle = _median(values)
    distances = [_distance(value, middle) for value in values]
    usual = _median(distances) / OF_DEVIATION or OF_MEAN_DEVIATION * mean_of(distances)
    return [place for place, distance in zip(places, distances) if distance > FURTHEST * usual]


def _distance(value, middle):
    # laps that are alike may differ by a float's last bits
    distance = abs(value - middle)
    return distance if distance > GUARD * middle else 0.0


def _each(lap):
    return lap["minutes"] / lap["pieces"]


def _median(values):
    ordered = in_order(values, lambda value: value)
    middle = len(ordered) // 2
    return ordered[middle] if len(ordered) % 2 else (ordered[middle - 1] + ordered[middle]) / 2


def timed(laps, accuracy):
    """Tell what the laps that count say of a step.

    Takes: accuracy, the percent by which its time may be off.
    Returns: {"observed": minutes a piece, "needed": laps for that accuracy, "precision": percent by which it
    may be off now}; the last two None for one lap, or where the laps took no time.
    Source: ILO, Introduction to Work Study, 40/n·√(n'Σx² − (Σx)²)/Σx of 95.45 % and 5 %, at any accuracy.
    """
    values = [_each(lap) for lap in laps]
    mean = mean_of(values)
    told = {"observed": _share(laps), "needed": None, "precision": None}
    if len(values) > 1 and mean > 0:
        # n·Σx² − (Σx)² = n·Σ(x − mean)², which loses no digits
        spread = sqrt(squares_about(values, mean) / len(values)) / mean
        told["needed"] = ceil(200 / accuracy * spread * (200 / accuracy * spread))
        told["precision"] = 100 * reach_of_mean(values, SURE) / mean
    return told


def _share(laps):
    minutes, pieces = 0.0, 0
    for lap in laps:
        minutes += lap["minutes"]
        pieces += lap["pieces"]
    return minutes / pieces
