"""What owners look at and decide by, opened on a phone that holds the demo's year, and five such years."""

import shutil
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
# what is decided by a search is there once all its steps are done
ANEW_MS = 3000
SCREENS = {
    "Markets": ("/review/markets", "[data-market]"),
    "The year": ("/review/year", "[data-year]"),
    "The next market": ("/review/next", "[data-capacity]"),
    "What to sew": ("/review/sew", "[data-worth]"),
}
# what a first opening shows before anything is added up
SHOWN = {
    "Markets": "[data-booked]",
    "The year": "main [role=status]",
    "The next market": "main [role=status]",
    "What to sew": "main [role=status]",
}
# what is decided with nothing in it from before the last change
ANEW = {
    "The next market": ("/review/next", "main:not(:has([data-as-before])) [data-capacity]"),
    "What to sew": ("/review/sew", "main:not(:has([data-as-before])) [data-looking=false]"),
}
# the last sale once more, today
SELL = """async () => {
  const [{ factsOf }, { state }] = await Promise.all([import('/data/facts.js'), import('/data/actions.js')]);
  const { today } = await import('/data/clock.js');
  const [{ id, at, kind, ...fields }] = await factsOf('sale');
  await state('sale', { ...fields, day: today() });
}"""
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
            page.evaluate("exchanging.timed()")
    return profile, server.address


@pytest.fixture(scope="module")
def opened_first(playwright, phone, tmp_path_factory):
    """Open a screen on a copy of the phone, which never opened any, until it shows something."""
    profile, address = phone
    untouched = tmp_path_factory.mktemp("untouched")
    shutil.copytree(profile, untouched, symlinks=True, dirs_exist_ok=True)

    def opened(path, shown):
        copy = tmp_path_factory.mktemp("copy")
        shutil.copytree(untouched, copy, symlinks=True, dirs_exist_ok=True)
        return cold_start(playwright, copy, address, path, shown)

    return opened


@pytest.mark.parametrize("name", SCREENS)
def test_a_first_opening_says_soon_what_it_does(name, years, opened_first, empty_starts, keep):
    starts = [opened_first(SCREENS[name][0], SHOWN[name]) for _ in range(STARTS)]
    usable = [at_four_times(start, start["usable"]) for start in starts]
    empty = statistics.median(at_four_times(start, start["usable"]) for start in empty_starts)
    what = f"{name}, {years} of the demo's years: first opening ever, says what it adds up, ms"
    keep(row(what, usable, OPEN_MS[years], empty=empty, limits="from a cold start"))


@pytest.mark.parametrize("name", SCREENS)
def test_how_long_the_first_opening_takes(name, years, opened_first, tell):
    noted = opened_first(*SCREENS[name])
    usable = at_four_times(noted, noted["usable"])
    core = waited(noted, noted["usable"], service_worker=False)
    limits = (
        f"summed up once, ahead where the phone is left in peace; waits for the core {core:.0f} as measured"
    )
    what = f"{name}, {years} of the demo's years: first opening ever, all of it, ms"
    tell(row(what, [usable], limits=limits))


@pytest.fixture(scope="module")
def first(playwright, phone, opened_first):
    """A phone on which each screen was opened before; after `opened_first`, which copies it untouched."""
    for name in SCREENS:
        cold_start(playwright, *phone, *SCREENS[name])


@pytest.mark.parametrize("name", SCREENS)
def test_a_screen_of_results_opens_soon(name, years, playwright, phone, first, empty_starts, keep):
    leave_at(playwright, *phone, *SCREENS[name])
    starts = [cold_start(playwright, *phone, *SCREENS[name]) for _ in range(STARTS)]
    usable = [at_four_times(start, start["usable"]) for start in starts]
    core = statistics.median(waited(start, start["usable"], service_worker=False) for start in starts)
    limits = f"from a cold start; waits for the core {core:.0f} as measured"
    empty = statistics.median(at_four_times(start, start["usable"]) for start in empty_starts)
    what = f"{name}, {years} of the demo's years: opened, ms"
    keep(row(what, usable, OPEN_MS[years], empty=empty, limits=limits))


def sold_and_opened(playwright, phone, path, usable):
    """Sell one more piece, close the browser, and open a screen from a cold start; returns what was noted."""
    with PhoneAtWork(playwright, *phone) as at_work:
        page = at_work.context.pages[0]
        page.goto(at_work.address + "/settings")
        page.locator("main h1").first.wait_for(state="attached")
        page.evaluate(SELL)
        page.evaluate("import('/data/store/remembered.js').then(({ settled }) => settled())")
    return cold_start(playwright, *phone, path, usable)


@pytest.mark.parametrize("name", ANEW)
def test_a_decision_is_shown_soon_after_one_more_sale(name, years, playwright, phone, first, keep):
    starts = [sold_and_opened(playwright, phone, *SCREENS[name]) for _ in range(STARTS)]
    usable = [at_four_times(start, start["usable"]) for start in starts]
    what = f"{name}, {years} of the demo's years: opened after one more sale, ms"
    keep(row(what, usable, OPEN_MS[years], limits="as it was before the sale, saying so"))


@pytest.mark.parametrize("name", ANEW)
def test_it_is_worked_out_anew_after_one_more_sale(name, years, playwright, phone, first, keep):
    starts = [sold_and_opened(playwright, phone, *ANEW[name]) for _ in range(STARTS)]
    usable = [at_four_times(start, start["usable"]) for start in starts]
    core = statistics.median(waited(start, start["usable"], service_worker=False) for start in starts)
    limits = f"with the start; waits for the core {core:.0f} as measured"
    what = f"{name}, {years} of the demo's years: worked out anew after one more sale, ms"
    keep(row(what, usable, OPEN_MS[years] + ANEW_MS, limits=limits))
