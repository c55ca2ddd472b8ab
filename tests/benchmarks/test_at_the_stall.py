"""From a tap at the stall to a new total, and to a sale that is kept."""

import pytest

from tests.benchmarks.noted import at_four, longest_frame, longest_task, movers, parts, shift
from tests.benchmarks.phone_at_work import PhoneAtWork, Timed, told
from tests.benchmarks.table import row

pytestmark = pytest.mark.benchmark

BASKETS, PIECES = 20, 3
TOTAL_MS, KEPT_MS, TASK_MS = 50, 50, 200
PHONES = {"10,000 sales": "stall", "10,000 sales, never paired": "lone_stall"}


@pytest.fixture(scope="module", params=PHONES)
def sold(request, playwright):
    """Baskets of three tapped and paid: (phone, totals, kept, what was noted), times as (painted, core's)."""
    with PhoneAtWork(playwright, *request.getfixturevalue(PHONES[request.param])) as phone:
        page = phone.open("/sell", "[data-left]")
        tiles = page.locator("[data-product]").all()
        timed, totals, kept = Timed(page, "timeTaps"), [], []
        for basket in range(BASKETS):
            for piece in range(PIECES):
                tiles[(basket + piece) % len(tiles)].tap()
                totals.append(timed.answer())
            page.locator("[data-pay=cash]").first.tap()
            kept.append(timed.answer())
        return request.param, totals, kept, told(page)


def test_a_total_follows_the_tap(sold, keep):
    phone, totals, _, _ = sold
    what = f"selling, {phone}: tap to total painted, worker × 4, ms"
    keep(row(what, at_four(totals), TOTAL_MS, "p95", limits=parts(totals)))


def test_a_sale_is_soon_kept(sold, keep):
    phone, _, kept, _ = sold
    what = f"selling, {phone}: pay to shown as kept, worker × 4, ms"
    keep(row(what, at_four(kept), KEPT_MS, "p95", limits=parts(kept)))


def test_selling_holds_nothing_up(sold, keep):
    phone, _, _, noted = sold
    keep(
        row(
            f"selling, {phone}: longest task, ms", [longest_task(noted)], TASK_MS, limits=longest_frame(noted)
        )
    )


def test_selling_moves_nothing(sold, keep):
    phone, _, _, noted = sold
    moved = [shift(noted, after_input=False)]
    keep(row(f"selling, {phone}: layout shift", moved, 0, limits=movers(noted)))
