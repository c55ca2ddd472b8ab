"""From a tap at the stall to a new total, and to a sale that is kept."""

from functools import partial

import pytest

from tests.benchmarks.noted import at_four, longest_frame, longest_task, movers, parts, shift
from tests.benchmarks.phone_at_work import Finger, PhoneAtWork, Timed, told
from tests.benchmarks.table import p95, row

pytestmark = pytest.mark.benchmark

BASKETS, PIECES = 20, 3
TOTAL_MS, KEPT_MS = 50, 50
TOTAL_TIMES, KEPT_TIMES = 1.5, 1.2
TILES = """[...document.querySelectorAll('[data-product]')].map(
    (tile) => `[data-product="${tile.dataset.product}"]`)"""
FILLED = ":not([data-value=''])"
PHONES = {"10,000 sales": "stall", "10,000 sales, never paired": "lone_stall"}


@pytest.fixture(scope="module", params=PHONES)
def sold(request, playwright):
    """Baskets of three tapped and paid: (phone, totals, kept, what was noted), times as (painted, core's)."""
    with PhoneAtWork(playwright, *request.getfixturevalue(PHONES[request.param])) as phone:
        page = phone.open("/sell", "[data-left]")
        return request.param, *sell(page, page.evaluate(TILES)), told(page)


@pytest.fixture(scope="module")
def empty(playwright, empty_page):
    """The p95 of the empty page, which counts taps and keeps the count: (totals, kept)."""
    with PhoneAtWork(playwright, *empty_page) as phone:
        answers = sell(phone.open("/", f"[data-output='echo']{FILLED}"), ["[data-product]"])
    return [p95([painted for painted, _ in some]) for some in answers]


def sell(page, tiles):
    """Tap and pay baskets; returns (totals, kept), each answer as (ms to its paint, the core's own)."""
    timed, finger, totals, kept = Timed(page, "timeTaps"), Finger(page), [], []
    for basket in range(BASKETS):
        for piece in range(PIECES):
            totals.append(timed.answer_to(partial(finger.tap, tiles[(basket + piece) % len(tiles)])))
        kept.append(timed.answer_to(partial(finger.tap, "[data-pay=cash]")))
    return totals, kept


def test_a_total_follows_the_tap(sold, empty, keep):
    phone, totals, _, _ = sold
    what = f"selling, {phone}: tap to total painted, worker × 4, ms"
    keep(row(what, at_four(totals), TOTAL_MS, "p95", empty[0], parts(totals), TOTAL_TIMES))


def test_a_sale_is_soon_kept(sold, empty, keep):
    phone, _, kept, _ = sold
    what = f"selling, {phone}: pay to shown as kept, worker × 4, ms"
    keep(row(what, at_four(kept), KEPT_MS, "p95", empty[1], parts(kept), KEPT_TIMES))


def test_selling_holds_nothing_up(sold, longest_task_allowed, keep):
    phone, _, _, noted = sold
    longest, limits = [longest_task(noted)], longest_frame(noted)
    keep(row(f"selling, {phone}: longest task, ms", longest, longest_task_allowed, limits=limits))


def test_selling_moves_nothing(sold, keep):
    phone, _, _, noted = sold
    moved = [shift(noted, after_input=False)]
    keep(row(f"selling, {phone}: layout shift", moved, 0, limits=movers(noted)))
