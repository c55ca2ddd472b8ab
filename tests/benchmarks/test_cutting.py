"""How good layouts are and how soon they are there: against a maker's own way, and a general solver."""

import math
import statistics
import time

import pytest

from backend.core.catalogue import answer
from tests.benchmarks.phone_at_work import MEASURING_WORKER, THROTTLE, PhoneAtWork
from tests.benchmarks.table import row
from tests.core.cutting.level_model import least_bolt_length
from tests.core.cutting.plan_checker import check_plan
from tests.core.cutting.plans import realistic_plan

pytestmark = pytest.mark.benchmark

PLANS = 200
MOST_UNPROVEN, WORST_GAP = 5, 3
# plans laid with three stages too, in a part of the steps
STACKED, STEPS_STACKED = 40, 100000
# plans solved by both, and how long the solver may take
COMPARED, SOLVER_SECONDS = 15, 10
TYPICAL = 20
FIRST_MS, PROVEN_MS = 500, 3000
# when a plan is given up, before the worker's time is taken four times
MOST_MS = 3000

# as the app itself does, a slice at a time
ON_THE_PHONE = """async ([given, most]) => {
  const { search } = await import('/data/searching.js');
  const began = performance.now();
  const stopped = () => performance.now() - began > most;
  let first, told;
  await search('cutting-layout', given, (now) => {
    first ??= performance.now() - began;
    told = now;
  }, stopped);
  return { first, all: performance.now() - began, optimal: told.result.optimal, gap: told.result.gap };
}"""
# in the core's worker: memory never shrinks, and each text read out of it tells how large it is
WATCH_MEMORY = """() => {
  const decode = TextDecoder.prototype.decode;
  self.memory = 0;
  TextDecoder.prototype.decode = function (bytes, ...more) {
    self.memory = Math.max(self.memory, bytes?.buffer?.byteLength ?? 0);
    return decode.call(this, bytes, ...more);
  };
}"""


@pytest.fixture(scope="module")
def laid():
    """Each plan with its layout and the seconds it took; every one passes the checker."""
    found = []
    for number in range(PLANS):
        plan = realistic_plan(number)
        began = time.perf_counter()
        result = answer("cutting-layout", plan)["result"]
        found.append((plan, result, time.perf_counter() - began))
        check_plan(plan, result)
    return found


def by_hand(plan):
    """Work out the bolt a maker takes who cuts each size in its own rows, across, from the bolt alone."""
    bolt = plan["cloths"][0]
    width = bolt["width"] * (1 - bolt["shrink_width"] / 100) - 2 * bolt["selvedge"]
    rows = 0
    for strip in plan["strips"]:
        rows += math.ceil(strip["quantity"] / (width // strip["length"])) * strip["width"]
    return (rows + bolt["squaring"]) / (1 - bolt["shrink_length"] / 100)


def test_nearly_all_layouts_are_proven(laid, keep):
    unproven = 100 * sum(not result["optimal"] for _, result, _ in laid) / len(laid)
    to_buy = 100 * sum(not result["optimal_to_buy"] for _, result, _ in laid) / len(laid)
    limits = f"{to_buy:.1f} not proven to buy least"
    keep(row(f"cutting, {PLANS} plans: not proven, %", [unproven], MOST_UNPROVEN, limits=limits))


def test_no_gap_is_wide(laid, keep):
    gaps = [result["gap"] for _, result, _ in laid]
    limits = f"median {statistics.median(gaps):.3f}, p95 {sorted(gaps)[int(0.95 * len(gaps))]:.3f}"
    keep(row("cutting: widest gap, %", [max(gaps)], WORST_GAP, limits=limits))


def test_cloth_is_saved(laid, tell):
    hand = [by_hand(plan) for plan, _, _ in laid]
    saved = [100 * (1 - result["bolt_length"] / own) for (_, result, _), own in zip(laid, hand, strict=True)]
    no_remnant = [one for one, (plan, _, _) in zip(saved, laid, strict=True) if len(plan["cloths"]) == 1]
    total = 100 * (1 - sum(result["bolt_length"] for _, result, _ in laid) / sum(hand))
    limits = f"of all plans' bolts {total:.1f}; plans without remnants {statistics.median(no_remnant):.1f}"
    tell(row("cutting: bolt saved against cutting by hand, %", saved, limits=limits))
    assert min(saved) >= -1e-6


def test_stacks_save_what_is_bought(laid, tell):
    saved = []
    for plan, result, _ in laid[:STACKED]:
        stacked = answer("cutting-layout", {**plan, "stages": 3, "steps": STEPS_STACKED})["result"]
        check_plan({**plan, "stages": 3}, stacked)
        saved.append(result["length_to_buy"] - stacked["length_to_buy"])
    less = 100 * sum(one > 0 for one in saved) / len(saved)
    limits = f"{sum(saved) / 10:.0f} cm in all, in {less:.0f} % of {STACKED} plans"
    tell(row("cutting: bought less with low strips stacked, cm", [one / 10 for one in saved], limits=limits))


def test_it_takes_no_longer_than_a_general_solver(laid, keep):
    ratios, ended = [], 0
    for plan, result, seconds in laid[:COMPARED]:
        # allowed the same gap; ten seconds at most
        solved = least_bolt_length(plan, SOLVER_SECONDS, max(result["gap"] / 100, 1e-6))
        ratios.append(seconds / solved["seconds"])
        ended += solved["seconds"] < SOLVER_SECONDS
    limits = f"the solver got there within {SOLVER_SECONDS} s in {ended} of {COMPARED}"
    keep(row("cutting: time against HiGHS to the same gap, ×", ratios, 1, limits=limits))


def test_how_long_a_layout_takes(laid, tell):
    tell(row("cutting: all steps on this machine, s", [seconds for _, _, seconds in laid]))


def typical_plans():
    """List plans of four sizes, 60 pieces, one bolt and two remnants."""
    number, found = 0, []
    while len(found) < TYPICAL:
        plan = realistic_plan(number)
        number += 1
        if len(plan["strips"]) >= 4 and len(plan["cloths"]) >= 3:
            strips = [{**strip, "quantity": 15} for strip in plan["strips"][:4]]
            found.append({"cloths": plan["cloths"][:3], "strips": strips})
    return found


def asked(page, core, plan):
    """Lay out a plan on the phone; returns what its screen was told, and the worker's ms in each call."""
    core.evaluate("self.took = []")
    told = page.evaluate(ON_THE_PHONE, [plan, MOST_MS])
    return told | {"slices": [call["ms"] for call in core.evaluate("self.took")]}


@pytest.fixture(scope="module")
def on_the_phone(playwright, boltfair):
    """What the phone told of typical plans, and the bytes that the core's runtime then has."""
    with PhoneAtWork(playwright, *boltfair) as phone:
        page = phone.open("/buy", "main")
        core = page.workers[0]
        core.evaluate(MEASURING_WORKER)
        core.evaluate(WATCH_MEMORY)
        asked(page, core, typical_plans()[0])  # the core loads its modules once
        told = [asked(page, core, plan) for plan in typical_plans()]
        return told, core.evaluate("self.memory")


def with_worker(ms, slices):
    """Count the worker's part of measured time, which the browser's throttle leaves alone, four times."""
    return ms + (THROTTLE - 1) * sum(slices)


def test_the_first_layout_is_there_at_once(on_the_phone, keep):
    first = [with_worker(told["first"], told["slices"][:1]) for told in on_the_phone[0]]
    keep(row("cutting on the phone: first good layout, worker × 4, ms", first, FIRST_MS, "p95"))


def test_a_typical_plan_is_proven_soon(on_the_phone, keep):
    told = on_the_phone[0]
    proven = [with_worker(one["all"], one["slices"]) for one in told]
    count = sum(one["optimal"] for one in told)
    limits = f"{count} of {len(told)} proven, widest gap {max(one['gap'] for one in told):.2f}"
    keep(row("cutting on the phone: proven, worker × 4, ms", proven, PROVEN_MS, limits=limits))


def test_other_questions_get_through(on_the_phone, tell):
    slices = [THROTTLE * ms for told in on_the_phone[0] for ms in told["slices"]]
    limits = f"longest {max(slices):.0f}"
    tell(row("cutting on the phone: a slice of it, worker × 4, ms", slices, limits=limits))


def test_memory_of_the_runtime(on_the_phone, tell):
    limits = "16 as it starts"
    tell(
        row(
            "cutting on the phone: memory of the core's runtime, MiB",
            [on_the_phone[1] / 2**20],
            limits=limits,
        )
    )
