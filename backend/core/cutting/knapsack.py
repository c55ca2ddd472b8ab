"""The bounded knapsack problem: which items, and how many of each, are worth most in a capacity.

Branch and bound, depth first, the item of most value for its weight first; a branch
is left where even filling what is left at the best rate of the items still to come
is no better. Values are whole numbers, so a better filling is better by one at least.
Where that takes too long and the capacity is small, dynamic programming over it ends it.
"""

MOST_STEPS = 3000
CELLS_A_STEP = 32  # of the dynamic programme, that are as much work as a step


def solve_knapsack(capacity, items, most_steps=MOST_STEPS, enough=None):
    """Find the items of greatest value together that a capacity holds.

    Takes: capacity and the items' weights, whole numbers of one unit; items,
    [(value, weight, most)] with whole values and how many at most; enough, a
    value that is good enough.
    Returns: (value, counts, upper, steps): nothing that fits is worth more than upper,
    which is the value itself unless `most_steps` or `enough` ended the search.
    Example: solve_knapsack(10, [(5, 4, 9), (4, 3, 9)])[0] == 13
    """
    counts = [0] * len(items)
    order, rates = _by_rate(capacity, items)
    if not order:
        return 0, counts, 0, 1
    sorted_items = [items[index] for index in order]
    value, taken, upper, steps = _branch_and_bound(capacity, sorted_items, rates, most_steps, enough)
    if value < upper and enough is None:
        bundles = _bundles(capacity, sorted_items)
        cells = len(bundles) * (capacity + 1)
        if cells <= most_steps * CELLS_A_STEP:
            value, taken = _dynamic_programme(capacity, sorted_items, bundles)
            upper, steps = value, steps + cells // CELLS_A_STEP
    for index, count in zip(order, taken):
        counts[index] = count
    return value, counts, upper, steps


def effort_of(items, steps):
    """Tell how much work so many steps were with so many items, as a search counts it."""
    return 1 + (items + 3 * steps) // 20


def _by_rate(capacity, items):
    # an insertion sort: of equal ones the first stays first, on both runtimes
    order, rates, index = [], [], 0
    for value, weight, most in items:
        if value > 0 and weight <= capacity and most > 0:
            rate = value / weight if weight else float(value + 1) * (capacity + 1)
            low, high = 0, len(order)
            while low < high:
                middle = (low + high) // 2
                if rates[middle] < rate:
                    high = middle
                else:
                    low = middle + 1
            order.insert(low, index)
            rates.insert(low, rate)
        index += 1
    rates.append(0.0)
    return order, rates


def _branch_and_bound(capacity, items, rates, most_steps, enough):
    last = len(items)
    lightest = min([weight for _, weight, _ in items])
    best, best_taken = 0, []
    taken = [0] * last
    place, left, total, steps = 0, capacity, 0, 0
    while True:
        while place < last:
            value, weight, most = items[place]
            count = left // weight if weight else most
            if count > most:
                count = most
            taken[place] = count
            left -= count * weight
            total += count * value
            place += 1
            # nothing more fits, or it would not do: a hair below one, for the last bits of the rate
            if left < lightest or total + left * rates[place] < best + 0.999:
                break
        if total > best:
            best, best_taken = total, taken[:place]
        steps += 1
        if steps >= most_steps or (enough is not None and best >= enough):
            return best, best_taken, max(best, _relaxed(capacity, items)), steps
        # one less of the last item taken, if what then is left may be worth it
        least = best + 0.999
        place -= 1
        while place >= 0:
            count = taken[place]
            if count:
                value, weight, _ = items[place]
                if total - value + (left + weight) * rates[place + 1] < least:
                    left += count * weight
                    total -= count * value
                    taken[place] = 0
                else:
                    taken[place] = count - 1
                    left += weight
                    total -= value
                    break
            place -= 1
        if place < 0:
            return best, best_taken, best, steps
        place += 1


def _relaxed(capacity, items):
    # the linear relaxation: the last item cut to what is left
    total = 0
    for value, weight, most in items:
        if weight * most <= capacity:
            total += value * most
            capacity -= weight * most
        else:
            return total + capacity * value // weight
    return total


def _bundles(capacity, items):
    # any number of an item, in bundles of once, twice, four times as many: [(item, how many)]
    found = []
    for place, (_, weight, most) in enumerate(items):
        left, count = min(most, capacity // weight) if weight else most, 1
        while left > 0:
            found.append((place, min(count, left)))
            left -= count
            count *= 2
    return found


def _dynamic_programme(capacity, items, bundles):
    # the most that each part of the capacity holds, bundle by bundle, and then which were taken
    lines = [[0] * (capacity + 1)]
    for place, count in bundles:
        value, weight = items[place][0] * count, items[place][1] * count
        before = lines[-1]
        more = [one + value if one + value > other else other for one, other in zip(before, before[weight:])]
        lines.append(before[:weight] + more)
    taken, left = [0] * len(items), capacity
    for number in range(len(bundles) - 1, -1, -1):
        if lines[number + 1][left] > lines[number][left]:
            place, count = bundles[number]
            taken[place] += count
            left -= items[place][1] * count
    return lines[-1][capacity], taken
