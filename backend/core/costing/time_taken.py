"""The time in pieces: laps of their batches, what an hour is paid, and what is paid whatever is sewn."""

from ..declaring.errors import note
from ..making.paces import minutes_of, paces_of
from ..numbers.calendar import day_of, number_of
from ..numbers.ordering import in_order
from ..numbers.rounding import half_up
from .pieces_made import lines_made

DAYS_OF_YEAR = 365
# overheads are shared by the hours worked in so many days at least: fewer say little of a year
FEWEST_DAYS = 28


def time_taken(recorded, mine, day):
    """Add up the minutes in the pieces that are mine, and what an hour of them costs.

    A disturbed lap counts at the pace of the others of its step in its batch. A batch's time is
    shared by the pieces made in it; pieces of batches that nobody timed take as long as the others.
    The wage is the mean over the minutes, each at what that person was paid that day.
    Takes: mine, as `mine_among` tells; day, the day of the asking.
    Returns: ({"minutes", "wage", "overheads", "steps": [{"batch", "step", "person", "day",
    "minutes", "laps", "disturbed"}]}, notes): steps whole, before they are shared.
    """
    steps, shares = _steps(recorded), _shares(lines_made(recorded), mine)
    of_batch = {batch: [] for batch, _, _ in shares}
    for step in steps:
        if step["batch"] in of_batch:
            of_batch[step["batch"]].append(step)
    minutes = pay = 0.0
    timed = made = unpaid = 0
    for batch, pieces, share in shares:
        ours = of_batch[batch]
        made += pieces
        timed += pieces if ours else 0
        for step in ours:
            minutes += step["minutes"] * share
            wage = wage_of(recorded, step["person"], step["day"])
            unpaid += 1 if wage is None else 0
            pay += step["minutes"] * share * (wage or 0)
    told = {
        "minutes": minutes * made / timed if timed else 0.0,
        "wage": half_up(pay / minutes) if minutes else 0,
        "overheads": recorded.once(("overheads", day), lambda: _overheads(recorded, steps, day)),
        "steps": [step for batch, _, _ in shares for step in of_batch[batch]],
    }
    notes = []
    if not timed:
        notes.append(note("", "never_timed"))
    elif timed < made:
        notes.append(note("", "made_without_laps", made - timed, made, "count"))
    if unpaid:
        notes.append(note("", "no_wage"))
    return told, notes


def wage_of(recorded, person, day):
    """Tell what an hour of somebody is paid on a day: their own wage, else everybody's; None without one.

    Before the first that was set, that one holds.
    """
    for whose in (person, None):
        chosen = None
        for fact in in_order(recorded.of("wage-set"), lambda fact: fact["from"]):
            if fact["person"] == whose and (chosen is None or fact["from"] <= day):
                chosen = fact["wage"]
        if chosen is not None:
            return chosen
    return None


def minutes_worked(recorded, earliest, before):
    """Add up the minutes of laps from one day up to, and without, another: what was spent sewing.

    A disturbed lap counts at the pace of the others of its step in its batch.
    Returns: (minutes, the first day of them), (0.0, None) without any.
    """
    minutes, first = 0.0, None
    for step in _steps(recorded):
        if step["laps"] and earliest <= step["day"] < before:
            minutes += step["minutes"]
            first = step["day"] if first is None else min(first, step["day"])
    return minutes, first


def _steps(recorded):
    # work with its minutes: laps step by step, and time that was written down for a batch
    return recorded.once("steps and times", lambda: _steps_of(recorded))


def _steps_of(recorded):
    told = []
    for fact in recorded.of("batch-step"):
        told.append({
            "id": fact["id"],
            "batch": fact["batch"],
            "step": fact["step"],
            "person": fact["person"],
            "day": fact["day"],
            "minutes": 0.0,
            "laps": fact["laps"],
            "disturbed": len([lap for lap in fact["laps"] if lap.get("disturbed")]),
        })  # fmt: skip
    paces = paces_of(told)
    for step in told:
        step["minutes"] = minutes_of(step["laps"], paces[(step["batch"], step["step"])])
    for fact in recorded.of("work-time"):
        told.append({
            "id": fact["id"],
            "batch": fact["batch"],
            "step": fact["what"],
            "person": fact["person"],
            "day": fact["day"],
            "minutes": fact["minutes"],
            "laps": [],
            "disturbed": 0,
        })  # fmt: skip
    return told


def _shares(lines, mine):
    # [(batch, pieces made of it that are mine, their share of all made in it)], the first first
    batches, counts = [], {}
    for line in lines:
        pieces, made = counts.get(line["batch"], (0, 0))
        ours = line["made"] if line["line"] in mine else 0
        if ours and not pieces:
            batches.append(line["batch"])
        counts[line["batch"]] = (pieces + ours, made + line["made"])
    return [(batch, counts[batch][0], counts[batch][0] / counts[batch][1]) for batch in batches]


def _overheads(recorded, steps, day):
    # minor units an hour: what ran in the days that were worked, by the hours of them
    last = number_of(day)
    earliest = day_of(max(1, last - DAYS_OF_YEAR))
    worked = [step for step in steps if earliest < step["day"] <= day]
    if not worked:
        return 0
    first = day
    for step in worked:
        first = min(first, step["day"])
    days = max(last - number_of(first) + 1, FEWEST_DAYS)
    minutes = amount = 0.0
    for step in worked:
        minutes += step["minutes"]
    for id in recorded.ids("overhead"):
        overhead = recorded.record("overhead", id)
        if not overhead["archived"] and (overhead["from"] or day) <= day <= (overhead["to"] or day):
            a_year = overhead["amount"] * (12 if overhead["per"] == "month" else 1)
            amount += a_year * days / DAYS_OF_YEAR
    return half_up(60 * amount / minutes)
