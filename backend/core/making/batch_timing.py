"""How long a batch still takes: by its own laps, else by those of batches before, else by a guess."""

from ..catalogue import answer_of_facts
from ..numbers.calendar import MINUTE_MS
from .batch_standing import batch_pieces, batch_standing, laps_in_order
from .batch_time import MOST_LAPS
from .usual_steps import guessed_minutes, usual_steps
from .windows import laid_into

BREAK_EVERY = 55  # minutes of work
LAPS, BEFORE, GUESS = "laps", "before", "guess"


def time_given(batch, method_steps, laps, before, tray):
    """Say what `batch-time` is asked for a batch.

    A disturbed lap is no observation. A step that the batch itself has laps of
    is timed by these alone, as cloth and thread are its own; one that it has
    none of by those of batches before.
    Takes: batch, {"lines", "people"}; method_steps, the usual ones where there
    are none; laps, before, facts of this batch and of others as
    `batch_standing` takes them; tray, pieces.
    Returns: {"given", the input of `batch-time`; "sources": [one a step of
    `laps`, `before`, `guess`]}.
    """
    steps = method_steps or usual_steps()
    own, earlier = _observed(laps), _observed(before)
    rows, sources = [], []
    for step in steps:
        row = {
            "name": step["name"],
            "per": step["per"],
            "machine": step.get("machine") or "",
            "allowance": step.get("allowance"),
        }
        if own.get(step["name"]):
            # the latest, as many as `batch-time` takes
            source, row["observed"] = LAPS, own[step["name"]][-MOST_LAPS:]
        elif earlier.get(step["name"]):
            source, row["observed"] = BEFORE, earlier[step["name"]][-MOST_LAPS:]
        else:
            source, row["minutes"] = GUESS, guessed_minutes(step)
        rows.append(row)
        sources.append(source)
    given = {"quantity": batch_pieces(batch), "steps": rows, "people": batch.get("people") or 1, "tray": tray}
    return {"given": given, "sources": sources}


def _observed(facts):
    observed = {}
    for lap in laps_in_order(facts):
        if not lap["disturbed"]:
            row = {"minutes": lap["took_ms"] / MINUTE_MS, "pieces": lap["pieces"]}
            observed.setdefault(lap["step"], []).append(row)
    return observed


def finish_time(batch, method_steps, laps, before, tray, now):
    """Say when a batch is ready, if whoever is at it goes on from now, with breaks.

    What is left of each step at its standard minutes; several people shorten it as
    they shorten the whole batch.
    Takes: as `time_given`; now, UTC ms.
    Returns: {"finish" (UTC ms), "minutes" (of work left), "sources": {"laps", "before",
    "guess": how many steps with something left}, "timed" (laps of this batch that
    count)}; finish None where nothing is left.
    """
    told = time_given(batch, method_steps, laps, before, tray)
    result = answer_of_facts("batch-time", told["given"])["result"]
    standing = batch_standing(batch, method_steps, laps)
    left, sources = 0.0, {LAPS: 0, BEFORE: 0, GUESS: 0}
    for number in range(len(standing["steps"])):
        row = standing["steps"][number]
        if row["left"]:
            left += row["left"] * result["steps"][number]["standard"]
            sources[told["sources"][number]] += 1
    timed = len([lap for lap in standing["laps"] if not lap["disturbed"]])
    if result["batch_minutes"] > 0:
        left = left * result["makespan"] / result["batch_minutes"]
    finish = laid_into(left, now, None, BREAK_EVERY)[0] if left > 0 else None
    return {"finish": finish, "minutes": left, "sources": sources, "timed": timed}
