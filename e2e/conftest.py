"""The server, and phones: online ones, and ones that visited once and can reach nobody."""

import copy
import shutil
from functools import cache, partial
from urllib.parse import urlsplit

import pytest

from tests.chromium import find_chromium
from tests.conftest import how_many, pytest_collection_finish, pytest_configure  # noqa: F401  as there

from .server import Server
from .shop import Shop, ask, pair
from .stocked import stock_phone

pytest.register_assert_rewrite("e2e.screen")
from .phone import Phone  # noqa: E402


@pytest.fixture(scope="session")
def chromium_path():
    """Find a Chromium that starts."""
    found = find_chromium()
    if not found:
        pytest.fail("no Chromium that starts: `python -m tests` gets one, or says how", pytrace=False)
    return found


@pytest.fixture(scope="session")
def start_chromium(chromium_path, playwright):
    """Launch Chromium on a profile: `start_chromium(profile, **options)`."""
    return partial(playwright.chromium.launch_persistent_context, executable_path=chromium_path)


@pytest.fixture(scope="session")
def server(tmp_path_factory):
    """Run a server for those tests that need one that answers."""
    with Server(tmp_path_factory.mktemp("data")) as running:
        yield running


@pytest.fixture(scope="session")
def visited(start_chromium, tmp_path_factory):
    """Visit once, then end the server: (profile, address) for phones that are offline."""
    profile = tmp_path_factory.mktemp("visited") / "profile"
    with Server(tmp_path_factory.mktemp("data")) as running:
        phone = Phone(start_chromium, profile, running.address)
        phone.switch_on().open("/buy").wait_until_ready_offline()
        phone.switch_off()
    assert phone.trouble == []
    return profile, running.address


@pytest.fixture(scope="session")
def laid(start_chromium, visited, tmp_path_factory):
    """Lay the ground of many tests once: `laid(furnish)`.

    Returns: (profile, the address that was open at the end, the phone it lay on, what was told).
    """
    profile, address = visited

    @cache
    def lay(ground):
        place = tmp_path_factory.mktemp(ground.__name__) / "profile"
        shutil.copytree(profile, place, symlinks=True)
        phone = Phone(start_chromium, place, address)
        phone.switch_on(offline=True)
        told = ground(phone)
        phone.screen.settle()
        path = urlsplit(phone.screen.page.url).path
        phone.switch_off()
        assert phone.trouble == []
        return place, path, phone, told

    return lay


@pytest.fixture(scope="session")
def stocked(visited, laid):
    """A profile that also holds the scenario's records: (profile, address)."""
    return laid(stock_phone)[0], visited[1]


@pytest.fixture
def new_phone(start_chromium, tmp_path):
    """Make phones: `new_phone(address)`; the test fails if their pages told of any error."""
    made = []

    def make(address, profile=None, **like):
        place = tmp_path / f"phone-{len(made)}"
        if profile:
            shutil.copytree(profile, place, symlinks=True)
        made.append(Phone(start_chromium, place, address, **like))
        return made[-1]

    yield make
    for phone in made:
        phone.switch_off()
    assert [line for phone in made for line in phone.trouble] == []


@pytest.fixture
def shop(server):
    """A business without a phone yet, on the server that all tests share."""
    return Shop(server)


@pytest.fixture
def own_shop(tmp_path):
    """A business on a server of its own, to be ended and restored."""
    with Server(tmp_path / "data") as running:
        yield Shop(running)


@pytest.fixture(scope="session")
def known(start_chromium, server, tmp_path_factory):
    """The profile of a phone that has visited the shared server, and holds nothing yet."""
    profile = tmp_path_factory.mktemp("known") / "profile"
    phone = Phone(start_chromium, profile, server.address)
    phone.switch_on().open("/settings").wait_until_ready_offline()
    assert ask(phone, "store/remembered", "recall", "device") is None
    phone.switch_off()
    assert phone.trouble == []
    return profile


@pytest.fixture
def paired(shop, new_phone, known):
    """Make phones paired with the shop: `paired("Imke's phone", role="helper")`."""

    def make(name, role="owner", bring=True):
        phone = new_phone(shop.address, known)
        phone.switch_on()
        pair(phone, shop.code(role), name, bring)
        return phone

    return make


@pytest.fixture
def ground():
    """What is on a phone before a test: a function of a phone that puts it there, or nothing but the app.

    It is called once for all tests that begin with it; each has a copy of the phone's profile, and as
    `phone.ground` a copy of what it returned, told of the test's own phone. The screen at which it
    ended is open.
    """
    return None


@pytest.fixture
def phone(new_phone, visited, laid, ground):
    """A phone after one visit, switched on with its network off and the server dead."""
    profile, address = visited
    if ground:
        profile, path, other, told = laid(ground)
    made = new_phone(address, profile)
    made.switch_on(offline=True)
    if ground:
        made.screen.open(path)
        made.ground = copy.deepcopy(told, {id(other): made})
    return made


@pytest.fixture
def screen(phone):
    """The first tab of such a phone."""
    return phone.screen


@pytest.fixture
def stocked_phone(new_phone, stocked):
    """Make offline phones with the scenario's records: `stocked_phone(color_scheme="dark")`."""
    profile, address = stocked

    def make(**like):
        made = new_phone(address, profile, **like)
        made.switch_on(offline=True)
        return made

    return make
