"""Commands run in this process, on either database."""

import csv

import pytest

from backend import store
from backend.app import create_app
from backend.cli import main
from tests.databases import database, databases, settings
from tests.phones import Phone

__all__ = ["database", "databases", "settings"]


@pytest.fixture
def run(settings, monkeypatch, capsys):
    """Run `boltfair` with arguments; returns (exit code, what it printed, what it complained of)."""
    for name, value in settings.to_environment().items():
        monkeypatch.setenv(name, value)

    def run_command(*arguments):
        code = main([str(argument) for argument in arguments])
        told = capsys.readouterr()
        return code, told.out, told.err

    return run_command


@pytest.fixture
def business(run):
    """A business added by the command; its id."""
    return run("business", "add", "Tern & Tansy")[1].split()[0]


@pytest.fixture
def app(settings, business):
    made = create_app(told=settings)
    with made.app_context():
        yield made
        store.close()


@pytest.fixture
def phone(app, business):
    return Phone(app, business)


@pytest.fixture
def read_csv():
    """Read a CSV file as a list of dicts."""

    def read(path):
        with path.open(encoding="utf-8", newline="") as file:
            return list(csv.DictReader(file))

    return read
