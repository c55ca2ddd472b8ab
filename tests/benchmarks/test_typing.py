"""From a key to its answer on the screen."""

import statistics

import pytest

from tests.benchmarks.noted import longest_frame, longest_task, movers, shift
from tests.benchmarks.phone_at_work import THROTTLE, PhoneAtWork, Typing, told
from tests.benchmarks.table import p95, row

pytestmark = pytest.mark.benchmark

STROKES = 60
ANSWER_MS, TASK_MS = 100, 200
FILLED = ":not([data-value=''])"
# where, what is filled once it is open, and a field with a text and the character typed behind it
FORMS = {
    "strip-length": ("/buy/strip-length", "strip_length", "fullness", "2.8", "5"),
    "elastic-cut-length": ("/buy/elastic-cut-length", "cut_length", "loop", "165.1", "5"),
    "fabric-per-dozen": ("/buy/fabric-per-dozen", "cost_each", "quantity", "60", "0"),
    "cloth-compare": ("/buy/cloth-compare", "ranking", "quantity", "60", "0"),
    "remnant-yield": ("/buy/remnant-yield", "waste", "length", "70.1", "5"),
    "safe-cutting-checklist": ("/make/safe-cutting-checklist", "allowed", "minutes", "30", "0"),
}


@pytest.fixture(scope="module")
def empty(playwright, empty_page):
    """The p95 of the empty page, which only repeats what is typed."""
    with PhoneAtWork(playwright, *empty_page) as phone:
        painted, _ = Typing(phone.open("/", f"[data-output='echo']{FILLED}"), "typed", "1", "0").strokes(
            STROKES
        )
    return p95(painted)


@pytest.fixture(scope="module", params=FORMS)
def typed(request, playwright, boltfair):
    """One form typed into: (calculator, ms to each paint, ms of the core in each, what was noted)."""
    path, output, field, text, stroke = FORMS[request.param]
    with PhoneAtWork(playwright, *boltfair) as phone:
        page = phone.open(path, f"[data-output='{output}']{FILLED}")
        painted, core = Typing(page, field, text, stroke).strokes(STROKES)
        return request.param, painted, core, told(page)


def test_an_answer_follows_the_typing(typed, empty, keep):
    calculator, painted, core, _ = typed
    assert len(core) == len(painted)
    answers = [page + (THROTTLE - 1) * own for page, own in zip(painted, core, strict=True)]
    page, own = statistics.median(painted) - statistics.median(core), statistics.median(core)
    limits = f"page {page:.0f}, core {own:.1f} × {THROTTLE}"
    keep(
        row(f"typing, {calculator}: answer painted, worker × 4, ms", answers, ANSWER_MS, "p95", empty, limits)
    )


def test_typing_holds_nothing_up(typed, keep):
    calculator, _, _, noted = typed
    longest, limits = [longest_task(noted)], longest_frame(noted)
    keep(row(f"typing, {calculator}: longest task, ms", longest, TASK_MS, limits=limits))


def test_typing_moves_nothing(typed, keep):
    calculator, _, _, noted = typed
    moved, soon = shift(noted, after_input=False), shift(noted)
    limits = f"{soon:.3f} with what follows an input within 500 ms: {movers(noted)}" if soon else ""
    keep(row(f"typing, {calculator}: layout shift", [moved], 0, limits=limits))
