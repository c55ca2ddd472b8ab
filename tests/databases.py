"""An app on a real database, SQLite and PostgreSQL: what is tested on one is tested on both.

PostgreSQL is the server of DATABASE_URL_TEST, or one started here for the run.
"""

import os
import shutil
import subprocess
import tempfile
import uuid
from pathlib import Path

import pytest

from backend import store
from backend.app import create_app
from backend.settings import Settings
from e2e.server import free_port

MISSING = "PostgreSQL is not installed (Debian: apt-get install postgresql), nor is DATABASE_URL_TEST set"


def find_program(name):
    """Find a program of PostgreSQL, or None."""
    newest_first = sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{name}"), reverse=True)
    return shutil.which(name) or next(map(str, newest_first), None)


def run_as_other(*command):
    """Run a command as somebody who is not root: PostgreSQL refuses to run as root."""
    other = ("runuser", "-u", "postgres", "--") if os.geteuid() == 0 else ()
    subprocess.run([*other, *command], check=True, capture_output=True, cwd="/", timeout=120)


class Server:
    """Makes databases on a PostgreSQL server, and drops them."""

    def __init__(self, address):
        self.address = address
        self.made = []

    def command(self, text):
        """Run a command that no transaction may hold."""
        import psycopg

        with psycopg.connect(self.address, autocommit=True) as connection:
            connection.execute(text)

    def make(self):
        """Make an empty database; returns its address."""
        name = "boltfair_" + uuid.uuid4().hex
        self.command(f"CREATE DATABASE {name}")
        self.made.append(name)
        return self.address.rpartition("/")[0] + "/" + name

    def drop_all(self):
        """Drop what was made."""
        for name in self.made:
            self.command(f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture(scope="session")
def postgresql():
    """A PostgreSQL server that makes databases for the run."""
    if os.environ.get("DATABASE_URL_TEST"):
        server = Server(os.environ["DATABASE_URL_TEST"])
        yield server
        server.drop_all()
        return
    initdb, pg_ctl = find_program("initdb"), find_program("pg_ctl")
    if not (initdb and pg_ctl):
        if os.environ.get("CI"):
            pytest.fail(MISSING)
        pytest.skip(MISSING)
    folder = Path(tempfile.mkdtemp(prefix="boltfair-pg-"))
    if os.geteuid() == 0:
        shutil.chown(folder, "postgres")
    port = free_port()
    # a test that kills the database itself would need fsync; none does
    options = f"-h 127.0.0.1 -p {port} -k {folder} -c fsync=off -c max_connections=200"
    data, log = str(folder / "data"), str(folder / "log")
    run_as_other(initdb, "-D", data, "-U", "boltfair", "-A", "trust", "-E", "UTF8", "--locale=C")
    run_as_other(pg_ctl, "-D", data, "-o", options, "-l", log, "-w", "start")
    try:
        yield Server(f"postgresql://boltfair@127.0.0.1:{port}/postgres")
    finally:
        run_as_other(pg_ctl, "-D", data, "-m", "immediate", "-w", "stop")
        shutil.rmtree(folder, ignore_errors=True)


@pytest.fixture(scope="session")
def databases(request):
    """Makes PostgreSQL databases; the server is started only if one is wanted."""
    return lambda: request.getfixturevalue("postgresql").make()


@pytest.fixture(scope="session", params=["sqlite", "postgresql"])
def database(request):
    """The name of a database; what uses it runs on both."""
    return request.param


@pytest.fixture(scope="session")
def shared_app(database, databases, tmp_path_factory):
    """An app with its tables made, for all tests: each begins a business of its own."""
    yield from serving_app(Settings(tmp_path_factory.mktemp("data"), make_url(database, databases)))


@pytest.fixture
def app(shared_app):
    """The shared app, its context entered."""
    with shared_app.app_context():
        yield shared_app


@pytest.fixture
def settings(database, databases, tmp_path):
    """Settings of a server that has nothing yet."""
    return Settings(tmp_path / "data", make_url(database, databases))


@pytest.fixture
def own_app(settings):
    """An app whose database no other test sees, its context entered."""
    for made in serving_app(settings):
        with made.app_context():
            yield made


def make_url(database, databases):
    """Make an empty database; returns its address, None for SQLite in the data folder."""
    return databases() if database == "postgresql" else None


def serving_app(settings):
    """Make an app and its tables; let go of the database at the end."""
    made = create_app(told=settings)
    with made.app_context():
        store.prepare(settings)
    yield made
    with made.app_context():
        store.close()
