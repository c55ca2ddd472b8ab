"""cutting-layout's steps: whatever the search is at, a step is about as much work as another."""

import sys

import pytest

from backend.core.cutting import cutting_layout
from backend.core.cutting.rows.branch_and_bound import BranchAndBound
from backend.core.declaring.reading import read

STEPS = 15000
MOST_TIMES = 4  # what a phase's step may be of a step on the whole


def hard_plan(nap=False, quantity=135):
    """Many sizes that differ evenly, of one cloth: what the search is longest about."""
    strips = [
        {"name": f"strip {k}", "length": 203 + 47 * k, "width": 41 + 13 * k, "quantity": quantity}
        for k in range(12)
    ]
    return {"cloths": [{"name": "bolt", "width": 1400, "nap": nap}], "strips": strips}


def calls_of(work):
    """Count the calls that a piece of work makes, of functions and of what is built in."""
    count = 0

    def seen(frame, event, given):
        nonlocal count
        count += event in ("call", "c_call")

    sys.setprofile(seen)
    try:
        work()
    finally:
        sys.setprofile(None)
    return count


@pytest.mark.parametrize("plan", [hard_plan(), hard_plan(nap=True), hard_plan(quantity=3)])
def test_no_phase_of_the_search_works_for_nothing(plan, monkeypatch):
    # to begin a node and to branch were once counted as one step each, at the work of thirty to a hundred
    calls, efforts, step = {}, {}, BranchAndBound.step

    def counted(search):
        phase, before = search.work.__name__, search.effort
        calls[phase] = calls.get(phase, 0) + calls_of(lambda: step(search))
        efforts[phase] = efforts.get(phase, 0) + search.effort - before

    monkeypatch.setattr(BranchAndBound, "step", counted)
    cutting_layout.advance(cutting_layout.start(read(cutting_layout.INPUTS, plan)), STEPS)
    on_the_whole = sum(calls.values()) / sum(efforts.values())
    apart = {phase: calls[phase] / efforts[phase] / on_the_whole for phase in calls}
    assert all(times <= MOST_TIMES for times in apart.values()), apart
