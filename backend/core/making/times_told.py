"""The minutes in a piece, step by step and method by method, from laps; and which method takes least."""

from ..catalogue import answer_of_facts
from ..declaring.spec import by_name
from ..numbers.calendar import MINUTE_MS
from ..records.recorded import Recorded
from .batch_time import MOST_LAPS
from .method_compare import INPUTS as COMPARED
from .method_compare import METHOD
from .paces import minutes_of, paces_of
from .usual_steps import ALLOWANCE, usual_steps

ROWS = by_name(METHOD)["rows"].most
MOST_METHODS = by_name(COMPARED)["methods"].most


def times_of_methods(facts, records):
    """Tell what each step of each method takes, and compare the methods.

    A disturbed lap is no observation of its step, and counts at the pace of the others in a batch.
    What batch-time leaves out is no part of a spread. A batch is a sitting of its method where every
    step of it has laps and a result stands.
    Takes: facts, laps, results and what voids them, in any order, others passing by; records, {kind:
    {id: fields}} of methods and batches.
    Returns: {"methods": [{"method" (None for batches without one), "name", "batches", "sittings",
    "piece_minutes" (None until each step has a lap), "steps": [{"name", "per", "laps", "disturbed",
    "observed", "least", "most", "precision", "needed", "left_out"}]}], those with laps, "compared": as
    method-compare tells of those with sittings, None of fewer than two}. Minutes are of one piece,
    or of once where a step is done for something else; observed None without laps.
    """
    recorded = Recorded(facts, records)
    batches = _batches(recorded)
    methods = []
    for id in recorded.ids("method") + [None]:
        ours = [batch for batch in batches if batch["method"] == id]
        if [batch for batch in ours if batch["laps"]]:
            methods.append(_method(recorded, id, ours))
    return {"methods": [_without_rows(method) for method in methods], "compared": _compared(methods)}


def _batches(recorded):
    # batches with what was timed and what came of them, the earliest first
    told, known = [], {}
    for id in recorded.ids("batch"):
        method = recorded.record("batch", id)["method"]
        known[id] = {"method": method if recorded.record("method", method) else None, "laps": []}
        known[id].update({"minutes": 0.0, "made": 0, "good": 0})
        told.append(known[id])
    paces = paces_of(recorded.of("batch-step"))
    for fact in recorded.of("batch-step"):
        if fact["batch"] in known:
            pace = paces[(fact["batch"], fact["step"])]
            known[fact["batch"]]["minutes"] += minutes_of(fact["laps"], pace)
            known[fact["batch"]]["laps"] += [_lap(fact["step"], lap) for lap in fact["laps"]]
    for fact in recorded.of("batch-result"):
        if fact["batch"] in known:
            for line in fact["lines"]:
                known[fact["batch"]]["made"] += line["made"]
                known[fact["batch"]]["good"] += line["good"]
    return told


def _lap(step, lap):
    disturbed = lap.get("disturbed") or not lap["pieces"]
    row = {"step": step, "pieces": lap["pieces"], "minutes": lap["took_ms"] / MINUTE_MS}
    row["disturbed"] = True if disturbed else False
    return row


def _method(recorded, id, batches):
    record = recorded.record("method", id)
    laps = [lap for batch in batches for lap in batch["laps"]]
    steps = [_step(step, laps) for step in _steps_of(record, laps)]
    timed = [step for step in steps if step["observed"] is not None]
    rows = [_sitting(batch, steps) for batch in batches]
    rows = [row for row in rows if row][-ROWS:]
    return {
        "method": id,
        "name": record["name"] if record else "",
        "batches": len([batch for batch in batches if batch["laps"]]),
        "sittings": len(rows),
        "piece_minutes": _piece_minutes(steps) if len(timed) == len(steps) else None,
        "steps": steps,
        "rows": rows,
    }


def _steps_of(record, laps):
    # those of the method, then what else was timed; without a method only what was
    seen = []
    for lap in laps:
        if lap["step"] not in seen:
            seen.append(lap["step"])
    steps = record["steps"] if record else [step for step in usual_steps() if step["name"] in seen]
    named = [step["name"] for step in steps]
    return steps + [{"name": name, "per": "piece"} for name in seen if name not in named]


def _step(step, laps):
    ours = [lap for lap in laps if lap["step"] == step["name"]]
    counted = [lap for lap in ours if not lap["disturbed"]][-MOST_LAPS:]
    told = {"name": step["name"], "per": step["per"], "laps": len(counted), "observed": None}
    told.update({"disturbed": len(ours) - len([lap for lap in ours if not lap["disturbed"]])})
    told.update({"least": None, "most": None, "precision": None, "needed": None, "left_out": 0, "row": None})
    if counted:
        observed = [{"minutes": lap["minutes"], "pieces": lap["pieces"]} for lap in counted]
        told["row"] = {"name": step["name"], "per": step["per"], "observed": observed}
        told["row"]["allowance"] = step.get("allowance", ALLOWANCE)
        found = answer_of_facts("batch-time", {"steps": [told["row"]]})["result"]["steps"][0]
        told.update({name: found[name] for name in ("observed", "precision", "needed")})
        told["left_out"] = len(found["left_out"])
        each = [
            lap["minutes"] / lap["pieces"] for row, lap in enumerate(counted) if row not in found["left_out"]
        ]
        told["least"], told["most"] = min(each), max(each)
    return told


def _piece_minutes(steps):
    return answer_of_facts("batch-time", {"steps": [step["row"] for step in steps]})["result"][
        "piece_minutes"
    ]


def _sitting(batch, steps):
    timed = [lap["step"] for lap in batch["laps"]]
    if not batch["good"] or [step for step in steps if step["name"] not in timed]:
        return None
    return {name: batch[name] for name in ("minutes", "made", "good")}


def _compared(methods):
    found = [method for method in methods if method["rows"]]
    if len(found) < 2:
        return None
    asked = [{"name": method["name"], "rows": method["rows"]} for method in found][:MOST_METHODS]
    return answer_of_facts("method-compare", {"methods": asked})["result"]


def _without_rows(method):
    steps = [{name: step[name] for name in step if name != "row"} for step in method["steps"]]
    told = {name: method[name] for name in method if name != "rows"}
    told["steps"] = steps
    return told
