"""How much the long tests do, a seeded few by default, all with `-m full`; and what is made once a run."""

import gc
from functools import cache

import pytest
from hypothesis import settings

from backend import shell
from backend.app import FRONTEND
from backend.shell import site

# one server for all folders, however many ask for it
from tests.databases import postgresql

__all__ = ["postgresql"]

settings.register_profile("few", max_examples=50, deadline=None, derandomize=True, database=None)
settings.register_profile("all", max_examples=1000, deadline=None, database=None, print_blob=True)


def pytest_configure(config):
    """Name the marker, and choose how many examples Hypothesis tries."""
    config.addinivalue_line("markers", "full: seeded few by default, all with -m full")
    settings.load_profile("all" if _all_asked(config) else "few")


def pytest_collection_finish():
    """Look for no circles among what was collected: a million objects that stay to the end."""
    gc.freeze()


@pytest.fixture(scope="session", autouse=True)
def read_once():
    """Read the core and the front end once a run, for all apps that are made: they do not change meanwhile.

    A front end of a test's own is read whenever it is served.
    """
    make_site, make_once = site.make_site, cache(site.make_site)

    def once(frontend, core):
        return (make_once if frontend == FRONTEND else make_site)(frontend, core)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(site, "read_core", cache(site.read_core))
        patch.setattr(shell, "make_site", once)
        yield


@pytest.fixture(scope="session")
def how_many(pytestconfig):
    """Choose between a few and all: `how_many(40, 200)`."""
    return lambda few, all: all if _all_asked(pytestconfig) else few


def _all_asked(config):
    return config.option.markexpr == "full"
