"""The most valuable filling of a length: which pieces, and how many of each.

Depth first, the piece of most value for its reach first; a branch is left where
even filling what is left at the best rate of the pieces still to come is no
better. Values are whole numbers, so a better filling is better by one at least.
"""

MOST_STEPS = 3000


def fullest(room, pieces, most_steps=MOST_STEPS, enough=None):
    """Find the filling of greatest value.

    Takes: room and the pieces' reach, whole numbers of one unit; pieces,
    [(value, reach, most)] with whole values and how many at most; enough, a
    value that is good enough.
    Returns: (value, counts, upper, steps): no filling is worth more than upper,
    which is the value itself unless `most_steps` or `enough` ended the search.
    Example: fullest(10, [(5, 4, 9), (4, 3, 9)])[0] == 13
    """
    counts = [0] * len(pieces)
    order, rates = _by_rate(room, pieces)
    if not order:
        return 0, counts, 0, 1
    sorted_pieces = [pieces[index] for index in order]
    value, taken, upper, steps = _search(room, sorted_pieces, rates, most_steps, enough)
    for index, count in zip(order, taken):
        counts[index] = count
    return value, counts, upper, steps


def _by_rate(room, pieces):
    # an insertion sort: there are few, and the same order must come out on both runtimes
    order, rates, index = [], [], 0
    for value, reach, most in pieces:
        if value > 0 and reach <= room and most > 0:
            rate = value / reach if reach else float(value + 1) * (room + 1)
            place = len(order)
            while place and rates[place - 1] < rate:
                place -= 1
            order.insert(place, index)
            rates.insert(place, rate)
        index += 1
    rates.append(0.0)
    return order, rates


def _search(room, pieces, rates, most_steps, enough):
    last = len(pieces)
    best, best_taken = 0, []
    taken = [0] * last
    place, left, worth, steps = 0, room, 0, 0
    while True:
        while place < last:
            value, reach, most = pieces[place]
            count = left // reach if reach else most
            if count > most:
                count = most
            taken[place] = count
            left -= count * reach
            worth += count * value
            place += 1
            # a hair below one, for the last bits of the rate
            if worth + left * rates[place] < best + 0.999:
                break
        if worth > best:
            best, best_taken = worth, taken[:place]
        steps += 1
        if steps >= most_steps or (enough is not None and best >= enough):
            return best, best_taken, max(best, _upper(room, pieces)), steps
        # one less of the last piece taken, if what then is left may be worth it
        bound = best + 0.999
        place -= 1
        while place >= 0:
            count = taken[place]
            if count:
                value, reach, _ = pieces[place]
                if worth - value + (left + reach) * rates[place + 1] < bound:
                    left += count * reach
                    worth -= count * value
                    taken[place] = 0
                else:
                    taken[place] = count - 1
                    left += reach
                    worth -= value
                    break
            place -= 1
        if place < 0:
            return best, best_taken, best, steps
        place += 1


def _upper(room, pieces):
    # the last piece cut to what is left
    worth = 0
    for value, reach, most in pieces:
        if reach * most <= room:
            worth += value * most
            room -= reach * most
        else:
            return worth + room * value // reach
    return worth
