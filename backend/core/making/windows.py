"""Work laid into the hours there are for it, with breaks."""

from ..declaring.errors import problem
from ..numbers.calendar import MINUTE_MS
from ..numbers.rounding import at_most, ceil, floor, half_up

FIRST_BREAK, LATER_BREAK = 5, 10  # minutes


def badly_ordered(windows):
    """List a problem for each window that ends before it begins, or begins before the one above it ends."""
    problems, last = [], None
    for index, window in enumerate(windows):
        field = "windows." + str(index)
        if window["to"] <= window["from"]:
            problems.append(problem(field + ".to", "window_ends_first", window["to"]))
        if last is not None and window["from"] < last:
            problems.append(problem(field + ".from", "windows_cross", window["from"]))
        last = window["to"]
    return problems


def laid_into(minutes, start, windows, break_every):
    """Find when so many minutes of work are done.

    After each `break_every` minutes of work in a window comes a break, the first of 5 minutes and the later
    ones of 10; none comes behind the last minute.
    Takes: start, an instant, None for the first window's; windows, [{"from", "to"}] in order, none for all
    time from start on; break_every, 0 for no breaks.
    Returns: (instant, 0.0), or (None, the minutes for which there is no time).
    Source: 5–10 minutes after 50–60, as for screen work; common practice, no source.
    """
    if not windows:
        return start + _milliseconds(_with_breaks(minutes, break_every)), 0.0
    left = minutes
    for window in windows:
        begin = window["from"] if start is None else max(start, window["from"])
        room = (window["to"] - begin) / MINUTE_MS
        if room <= 0:
            continue
        taken = _with_breaks(left, break_every)
        if at_most(taken, room):
            return begin + _milliseconds(taken), 0.0
        left -= _work_in(room, break_every)
    return None, left


def _milliseconds(minutes):
    return half_up(minutes * MINUTE_MS)


def _with_breaks(minutes, break_every):
    breaks = max(0, ceil(minutes / break_every) - 1) if break_every else 0
    return minutes + (FIRST_BREAK + LATER_BREAK * (breaks - 1) if breaks else 0)


def _work_in(room, break_every):
    # so much of the room is left for work
    if not break_every:
        return room
    if room <= break_every + FIRST_BREAK:
        return min(room, break_every)
    later = room - break_every - FIRST_BREAK
    rounds = floor(later / (break_every + LATER_BREAK))
    part = max(0.0, later - rounds * (break_every + LATER_BREAK))
    return break_every + rounds * break_every + min(part, break_every)
