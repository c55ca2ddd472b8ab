"""Bounds that whole rows imply and parts of rows break."""

from .bounds import sharpened

MOST_ROUNDS = 8
MOST_NEW = 3
BROKEN = 1e-4  # by how much, of its number, a bound must be broken to be worth a row


def sharper(plan, reaches, total, rows):
    """Find the bounds that rows in parts break most, at most MOST_NEW of them.

    Takes: reaches and total, such that the rows of every layout reach the total;
    rows, how many rows of each kind there are, in parts.
    """
    found = []
    for own, whole in [(reaches, total)] + _by_size(plan):
        for part in _parts(own, rows):
            bound = sharpened(own, whole, part)
            if bound is not None:
                short = _short(bound, rows)
                if short > BROKEN and not _known(found, bound):
                    _put(found, short, bound)
    return [bound for _, bound in found]


def _by_size(plan):
    # the rows hold all pieces of each size
    found = []
    for size, wanted in enumerate(plan.wanted):
        reaches = []
        for kind in plan.kinds:
            most = 0
            for (own, reach, _), stack in zip(kind.pieces, kind.stacks):
                if own == size:
                    most = min(wanted, kind.room // reach * stack)
            reaches.append(most)
        found.append((reaches, wanted))
    return found


def _parts(reaches, rows):
    parts = []
    for reach, count in zip(reaches, rows):
        if count > 1e-6:
            for share in (1, 2, 3):
                part = abs(reach) // share
                if part > 1 and part not in parts:
                    parts.append(part)
    return parts


def _short(bound, rows):
    reached = 0.0
    for weight, count in zip(bound.weights, rows):
        reached += weight * count
    short = bound.number - reached if bound.at_least else reached - bound.number
    return short / max(bound.scale, bound.number)


def _known(found, bound):
    for _, other in found:
        if other.weights == bound.weights:
            return True
    return False


def _put(found, short, bound):
    place = len(found)
    while place and found[place - 1][0] < short:
        place -= 1
    found.insert(place, (short, bound))
    if len(found) > MOST_NEW:
        found.pop()
