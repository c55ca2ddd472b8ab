"""The most saved by whole bundles, piece by piece over what each bundle lacks.

Exact: after any piece, what matters of the past is how many pieces the bundle
begun last has under each offer, and the most saved so far. Within a pool it is
always the dearest pieces that go under offers: putting a dearer piece in the
place of a cheaper one of its pool saves no less.
"""

MOST_STATES = 3000


def fill_by_remainders(pools, bundles, saved):
    """Find a whole filling that saves more than `saved`, the most that can be.

    Returns: (held, certain): held as `cheapest_use` returns it, None where
    nothing saves more; certain is false where there were too many states.
    """
    order = _order(pools)
    later = _most_later(pools, bundles, order)
    codes, best = [0], {0: (0, None)}
    for place, number in enumerate(order):
        codes, best = _through(number, pools[number], bundles, codes, best, later[place], saved)
        if len(codes) > MOST_STATES:
            return None, False
        closed = [
            offer for offer in pools[number].offers if not _comes_later(offer, pools, order[place + 1 :])
        ]
        codes = [code for code in codes if not [o for o in closed if _lies(code, o, bundles)]]
    if not codes or best[0][0] <= saved:
        return None, True
    held = [[0] * len(pool.offers) for pool in pools]
    way = best[0][1]
    while way:
        number, slot, way = way
        held[number][slot] += 1
    return held, True


def _order(pools):
    # next the pool that begins the fewest offers, so that few are open at once
    left, order, begun = list(range(len(pools))), [], 0
    while left:
        number = min(left, key=lambda pool: (_count(pools[pool].mask & ~begun), pool))
        left.remove(number)
        order.append(number)
        begun |= pools[number].mask
    return order


def _count(mask):
    count = 0
    while mask:
        mask &= mask - 1
        count += 1
    return count


def _comes_later(offer, pools, numbers):
    for number in numbers:
        if pools[number].mask >> offer & 1:
            return True
    return False


def _most_later(pools, bundles, order):
    # for each pool in order, [the most that its pieces from the i-th on and all
    # later pools can save, if offers could be filled in part]
    later, rest = [], 0
    for number in reversed(order):
        pool = pools[number]
        share = min([bundles[offer][1] // bundles[offer][0] for offer in pool.offers])
        most = [rest]
        for value in reversed(pool.values):
            rest += max(0, value - share)
            most.append(rest)
        later.append(most[::-1])
    return later[::-1]


def _through(number, pool, bundles, codes, best, later, saved):
    # one pool: from the states before it to those after, pieces dearest first
    steps = _steps(pool, bundles)
    after, most = codes[:], dict(best)
    for place, value in enumerate(pool.values):
        next_codes, next_best = [], {}
        for code in codes:
            so_far, way = best[code]
            for slot, unit, size, price in steps:
                lies = code // unit % size
                saves = so_far + value - (0 if lies else price)
                to = code + unit if lies + 1 < size else code - unit * (size - 1)
                if to not in next_best:
                    next_codes.append(to)
                    next_best[to] = (saves, (number, slot, way))
                elif saves > next_best[to][0]:
                    next_best[to] = (saves, (number, slot, way))
        codes = [
            code
            for code in next_codes
            if next_best[code][0] + _prepaid(code, bundles) + later[place + 1] > saved
        ]
        best = next_best
        if len(after) + len(codes) > 2 * MOST_STATES:
            return after + codes, most
        for code in codes:
            if code not in most:
                after.append(code)
                most[code] = best[code]
            elif best[code][0] > most[code][0]:
                most[code] = best[code]
    return after, most


def _steps(pool, bundles):
    steps, unit, units = [], 1, []
    for size, _ in bundles:
        units.append(unit)
        unit *= size
    for slot, offer in enumerate(pool.offers):
        steps.append((slot, units[offer], bundles[offer][0], bundles[offer][1]))
    return steps


def _lies(code, offer, bundles):
    for size, _ in bundles[:offer]:
        code //= size
    return code % bundles[offer][0]


def _prepaid(code, bundles):
    # what is paid already for the pieces that bundles still lack
    prepaid = 0
    for size, price in bundles:
        lies = code % size
        if lies:
            prepaid += (size - lies) * (price // size)
        code //= size
    return prepaid
