"""The server, and phones: online ones, and ones that visited once and can reach nobody."""

import shutil
from functools import partial

import pytest

from tests.chromium import find_chromium
from tests.conftest import how_many, pytest_configure  # noqa: F401  the switch of -m full

from .server import Server
from .shop import Shop, pair
from .stocked import stock

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
def stocked(start_chromium, visited, tmp_path_factory):
    """A profile that also holds the scenario's records: (profile, address)."""
    profile, address = visited
    place = tmp_path_factory.mktemp("stocked") / "profile"
    shutil.copytree(profile, place, symlinks=True)
    phone = Phone(start_chromium, place, address)
    stock(phone.switch_on(offline=True)).settle()
    phone.switch_off()
    assert phone.trouble == []
    return place, address


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
def shop(tmp_path):
    """A business without a phone yet, with a server that outlives those asked for after it."""
    with Shop(tmp_path / "data") as running:
        yield running


@pytest.fixture
def phone(new_phone, visited):
    """A phone after one visit, switched on with its network off and the server dead."""
    profile, address = visited
    made = new_phone(address, profile)
    made.switch_on(offline=True)
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


@pytest.fixture
def paired(shop, new_phone):
    """Make paired phones: `paired("Imke's phone", role="helper")`."""

    def make(name, role="owner", bring=True):
        phone = new_phone(shop.address)
        phone.switch_on().open("/settings")
        pair(phone, shop.code(role), name, bring)
        return phone

    return make
