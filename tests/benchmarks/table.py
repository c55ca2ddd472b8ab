"""The tables: budgets, with what was measured beside what is allowed, and measurements without a limit."""

import math
import statistics
from collections import namedtuple

HEADS = ("what", "median", "p95", "budget", "empty page", "× empty", "at most", "", "what limits it")
HEADS_OF_MEASURED = ("what", "median", "p95", "of it")

Row = namedtuple("Row", "what median p95 judged budget empty limits times", defaults=(None, None, "", None))


def row(what, values, budget=None, judge="median", empty=None, limits="", times=None):
    """Sum up measured values; `judge` says whether their median or their p95 must keep the budget.

    Takes: times, how many times what the empty page takes it may be at most, beside the budget.
    """
    summed = {"median": statistics.median(values), "p95": p95(values)}
    return Row(what, summed["median"], summed["p95"], summed[judge], budget, empty, limits, times)


def p95(values):
    """Find the value that 95 % are not above (nearest rank)."""
    return sorted(values)[math.ceil(0.95 * len(values)) - 1]


def within(row):
    """Say whether a row keeps its budget, and its times of the empty page where it has such."""
    return row.judged <= row.budget and (row.times is None or row.judged <= row.times * row.empty)


def lines(rows):
    """Write budgets as lines of equal columns."""
    return _in_columns([HEADS] + [_cells(row) for row in rows])


def measured_lines(rows):
    """Write measurements as lines of equal columns."""
    cells = [(row.what, _number(row.median), _number(row.p95), row.limits) for row in rows]
    return _in_columns([HEADS_OF_MEASURED, *cells])


def _in_columns(cells):
    widths = [max(len(line[column]) for line in cells) for column in range(len(cells[0]) - 1)]
    return [
        "  ".join(
            [*(text.ljust(width) for text, width in zip(line, widths, strict=False)), line[-1]]
        ).rstrip()
        for line in cells
    ]


def _cells(row):
    judgement = "kept" if within(row) else "MISSED"
    ratio = f"{row.judged / row.empty:.2f}" if row.times else "-"
    numbers = [_number(value) for value in (row.median, row.p95, row.budget, row.empty)]
    return row.what, *numbers, ratio, str(row.times or "-"), judgement, row.limits


def _number(value):
    if value is None:
        return "-"
    return f"{value:,.0f}" if value >= 10 or value == int(value) else f"{value:.3f}"
