"""Tests with phones of one business, on both databases."""

import pytest

from tests.databases import app, database, databases, own_app, settings, shared_app
from tests.phones import Phone, add_business

__all__ = ["app", "database", "databases", "own_app", "settings", "shared_app"]


@pytest.fixture
def business(app):
    return add_business()


@pytest.fixture
def owner(app, business):
    return Phone(app, business, "owner", "Imke's phone")


@pytest.fixture
def helper(app, business):
    return Phone(app, business, "helper", "Joss's phone")
