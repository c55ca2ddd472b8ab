"""What is prepared once for all budgets, and the table at the end."""

import contextlib
import os
import threading
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer

import pytest

from e2e.server import Server
from tests.benchmarks.phone_at_work import HERE, KEEP_RECORDS, PhoneAtWork, fixture
from tests.benchmarks.stall_at_work import stall_at_work
from tests.benchmarks.table import lines, within

ROWS = pytest.StashKey()
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
        assert within(row), f"{row.what}: {row.judged:.3f}, allowed {row.budget}; {row.limits}"

    return put


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
    page.evaluate("import('/data/store.js').then((store) => store.settled())")


@pytest.fixture(scope="session")
def empty_page(playwright, tmp_path_factory):
    """A phone that has visited the empty page: (profile, address), its server dead."""
    profile = tmp_path_factory.mktemp("phone")
    with serving_empty_page() as address, PhoneAtWork(playwright, profile, address) as phone:
        phone.visit("/")
    return profile, address


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
    """Print the table, with the load of the machine."""
    rows = config.stash.get(ROWS, [])
    if not rows:
        return
    terminalreporter.section("budgets, at 4× CPU throttle, but for the exchange and the server")
    for line in lines(rows):
        terminalreporter.write_line(line)
    load = ", ".join(f"{value:.1f}" for value in os.getloadavg())
    terminalreporter.write_line(f"{os.cpu_count()} processors, load over 1, 5 and 15 minutes: {load}")
