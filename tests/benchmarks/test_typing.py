"""From a key to its answer on the screen."""

import pytest

from tests.benchmarks.noted import at_four, longest_frame, longest_task, movers, parts, shift
from tests.benchmarks.phone_at_work import PhoneAtWork, strokes, told
from tests.benchmarks.table import p95, row

pytestmark = pytest.mark.benchmark

STROKES = 60
ANSWER_MS = 100
ANSWER_TIMES = 5
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
        page = phone.open("/", f"[data-output='echo']{FILLED}")
        return p95([painted for painted, _ in strokes(page, "typed", "1", "0", STROKES)])


@pytest.fixture(scope="module", params=FORMS)
def typed(request, playwright, boltfair):
    """One form typed into: (calculator, (ms to its paint, the core's own) of each answer, what was noted)."""
    path, output, field, text, stroke = FORMS[request.param]
    with PhoneAtWork(playwright, *boltfair) as phone:
        page = phone.open(path, f"[data-output='{output}']{FILLED}")
        return request.param, strokes(page, field, text, stroke, STROKES), told(page)


def test_an_answer_follows_the_typing(typed, empty, keep):
    calculator, answers, _ = typed
    what = f"typing, {calculator}: answer painted, worker × 4, ms"
    keep(row(what, at_four(answers), ANSWER_MS, "p95", empty, parts(answers), ANSWER_TIMES))


def test_typing_holds_nothing_up(typed, longest_task_allowed, keep):
    calculator, _, noted = typed
    longest, limits = [longest_task(noted)], longest_frame(noted)
    keep(row(f"typing, {calculator}: longest task, ms", longest, longest_task_allowed, limits=limits))


def test_typing_moves_nothing(typed, keep):
    calculator, _, noted = typed
    moved, soon = shift(noted, after_input=False), shift(noted)
    limits = f"{soon:.3f} with what follows an input within 500 ms: {movers(noted)}" if soon else ""
    keep(row(f"typing, {calculator}: layout shift", [moved], 0, limits=limits))
