"""A cold start: the browser just started, no network, the server dead."""

import statistics

import pytest

from tests.benchmarks.conftest import STARTS
from tests.benchmarks.noted import (
    at_four_times,
    core_up,
    first_paints,
    longest_frame,
    longest_task,
    movers,
    shift,
    waited,
)
from tests.benchmarks.phone_at_work import cold_start, leave_at
from tests.benchmarks.table import row

pytestmark = pytest.mark.benchmark

FIRST_PAINT_MS, USABLE_MS = 500, 1000
USABLE_TIMES = 2.5
FILLED = ":not([data-value=''])"
# where it is left, and what shows that it can be used again
SCREENS = {
    "Buy": ("/buy", "[data-list-lines] li:last-child strong.number"),
    "cloth to buy": ("/buy/fabric-per-dozen", f"[data-output='cost_each']{FILLED}"),
    "checklist": ("/make/safe-cutting-checklist", f"[data-output='allowed']{FILLED}"),
    "Sell with 10,000 sales": ("/sell", ".sell-tile"),
    "Sell with 10,000 sales, never paired": ("/sell", ".sell-tile"),
}
PHONES = {"Sell with 10,000 sales": "stall", "Sell with 10,000 sales, never paired": "lone_stall"}


@pytest.fixture(scope="module", params=SCREENS)
def screen(request):
    """A screen by name."""
    return request.param


@pytest.fixture(scope="module")
def starts(request, playwright, screen):
    """What was noted in each of many cold starts, as a tap on the app's icon makes them.

    It opens where it was left: on one screen, with what was typed and answered there.
    """
    path, usable = SCREENS[screen]
    phone = request.getfixturevalue(PHONES.get(screen, "boltfair"))
    leave_at(playwright, *phone, path, usable)
    return [cold_start(playwright, *phone, "/", usable) for _ in range(STARTS)]


def test_something_is_painted_at_once(screen, starts, empty_starts, keep):
    paints, empty = first_paints(starts), statistics.median(first_paints(empty_starts))
    limits = f"as measured {statistics.median(start['paint'][0] for start in starts):.0f}"
    keep(row(f"cold start, {screen}: first paint, ms", paints, FIRST_PAINT_MS, empty=empty, limits=limits))


def test_a_screen_is_soon_usable(screen, starts, empty_starts, keep):
    usable, empty = usables(starts), statistics.median(usables(empty_starts))
    what = f"cold start, {screen}: usable, ms"
    keep(row(what, usable, USABLE_MS, empty=empty, limits=parts(starts), times=USABLE_TIMES))


def test_how_soon_the_core_is_up(screen, starts, tell):
    up = list(map(core_up, starts))
    limits = "its worker starts first and loads meanwhile; until then the answers of last time stand"
    tell(row(f"cold start, {screen}: core up, worker × 4, ms", up, limits=limits))


def test_nothing_moves_while_it_opens(screen, starts, empty_starts, keep):
    moved, empty = list(map(shift, starts)), max(map(shift, empty_starts))
    keep(row(f"cold start, {screen}: layout shift", moved, 0, "p95", empty, movers(starts[0])))


def test_no_task_holds_the_page_up_while_it_opens(screen, starts, empty_starts, longest_task_allowed, keep):
    longest, empty = list(map(longest_task, starts)), max(map(longest_task, empty_starts))
    limits = longest_frame(*starts)
    keep(row(f"cold start, {screen}: longest task, ms", longest, longest_task_allowed, "p95", empty, limits))


def usables(starts):
    return [at_four_times(start, start["usable"]) for start in starts]


def parts(starts):
    """Say what a start consists of, in medians of what was measured."""

    def median(of):
        return f"{statistics.median(of(start) for start in starts):.0f}"

    run, usable = median(lambda start: start["pageRuns"]), median(lambda start: start["usable"])
    core = median(lambda start: waited(start, start["usable"], service_worker=False))
    waits = median(lambda start: waited(start, start["usable"]))
    return (
        f"as measured: scripts run at {run}, usable at {usable}, waits for workers {waits}, the core's {core}"
    )
