"""The cash-up of a box for a day: its facts gathered, and what `cash-up` makes of them."""

from ..catalogue import answer_of_facts
from ..counting.keys import moment_of
from ..numbers.ordering import in_order
from ..records.kinds import CASH_PARTS
from ..records.reader import READERS, cash_part, stands
from ..selling.cash_ways import USUAL
from .known import known_facts

# money moved by itself, and which way it went
DIRECTIONS = {"paid_in": "paid in", "taken_out": "taken out"}


def cash_up_of(facts, voids, day, box, usual_float, counted):
    """Tell what a cash box should hold on a day, and how what was counted differs.

    Of the day and box all facts count, whichever phone they are from. The float
    is the last one counted that day, else the usual one. Without a count
    given, the last one kept is told, against what the box held when it was made.
    Takes: facts of the day, in any order; voids, {fact: true}; usual_float, minor
    units; counted, [{"value", "count"}], None for what was kept.
    Returns: {"box", "float_counted", "float", "cash_sales", "cash_refunds",
    "paid_in", "taken_out", "movements": [{"id", "at", "direction", "amount",
    "reason"}], "expected", "counted": [{"value", "count", "total"}], the largest first,
    "counted_total", "difference", "kept": {"id", "at", "reason"}, "since", "notes"}:
    minor units; counted_total and difference are None where nothing is counted,
    kept where no count is; since is what came in or went out after it.
    Facts that cannot be read are set aside. Raises: Problems as `cash-up` does.
    """
    ours = [fact for fact in known_facts(facts) if fact["day"] == day and fact.get("box") == box]
    ours = in_order([fact for fact in ours if stands(fact, voids)], moment_of)
    kept = _last_count(ours, "cash-up") if counted is None else None
    until = [fact for fact in ours if kept is None or moment_of(fact) <= moment_of(kept)]
    # a float that was written down later was there at the start all the same
    started = _last_count(ours, "float")
    given = _gathered(until, started["amount"] if started else usual_float)
    rows = (_rows_of(kept) if kept else []) if counted is None else counted
    given["counted"] = in_order(rows, lambda row: -row["value"])
    told = answer_of_facts("cash-up", given)
    given.update(told["result"])
    given.update({
        "box": box,
        "float_counted": started is not None,
        "movements": [_movement(fact) for fact in ours if cash_part(fact) in DIRECTIONS],
        "kept": {"id": kept["id"], "at": kept["at"], "reason": kept.get("reason") or ""} if kept else None,
        "since": _more(ours, until),
        "notes": told["notes"],
    })  # fmt: skip
    if kept is None and counted is None:
        given["counted_total"] = given["difference"] = None
    return given


def denominations_of(denominations):
    """List the notes and coins to count, the largest first; the usual ones where none are declared.

    Example: denominations_of([5, 200, 50]) == [200, 50, 5]
    """
    values = []
    for value in denominations or USUAL:
        if value not in values:
            values.append(value)
    return in_order(values, lambda value: -value)


def _last_count(facts, moment):
    counts = [fact for fact in facts if READERS[fact["kind"]].counts == "cash" and fact["moment"] == moment]
    return counts[-1] if counts else None


def _gathered(facts, started):
    given = {"float": started}
    given.update({name: 0 for name in CASH_PARTS})
    for fact in facts:
        name = cash_part(fact)
        if name:
            given[name] += fact["amount"]
    return given


def _more(ours, until):
    # what came in less what went out, of those that are not in until
    given, more = _gathered(ours[len(until) :], 0), 0
    for name in CASH_PARTS:
        more += CASH_PARTS[name] * given[name]
    return more


def _rows_of(kept):
    # one kept without its notes and coins is one amount
    if kept.get("counted") or not kept["amount"]:
        return kept.get("counted") or []
    return [{"value": kept["amount"], "count": 1}]


def _movement(fact):
    return {
        "id": fact["id"],
        "at": fact["at"],
        "direction": DIRECTIONS[cash_part(fact)],
        "amount": fact["amount"],
        "reason": fact.get("reason") or fact.get("what") or "",
    }
