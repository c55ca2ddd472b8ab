"""How much the long tests do: a seeded few by default, all with `-m full`."""

import pytest
from hypothesis import settings

# one server for all folders, however many ask for it
from tests.databases import postgresql

__all__ = ["postgresql"]

settings.register_profile("few", max_examples=50, deadline=None, derandomize=True, database=None)
settings.register_profile("all", max_examples=1000, deadline=None, database=None, print_blob=True)


def pytest_configure(config):
    """Name the marker, and choose how many examples Hypothesis tries."""
    config.addinivalue_line("markers", "full: seeded few by default, all with -m full")
    settings.load_profile("all" if _all_asked(config) else "few")


@pytest.fixture(scope="session")
def how_many(pytestconfig):
    """Choose between a few and all: `how_many(40, 200)`."""
    return lambda few, all: all if _all_asked(pytestconfig) else few


def _all_asked(config):
    return config.option.markexpr == "full"
