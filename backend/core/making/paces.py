"""How long laps took, disturbed ones as long as the others of their step."""

from ..numbers.calendar import MINUTE_MS


def paces_of(steps):
    """Tell the pace of each step of each batch, from the laps that nothing disturbed.

    Takes: steps, rows with their "batch", "step" and "laps".
    Returns: {(batch, step): (pieces, milliseconds)}.
    """
    paces = {}
    for step in steps:
        key = (step["batch"], step["step"])
        pieces, took = paces.get(key, (0, 0))
        for lap in step["laps"]:
            if not lap.get("disturbed"):
                pieces, took = pieces + lap["pieces"], took + lap["took_ms"]
        paces[key] = (pieces, took)
    return paces


def minutes_of(laps, pace):
    """Add up laps in minutes, each disturbed one at the pace, where there is any.

    Example: minutes_of([{"pieces": 2, "took_ms": 90000, "disturbed": True}], (1, 30000)) == 1.0
    """
    pieces, took = pace
    minutes = 0.0
    for lap in laps:
        at_pace = lap.get("disturbed") and pieces
        minutes += (lap["pieces"] * took / pieces if at_pace else lap["took_ms"]) / MINUTE_MS
    return minutes
