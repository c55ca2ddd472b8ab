"""What is prepared once for all benchmarks, and the tables at the end."""

import contextlib
import os
import statistics
import threading
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer

import pytest

from e2e.server import Server
from tests.benchmarks.noted import first_paints
from tests.benchmarks.phone_at_work import HERE, KEEP_RECORDS, PhoneAtWork, cold_start, fixture
from tests.benchmarks.stall_at_work import stall_at_work
from tests.benchmarks.table import lines, measured_lines, within

ROWS = pytest.StashKey()
# how many cold starts are measured, of each screen
STARTS = 15
# a task of so many ms holds a page up, where the empty page is first painted after so many
TASK_MS, EMPTY_FIRST_PAINT_MS = 200, 215
FORMS = {
    "strip-length": {"usable_width": "135.2"},
    "elastic-cut-length": {"roll_length": "50"},
    "fabric-per-dozen": {"quantity": "60"},
    "cloth-compare": {"quantity": "60"},
    "remnant-yield": {"width": "135.2", "length": "70"},
}


@pytest.fixture(scope="session")
def rows(pytestconfig):
    """The rows of the table, in the order of measuring."""
    return pytestconfig.stash.setdefault(ROWS, [])


@pytest.fixture
def keep(rows):
    """Put a row into the table and hold it to its budget."""

    def put(row):
        rows.append(row)
        assert row.budget is not None, "what has no limit is a measurement: tell it"
        allowed = f"{row.budget}" + (f" and {row.times} × {row.empty:.1f}" if row.times else "")
        assert within(row), f"{row.what}: {row.judged:.3f}, allowed {allowed}; {row.limits}"

    return put


@pytest.fixture
def tell(rows):
    """Put a measurement, which has no limit to keep, into a table of its own."""
    return rows.append


@pytest.fixture(scope="session")
def boltfair(playwright, tmp_path_factory):
    """A phone that has visited Boltfair and is at work: (profile, address), the server dead."""
    profile = tmp_path_factory.mktemp("phone")
    with (
        Server(tmp_path_factory.mktemp("data")) as server,
        PhoneAtWork(playwright, profile, server.address) as phone,
    ):
        page = phone.visit("/buy")
        page.evaluate(KEEP_RECORDS, {"sizes": fixture("sizes.json"), "cloths": fixture("cloths.json")})
        for calculator, typed in FORMS.items():
            _fill_in(phone, calculator, typed)
        page = phone.visit("/make/safe-cutting-checklist")
        page.locator("[name='tool']").select_option("rotary cutter")
        page.locator("[name='cloth']").select_option("woven")
        _settle(page)
    return profile, server.address


@pytest.fixture(scope="session")
def stall(playwright, tmp_path_factory):
    """A phone at the stall with 10,000 sales, all sent: (profile, address), the server dead."""
    return stall_at_work(playwright, tmp_path_factory.mktemp("phone"), tmp_path_factory.mktemp("data"), True)


@pytest.fixture(scope="session")
def lone_stall(playwright, tmp_path_factory):
    """The same of a phone that was never paired, so that all are its own still."""
    return stall_at_work(playwright, tmp_path_factory.mktemp("phone"), tmp_path_factory.mktemp("data"), False)


def _fill_in(phone, calculator, typed):
    page = phone.visit(f"/buy/{calculator}")
    page.get_by_role("button", name="Everyday", exact=True).tap()
    cloths = page.get_by_role("group", name="Start from a saved cloth").get_by_role("button")
    for chip in cloths.all():
        chip.tap()
    for field, text in typed.items():
        page.locator(f"[name='{field}']").fill(text)
    page.locator("[data-output][data-value]:not([data-value=''])").first.wait_for(state="attached")
    _settle(page)


def _settle(page):
    page.evaluate("import('/data/store/remembered.js').then(({ settled }) => settled())")


@pytest.fixture(scope="session")
def empty_page(playwright, tmp_path_factory):
    """A phone that has visited the empty page: (profile, address), its server dead."""
    profile = tmp_path_factory.mktemp("phone")
    with serving_empty_page() as address, PhoneAtWork(playwright, profile, address) as phone:
        phone.visit("/")
    return profile, address


@pytest.fixture(scope="session")
def empty_starts(playwright, empty_page):
    """What was noted in each of many cold starts of the empty page."""
    usable = "[data-output='echo']:not([data-value=''])"
    return [cold_start(playwright, *empty_page, "/", usable) for _ in range(STARTS)]


@pytest.fixture(scope="session")
def longest_task_allowed(empty_starts):
    """The ms that a task may take: as many as hold a page up on this machine."""
    return TASK_MS * statistics.median(first_paints(empty_starts)) / EMPTY_FIRST_PAINT_MS


@contextlib.contextmanager
def serving_empty_page():
    """Serve the empty page; gives its address."""
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=HERE / "empty_page")) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}"
        server.shutdown()


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format, *args):
        pass


def pytest_terminal_summary(terminalreporter, config):
    """Print the tables, of budgets and of measurements, with the load of the machine."""
    rows = config.stash.get(ROWS, [])
    if not rows:
        return
    budgets = [row for row in rows if row.budget is not None]
    told = [row for row in rows if row.budget is None]
    terminalreporter.section("at 4× CPU throttle, but for the exchange and the server")
    for title, table in (
        ("budgets", lines(budgets)),
        ("measurements, without a limit", measured_lines(told)),
    ):
        terminalreporter.section(title, "-")
        terminalreporter.write_line("\n".join(table))
    load = ", ".join(f"{value:.1f}" for value in os.getloadavg())
    terminalreporter.write_line(f"{os.cpu_count()} processors, load over 1, 5 and 15 minutes: {load}")
