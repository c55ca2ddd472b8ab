"""All pieces into the stores there are and a budget of what may be bought, one store filled after the other.

Each time the fullest rows that together fit what is left of a store say which
row is cut next, so that the rows' heights come out even with the store's length.
"""

from .fullest import fullest
from .greedy import Rest
from .plan import Rows

MOST_STEPS = 300


def pack(plan, layout, worths, budget, order):
    """Add rows to a layout until all pieces are cut, within a cost.

    Takes: worths, whole numbers by which fillings are compared; budget, the
    most that the rows added may cost; order, the stores in the order to fill
    them, None for what is bought.
    Returns: (layout, effort); the layout is None where pieces are left.
    """
    rest = Rest(plan, layout)
    for store in order:
        kinds = [number for number, kind in enumerate(plan.kinds) if kind.store == store and kind.pieces]
        room = budget if store is None else rest.stores[store]
        while max(rest.wanted) > 0:
            rows = _next_rows(rest, kinds, worths, room)
            if rows is None:
                break
            room -= (rows.lying.take or rows.lying.cost) * rows.times
            rest.take(rows)
    return rest.layout if max(rest.wanted) == 0 else None, rest.effort


def _next_rows(rest, kinds, worths, room):
    # of the rows that together are worth most in this room, those of most worth for what they take
    fillings = []
    for number in kinds:
        kind = rest.plan.kinds[number]
        take = kind.take or kind.cost
        most = room // take
        if kind.most is not None:
            most = min(most, rest.most[number])
        if most > 0:
            value, placed, _, steps = kind.filled(worths, rest.wanted, MOST_STEPS)
            rest.effort += 1 + steps // 16
            if value:
                fillings.append((value, take, most, number, placed))
    if not fillings:
        return None
    _, counts, _, steps = fullest(room, [filling[:3] for filling in fillings], MOST_STEPS)
    rest.effort += 1 + steps // 16
    best = None
    for filling, count in zip(fillings, counts):
        if count and (best is None or filling[0] * best[1] > best[0] * filling[1]):
            best = filling
    return _rows(rest, best, counts[fillings.index(best)])


def _rows(rest, filling, times):
    _, _, _, number, counts = filling
    for wanted, count in zip(rest.wanted, counts):
        if count:
            times = min(times, wanted // count)
    return Rows(number, rest.plan.kinds[number], counts, max(1, times))
