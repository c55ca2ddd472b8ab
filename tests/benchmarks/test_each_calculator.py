"""Each calculator on a phone just started: its first answer, its modules loaded for it, and its last."""

import json

import pytest

from backend.core.catalogue import NAMES, calculator_named
from tests.benchmarks.phone_at_work import PhoneAtWork
from tests.benchmarks.table import row
from tests.core.cases_table import load_cases

pytestmark = pytest.mark.benchmark

FIRST_MS, ALL_STEPS_MS = 500, 3000
# the browser's throttle does not slow the worker: what it took is taken as often
WORKER_TIMES = 4
TIMED = """async ([method, name, given]) => {
  const { call, coreVersion } = await import('/core/core-client.js');
  await coreVersion;
  const began = performance.now();
  const told = await call(method, { name, given });
  if (told.problems) throw new Error(JSON.stringify(told.problems));
  return performance.now() - began;
}"""


def largest_case(name):
    """Find the case of a calculator that gives most to work on, of those that have an answer."""
    answered = [case["input"] for table, case in load_cases() if table == name and "output" in case]
    return max(answered, key=lambda given: len(json.dumps(given)))


@pytest.fixture(scope="module")
def phone(playwright, boltfair):
    """A phone that has visited, the server dead."""
    with PhoneAtWork(playwright, *boltfair) as phone:
        yield phone


@pytest.mark.parametrize("name", NAMES)
def test_a_first_answer_comes_soon(name, phone, keep):
    is_long = calculator_named(name).by_steps is not None
    page = phone.open("/settings", "main h1")
    took = page.evaluate(TIMED, ["begin" if is_long else "answer", name, largest_case(name)])
    page.close()
    keep(row(f"{name}: first answer, worker × {WORKER_TIMES}, ms", [took * WORKER_TIMES], FIRST_MS))


@pytest.mark.parametrize("name", [name for name in NAMES if calculator_named(name).by_steps])
def test_all_steps_are_soon_done(name, phone, keep):
    page = phone.open("/settings", "main h1")
    took = page.evaluate(TIMED, ["answer", name, largest_case(name)])
    page.close()
    keep(row(f"{name}: all its steps, worker × {WORKER_TIMES}, ms", [took * WORKER_TIMES], ALL_STEPS_MS))
