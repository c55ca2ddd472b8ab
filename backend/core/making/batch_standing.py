"""Where a batch stands: how many pieces each step is done with, by whoever did it."""

from ..numbers.ordering import in_order
from ..records.reader import once, readable
from ..records.uses import SHOWN
from .usual_steps import usual_steps

LAPS_OF = "batch-step"


def batch_standing(batch, method_steps, laps):
    """Add up the laps of a batch, step by step; laps of several phones add up.

    A step that is not done for each piece is done once; one for each refill of
    thread as often as it comes, so nothing of it is ever left.
    Takes: batch, {"lines": [{"quantity"}]}; method_steps, [{"name", "per",
    "machine", "allowance"}], the usual ones where there are none; laps, [{"id",
    "kind", "at", "step", "person", "laps": [{"pieces", "took_ms", "disturbed"}]}],
    facts that stand, in any order.
    Returns: {"pieces"; "steps": [{"name", "per", "of", "done", "left"}], of None
    where nobody knows how often; "next", the number of the first step with
    something left, None where all is done; "sewn", pieces that every step is
    done with; "begun", pieces that some step is done with; "beside": [{"name", "done"}], of steps
    that laps name and the method has not; "laps": [{"id", "at", "step", "person", "pieces", "took_ms",
    "disturbed"}], the latest first; "people": [{"person", "took_ms"}]}.
    """
    pieces = batch_pieces(batch)
    steps = method_steps or usual_steps()
    told = laps_in_order(laps)
    rows = [_step_row(step, pieces, told) for step in steps]
    beside = _beside(rows, told)
    left = [number for number in range(len(rows)) if rows[number]["left"]]
    told.reverse()
    return {
        "pieces": pieces,
        "steps": rows,
        "next": left[0] if left else None,
        "sewn": _sewn(rows, pieces),
        "begun": max(
            [row["done"] for row in rows if row["per"] == "piece"] + [row["done"] for row in beside] + [0]
        ),
        "beside": beside,
        "laps": told,
        "people": _people(told),
    }


def batch_pieces(batch):
    """Count the pieces of a batch.

    Example: batch_pieces({"lines": [{"quantity": 30}, {"quantity": 18}]}) == 48
    """
    pieces = 0
    for line in batch.get("lines") or []:
        pieces += line["quantity"]
    return pieces


def laps_in_order(facts):
    """List the laps of facts, the earliest first, with what each fact says of its own.

    What cannot be read is set aside.
    """
    known = [fact for fact in once(readable(facts, SHOWN)) if fact["kind"] == LAPS_OF]
    return [
        {
            "id": fact["id"],
            "at": fact["at"],
            "step": fact["step"],
            "person": fact.get("person"),
            "pieces": lap["pieces"],
            "took_ms": lap["took_ms"],
            "disturbed": lap.get("disturbed") is True,
        }
        for fact in in_order(known, lambda fact: (fact["at"], fact["id"]))
        for lap in fact["laps"]
    ]


def _step_row(step, pieces, laps):
    done = 0
    for lap in laps:
        if lap["step"] == step["name"]:
            done += lap["pieces"]
    of = {"piece": pieces, "thread": None}.get(step["per"], 1)
    left = 0 if of is None else max(0, of - done)
    return {"name": step["name"], "per": step["per"], "of": of, "done": done, "left": left}


def _beside(rows, laps):
    names, done = [row["name"] for row in rows], {}
    for lap in laps:
        if lap["step"] not in names:
            done[lap["step"]] = done.get(lap["step"], 0) + lap["pieces"]
    return [{"name": name, "done": done[name]} for name in in_order(list(done), lambda name: name)]


def _sewn(rows, pieces):
    for row in rows:
        if row["per"] == "piece":
            pieces = min(pieces, row["done"])
    return pieces


def _people(laps):
    took = {}
    for lap in laps:
        took[lap["person"]] = took.get(lap["person"], 0) + lap["took_ms"]
    names = in_order(list(took), lambda name: name or "")
    return [{"person": name, "took_ms": took[name]} for name in names]
