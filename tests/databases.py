"""An app on a real database, SQLite and PostgreSQL: what is tested on one is tested on both.

PostgreSQL is the server of DATABASE_URL_TEST, or one started here for the run.
"""

import os
import shutil
import socket
import subprocess
import tempfile
import uuid
from pathlib import Path

import pytest

from backend import store
from backend.app import create_app
from backend.settings import Settings

MISSING = "PostgreSQL is not installed (Debian: apt-get install postgresql), nor is DATABASE_URL_TEST set"


def find_program(name):
    """Find a program of PostgreSQL, or None."""
    newest_first = sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{name}"), reverse=True)
    return shutil.which(name) or next(map(str, newest_first), None)


def run_as_other(*command):
    """Run a command as somebody who is not root: PostgreSQL refuses to run as root."""
    other = ("runuser", "-u", "postgres", "--") if os.geteuid() == 0 else ()
    subprocess.run([*other, *command], check=True, capture_output=True, cwd="/", timeout=120)


@pytest.fixture(scope="session")
def postgresql():
    """The address of a PostgreSQL server whose owner may make databases."""
    if os.environ.get("DATABASE_URL_TEST"):
        yield os.environ["DATABASE_URL_TEST"]
        return
    initdb, pg_ctl = find_program("initdb"), find_program("pg_ctl")
    if not (initdb and pg_ctl):
        if os.environ.get("CI"):
            pytest.fail(MISSING)
        pytest.skip(MISSING)
    folder = Path(tempfile.mkdtemp(prefix="boltfair-pg-"))
    if os.geteuid() == 0:
        shutil.chown(folder, "postgres")
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
    # a test that kills the database itself would need fsync; none does
    options = f"-h 127.0.0.1 -p {port} -k {folder} -c fsync=off -c max_connections=200"
    data, log = str(folder / "data"), str(folder / "log")
    run_as_other(initdb, "-D", data, "-U", "boltfair", "-A", "trust", "-E", "UTF8", "--locale=C")
    run_as_other(pg_ctl, "-D", data, "-o", options, "-l", log, "-w", "start")
    try:
        yield f"postgresql://boltfair@127.0.0.1:{port}/postgres"
    finally:
        run_as_other(pg_ctl, "-D", data, "-m", "immediate", "-w", "stop")
        shutil.rmtree(folder, ignore_errors=True)


class Databases:
    """Makes databases on a PostgreSQL server, and drops them."""

    def __init__(self, server):
        self.server = server
        self.made = []

    def command(self, text):
        """Run a command that no transaction may hold."""
        import psycopg

        with psycopg.connect(self.server, autocommit=True) as connection:
            connection.execute(text)

    def make(self):
        """Make an empty database; returns its address."""
        name = "boltfair_" + uuid.uuid4().hex
        self.command(f"CREATE DATABASE {name}")
        self.made.append(name)
        return self.server.rpartition("/")[0] + "/" + name

    def drop_all(self):
        """Drop what was made."""
        for name in self.made:
            self.command(f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture
def databases(postgresql):
    """Databases on the PostgreSQL server, gone after the test."""
    made = Databases(postgresql)
    yield made
    made.drop_all()


@pytest.fixture(params=["sqlite", "postgresql"])
def settings(request, tmp_path):
    """Settings of an empty server on either database."""
    url = request.getfixturevalue("databases").make() if request.param == "postgresql" else None
    return Settings(tmp_path / "data", url)


@pytest.fixture
def app(settings):
    """An app with its tables made, and its context entered."""
    made = create_app(told=settings)
    with made.app_context():
        store.prepare(settings)
        yield made
        store.close()
