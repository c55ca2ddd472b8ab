"""A page of each engine beside Chromium: the system's, or a skip that names its package."""

from contextlib import ExitStack

import pytest

from . import firefox, lasting, webkit

MISSING = "{engine} is not installed (Debian: apt-get install {packages})"
ENGINES = {"WebKit": webkit, "Firefox": firefox}
LASTING = "WebKit's window"


def needs(engine):
    """Skip without an engine, naming what has it."""
    module = {**ENGINES, LASTING: lasting}[engine]
    if not module.find_browser():
        pytest.skip(MISSING.format(engine=engine, packages=module.PACKAGES))


@pytest.fixture(params=ENGINES)
def visit(request, tmp_path):
    """Open a server's address in an engine: `visit(address)`; no page may tell of an error."""
    needs(request.param)
    with ExitStack() as open_pages:
        opened = []

        def open_page(address):
            if request.param == "WebKit":
                page = webkit.WebKit(address)
            else:
                page = firefox.Firefox(address, request.getfixturevalue("playwright"), tmp_path)
            opened.append(open_pages.enter_context(page))
            return page

        yield open_page
        assert [line for page in opened for line in page.trouble()] == []


@pytest.fixture
def lasting_page(tmp_path):
    """Open a server's address in a WebKit whose processes may be killed: `lasting_page(address)`."""
    needs(LASTING)
    with ExitStack() as open_pages:
        yield lambda address: open_pages.enter_context(lasting.Lasting(address, tmp_path / "webkit"))
