"""The table of budgets: what was measured beside what is allowed."""

import math
import statistics
from collections import namedtuple

HEADS = ("what", "median", "p95", "budget", "empty page", "", "what limits it")

Row = namedtuple("Row", "what median p95 judged budget empty limits", defaults=(None, None, ""))


def row(what, values, budget=None, judge="median", empty=None, limits=""):
    """Sum up measured values; `judge` says whether their median or their p95 must keep the budget."""
    summed = {"median": statistics.median(values), "p95": p95(values)}
    return Row(what, summed["median"], summed["p95"], summed[judge], budget, empty, limits)


def p95(values):
    """Find the value that 95 % are not above (nearest rank)."""
    return sorted(values)[math.ceil(0.95 * len(values)) - 1]


def within(row):
    """Say whether a row keeps its budget; one without a budget does."""
    return row.budget is None or row.judged <= row.budget


def lines(rows):
    """Write rows as lines of equal columns."""
    cells = [HEADS] + [_cells(row) for row in rows]
    widths = [max(len(line[column]) for line in cells) for column in range(len(HEADS) - 1)]
    return [
        "  ".join(
            [*(text.ljust(width) for text, width in zip(line, widths, strict=False)), line[-1]]
        ).rstrip()
        for line in cells
    ]


def _cells(row):
    judgement = "" if row.budget is None else "kept" if within(row) else "MISSED"
    return row.what, *map(_number, row[1:3]), _number(row.budget), _number(row.empty), judgement, row.limits


def _number(value):
    if value is None:
        return "-"
    return f"{value:,.0f}" if value >= 10 or value == int(value) else f"{value:.3f}"
