"""The last look at a layout before it is told, from what was asked and from what is told alone.

It knows nothing of points, values in whole parts or trees of cuts, so that a fault in the
search cannot be a fault in the answer.
"""

from ...numbers.ordering import in_order
from ...numbers.rounding import at_most
from .dynamic_programme import ACROSS, ALONG

CLOSE = 1e-9  # relative: what a worth may be off by, added up in floats
MILLIONTH = 1e-6  # what the worth of one is told to


def fault_of(given, result):
    """Say what is wrong with a layout of strips; None where it can be cut and is worth what is told.

    Takes: given, the width, length, sizes, rotate and stages asked for; result, its
    placed, value, bound and first_cuts.
    """
    boxes, counts, worth = [], [0] * len(given["sizes"]), 0.0
    for spot in result["placed"]:
        size = given["sizes"][spot["size"]]
        across, along = size["length"], size["width"]
        if spot["turned"]:
            across, along = along, across
            if not given["rotate"]:
                return "turned"
        if spot["x"] < 0 or spot["y"] < 0:
            return "outside"
        if not (at_most(spot["x"] + across, given["width"]) and at_most(spot["y"] + along, given["length"])):
            return "outside"
        boxes.append((spot["x"], spot["y"], spot["x"] + across, spot["y"] + along))
        counts[spot["size"]] += 1
        worth += size["value"]
    for size, count in zip(given["sizes"], counts):
        if size["quantity"] is not None and count > size["quantity"]:
            return "too many"
    slack = CLOSE * max(1.0, worth) + MILLIONTH * len(boxes)
    if abs(worth - result["value"]) > slack or result["value"] > result["bound"]:
        return "another worth"
    first = ALONG if result["first_cuts"] == "across" else ACROSS
    stages = None if given["stages"] == "any" else int(given["stages"])
    return None if _come_apart(boxes, first, stages) else "not cut apart"


def _come_apart(boxes, axis, stages):
    # cuts right through, one way and then the other, leave every strip alone
    groups, idle = [boxes], 0
    while True:
        groups = [group for group in groups if len(group) > 1]
        if not groups:
            return True
        if stages == 0 or idle == 2:
            return False
        parts = []
        for group in groups:
            parts += _parted(group, axis)
        idle = idle + 1 if len(parts) == len(groups) else 0
        stages = None if stages is None else stages - 1
        groups, axis = parts, 1 - axis


def _parted(boxes, axis):
    # at every place where a straight cut meets no strip
    parts, reach = [], None
    for box in in_order(boxes, lambda box: box[axis]):
        if reach is None or at_most(reach, box[axis]):
            parts.append([])
        parts[-1].append(box)
        reach = box[axis + 2] if reach is None else max(reach, box[axis + 2])
    return parts
