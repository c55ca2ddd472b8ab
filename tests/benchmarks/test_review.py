"""Markets and the year opened on a phone that holds the demo's year, and five such years."""

import statistics

import pytest

from e2e.server import Server
from e2e.shop import Shop
from tests.benchmarks.conftest import STARTS
from tests.benchmarks.noted import at_four_times, waited
from tests.benchmarks.phone_at_work import HERE, PhoneAtWork, cold_start, leave_at
from tests.benchmarks.table import row
from tests.benchmarks.years import put_years

pytestmark = pytest.mark.benchmark

# years on the phone → ms to a screen that can be read
OPEN_MS = {1: 1000, 5: 2000}
SCREENS = {"Markets": ("/review/markets", "[data-market]"), "The year": ("/review/year", "[data-year]")}
SCRIPT = (HERE / "sales.js").read_text(encoding="utf-8")


@pytest.fixture(scope="module", params=OPEN_MS, ids=lambda years: f"{years}-years")
def years(request):
    """How many years the phone holds."""
    return request.param


@pytest.fixture(scope="module")
def phone(playwright, years, tmp_path_factory):
    """An owner's phone that holds so many years, in step with a server that is dead: (profile, address)."""
    profile, data = tmp_path_factory.mktemp("phone"), tmp_path_factory.mktemp("data")
    with Server(data) as server:
        shop = Shop(server)
        put_years(data, shop.business, years)
        with PhoneAtWork(playwright, profile, shop.address) as phone:
            page = phone.visit("/settings")
            page.evaluate(SCRIPT)
            page.evaluate("(code) => exchanging.pair(code)", shop.code()["code"])
            page.evaluate("exchanging.timedWithStock()")
    return profile, server.address


@pytest.fixture(scope="module")
def first(playwright, phone):
    """What was noted when each screen was opened for the first time, by name."""
    return {name: cold_start(playwright, *phone, *SCREENS[name]) for name in SCREENS}


@pytest.mark.parametrize("name", SCREENS)
def test_how_long_the_first_opening_takes(name, years, first, tell):
    usable = at_four_times(first[name], first[name]["usable"])
    limits = "years of sales and batches are summed up once; Review's first screen begins with it"
    tell(row(f"{name}, {years} of the demo's years: first opening ever, ms", [usable], limits=limits))


@pytest.mark.parametrize("name", SCREENS)
def test_a_screen_of_results_opens_soon(name, years, playwright, phone, first, keep):
    leave_at(playwright, *phone, *SCREENS[name])
    starts = [cold_start(playwright, *phone, *SCREENS[name]) for _ in range(STARTS)]
    usable = [at_four_times(start, start["usable"]) for start in starts]
    core = statistics.median(waited(start, start["usable"], service_worker=False) for start in starts)
    limits = f"from a cold start; waits for the core {core:.0f} as measured"
    keep(row(f"{name}, {years} of the demo's years: opened, ms", usable, OPEN_MS[years], limits=limits))
