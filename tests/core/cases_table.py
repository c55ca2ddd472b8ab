"""The tables of cases, tests/core/cases/*.json: one table for every place that runs the core.

A case is {"name", "source", "input"} with "output" (a part of the result) and
perhaps "notes" (the rules of all its notes), or with "errors" (the rule for
each bad field, and no others).
"""

import json
from pathlib import Path

CASES = Path(__file__).parent / "cases"
CLOSE = 1e-9


def load_cases():
    """Read every table: a list of (calculator's name, case)."""
    return [
        (table.stem, case)
        for table in sorted(CASES.glob("*.json"))
        for case in json.loads(table.read_text(encoding="utf-8"))
    ]


def check(case, told):
    """Assert that what a calculator told is what the case says.

    Takes: told, {"result", "notes"} for an answer or {"problems": [...]} for
    bad input, as the API and the bridge give them.
    """
    problems = {item["field"]: item["rule"] for item in told.get("problems", [])}
    assert problems == case.get("errors", {}), case["name"]
    if "output" in case:
        _check_part(told["result"], case["output"], case["name"])
    if "notes" in case:
        assert sorted(note["rule"] for note in told["notes"]) == sorted(case["notes"]), case["name"]


def _check_part(found, wanted, path):
    if isinstance(wanted, dict):
        assert isinstance(found, dict), path
        for name, value in wanted.items():
            assert name in found, f"{path}: no {name}"
            _check_part(found[name], value, f"{path}: {name}")
    elif isinstance(wanted, list):
        assert len(found) == len(wanted), f"{path}: {found}"
        for index, value in enumerate(wanted):
            _check_part(found[index], value, f"{path}.{index}")
    elif isinstance(wanted, bool) or not isinstance(wanted, int | float):
        assert found == wanted and type(found) is type(wanted), f"{path}: {found}, not {wanted}"
    else:
        close = abs(found - wanted) <= CLOSE * max(1.0, abs(wanted))
        assert close and not isinstance(found, bool), f"{path}: {found}, not {wanted}"
