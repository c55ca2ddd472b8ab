"""Trim: a layout without pieces beyond the demand, each row as low as its pieces allow.

Where the last row of a family may be lower than those before it, it is the one that gains most by that.
"""

from ..problem import PatternRun


def trim(problem, layout):
    """Take out extra pieces, last from what is free, and lower the rows that then may be lower."""
    left = list(problem.demand)
    trimmed = []
    for free in (True, False):
        for run in layout:
            if free == (not run.row_type.cost):
                for times, counts in _without_extra(run, left):
                    number, row_type = _lowest(problem, run, counts)
                    trimmed.append(PatternRun(number, row_type, counts, times))
    for numbers in problem.families:
        if [number for number in numbers if problem.row_types[number].last]:
            trimmed = _ended(problem, trimmed, numbers)
    return trimmed


def _ended(problem, layout, family):
    # no row is the last, and then that which so saves most
    best, most, rows = None, 0, []
    for run in layout:
        if run.row_type.family == problem.row_types[family[0]].family:
            number = _first_that_holds(problem, run, False) if run.row_type.last else run.type_number
            if number is None:
                # on a nap its pieces lie as they do in no other row: it stays the last
                return layout
            row_type, last = problem.row_types[number], _first_that_holds(problem, run, True)
            if number != run.type_number:
                run = PatternRun(number, row_type, run.counts, run.times)
            if last is not None:
                own = problem.row_types[last]
                saved = row_type.cost - own.cost + row_type.take - own.take
                if saved > most:
                    best, most = (len(rows), last), saved
        rows.append(run)
    if best is None:
        return rows
    place, last = best
    run = rows.pop(place)
    if run.times > 1:
        rows.insert(place, PatternRun(run.type_number, run.row_type, run.counts, run.times - 1))
    return rows + [PatternRun(last, problem.row_types[last], run.counts, 1)]


def _first_that_holds(problem, run, last):
    # the lowest row type, of those that end their family or of the others; None where none is high enough
    for number in problem.families[run.row_type.family]:
        row_type = problem.row_types[number]
        if row_type.last == last and _holds(row_type, run.row_type, run.counts):
            return number
    return None


def _without_extra(run, left):
    # like rows without pieces beyond those still to be cut, in groups of like ones: [(times, counts)]
    groups, times = [], run.times
    while times:
        counts = [min(count, still) for count, still in zip(run.counts, left)]
        if not max(counts):
            return groups
        again = times
        for count, still in zip(counts, left):
            if count:
                again = min(again, still // count)
        for size, count in enumerate(counts):
            left[size] -= count * again
        groups.append((again, counts))
        times -= again
    return groups


def _lowest(problem, run, counts):
    before = run.row_type
    for number in problem.families[before.family]:
        row_type = problem.row_types[number]
        if row_type.cost > before.cost or row_type.take > before.take or row_type.most is not None:
            continue
        if _holds(row_type, before, counts):
            return number, row_type
    return run.type_number, before


def _holds(row_type, before, counts):
    if row_type.napped:
        for size, count in enumerate(counts):
            if count and row_type.turned(size) != before.turned(size):
                return False
    length = row_type.length_of(counts)
    return length is not None and length <= row_type.capacity
