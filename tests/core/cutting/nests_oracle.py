"""The least length of one bolt where strips of several sizes may lie over each other in a row (HiGHS).

A row is as high as some strip lies. Stacks side by side lie in it, each of any strips that its height
and its width hold: three stages of cuts, strips trimmed. All fillings of a row are listed, then counted
in whole numbers.
"""

from functools import cache

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

MOST_FILLINGS, MOST_ROWS = 60000, 4000


def least_with_nests(plan, seconds=4):
    """Find the mm of rows of a plan of one bolt without washing, print or nap; None where that is long."""
    bolt, strips = plan["cloths"][0], plan["strips"]
    width = bolt["width"] - 2 * bolt["selvedge"]
    most = tuple(strip["quantity"] for strip in strips)
    ways = [
        (size, *lying) for size, strip in enumerate(strips) for lying in _lying(strip) if lying[0] <= width
    ]
    heights, contents = [], []
    for height in sorted({high for _, _, high in ways}):
        found = _rows(width, _stacks(height, ways, most), most)
        if found is None:
            return None
        heights += [height] * len(found)
        contents += found
    if len(heights) > MOST_ROWS:
        return None
    solved = milp(
        np.array(heights),
        constraints=LinearConstraint(np.array(contents).T, lb=most),
        integrality=np.ones(len(heights)),
        bounds=Bounds(0, np.inf),
        options={"time_limit": seconds},
    )
    return solved.fun if solved.x is not None else None


def _lying(strip):
    across, along = (strip["length"], strip["width"]), (strip["width"], strip["length"])
    return {"across": [across], "along": [along]}.get(strip["direction"], [across, along])


def _stacks(height, ways, most):
    # [(how many of each size, width)] that none has more of in no more width
    narrowest = {}
    for widest in {wide for _, wide, high in ways if high <= height}:
        inside = [way for way in ways if way[1] <= widest and way[2] <= height]
        for counts in _fillings(height, tuple((high, most[size]) for size, _, high in inside)):
            total, wide = [0] * len(most), 0
            for (size, own, _), count in zip(inside, counts, strict=True):
                total[size] += count
                wide = max(wide, own if count else 0)
            if wide:
                narrowest[tuple(total)] = min(wide, narrowest.get(tuple(total), wide))
    return [
        (counts, wide)
        for counts, wide in narrowest.items()
        if not any(
            other != counts and own <= wide and all(a <= b for a, b in zip(counts, other, strict=True))
            for other, own in narrowest.items()
        )
    ]


@cache
def _fillings(length, items):
    # how many of each fit in a length one behind the other: items are (length, most)
    if not items:
        return [()]
    (own, most), rest = items[0], items[1:]
    return [
        (count, *more)
        for count in range(min(most, int(length / own + 1e-9)) + 1)
        for more in _fillings(length - count * own, rest)
    ]


def _rows(width, stacks, most):
    # how many of each size lie in a row, where none has more of each; None where there are too many
    found, tried = set(), 0
    waiting = [(0, width, (0,) * len(most))]
    while waiting:
        place, left, counts = waiting.pop()
        tried += 1
        if tried > MOST_FILLINGS:
            return None
        if place == len(stacks):
            found.add(counts)
            continue
        stack, wide = stacks[place]
        for times in range(int(left / wide + 1e-9) + 1):
            total = tuple(min(n + times * own, top) for n, own, top in zip(counts, stack, most, strict=True))
            waiting.append((place + 1, left - times * wide, total))
    rows = np.array(sorted(found))
    return [row for row in rows if not ((rows >= row).all(1) & (rows > row).any(1)).any()]
