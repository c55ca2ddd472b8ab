"""The database: SQLite in the data folder, or PostgreSQL; transactions that read and that write."""

import os
import shutil
import threading
from contextlib import contextmanager, nullcontext
from pathlib import Path

import orjson
from flask import Flask, current_app
from flask_sqlalchemy import SQLAlchemy
from sqlalchemy import MetaData, event
from sqlalchemy.exc import ArgumentError, DatabaseError, NoSuchModuleError, OperationalError
from sqlalchemy.exc import TimeoutError as NoConnection
from sqlalchemy.orm import DeclarativeBase

MIGRATIONS = Path(__file__).parent / "migrations"
# the database cannot be asked now: locked for long, its disk full, gone
Unavailable = (OperationalError, NoConnection)
LEAST_ROOM = 16 * 1024 * 1024
NO_ADDRESS = "DATABASE_URL is no address of a PostgreSQL database"
# a phone waits this long behind others that write
SECONDS_BEHIND_OTHERS = 30
# SQLite has those who wait sleep and look again; within a process the next goes on at once
sqlite_turn = threading.Lock()

# constraints have names, so that a migration can change them on any database
NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "pk": "pk_%(table_name)s",
}


class Model(DeclarativeBase):
    """What every table is declared from."""

    metadata = MetaData(naming_convention=NAMES)


db = SQLAlchemy(model_class=Model, disable_autonaming=True)


def to_json(value):
    """Write what a JSON column holds."""
    return orjson.dumps(value).decode()


def register(app, settings):
    """Give an app its database; nothing is opened or made before it is used.

    Raises: OSError, if the address is none, or the driver that PostgreSQL needs is not installed.
    """
    if not settings.url.startswith(("sqlite://", "postgresql")):
        raise OSError(NO_ADDRESS)
    app.config["SQLALCHEMY_DATABASE_URI"] = settings.url
    app.config["SQLALCHEMY_ENGINE_OPTIONS"] = _options(settings.url)
    try:
        db.init_app(app)
    except ModuleNotFoundError as error:
        raise OSError("PostgreSQL needs its driver: pip install 'boltfair[postgresql]'") from error
    except (ArgumentError, NoSuchModuleError, ValueError) as error:
        raise OSError(NO_ADDRESS) from error
    with app.app_context():
        if db.engine.dialect.name == "sqlite":
            event.listen(db.engine, "connect", _open_sqlite)
            event.listen(db.engine, "begin", _begin_sqlite)


def _options(url):
    # one for each request that is worked on at once; what people wrote is not told in a log of errors
    options = {"pool_size": 16, "max_overflow": 48, "json_serializer": to_json, "hide_parameters": True}
    if url.startswith("sqlite"):
        return options | {"connect_args": {"timeout": SECONDS_BEHIND_OTHERS}}
    waits = f"-c lock_timeout={SECONDS_BEHIND_OTHERS}s"
    return options | {"pool_pre_ping": True, "connect_args": {"options": waits}}


def prepare(settings):
    """Make the data folder and bring the tables up to date; needs an app context.

    Raises: OSError, with words, where the database cannot be reached or written.
    """
    settings.data.mkdir(parents=True, exist_ok=True, mode=0o700)
    if not settings.database_url:
        # in whatever folder it lies; what SQLite makes beside it has the same rights
        os.close(os.open(settings.data / "boltfair.db", os.O_RDWR | os.O_CREAT, 0o600))
        (settings.data / "boltfair.db").chmod(0o600)
    # a worker, which never makes tables, starts sooner without what does
    import flask_migrate

    flask_migrate.Migrate(current_app, db, directory=str(MIGRATIONS))
    try:
        flask_migrate.upgrade()
    except DatabaseError as error:
        reason = " ".join(str(error.orig).split())
        raise OSError(f"the database cannot be opened: {reason}") from error


@contextmanager
def opened(settings):
    """Open the database for a command: made if need be, and closed at the end."""
    app = Flask(__name__, static_folder=None)
    register(app, settings)
    with app.app_context():
        prepare(settings)
        try:
            yield
        finally:
            close()


@contextmanager
def reading():
    """Give a connection that reads one state of the database."""
    engine = db.engine
    if engine.dialect.name == "postgresql":
        engine = engine.execution_options(isolation_level="REPEATABLE READ")
    with engine.begin() as connection:
        yield connection


@contextmanager
def writing():
    """Give a connection that writes: all that is done with it is kept, or nothing."""
    turn = sqlite_turn if db.engine.dialect.name == "sqlite" else nullcontext()
    with turn, db.engine.execution_options(begin="BEGIN IMMEDIATE").begin() as connection:
        yield connection


def can_write():
    """Say whether something could be written now: the database takes a writer, and has room."""
    try:
        with writing() as connection:
            if connection.dialect.name == "postgresql":
                return connection.exec_driver_sql("SHOW transaction_read_only").scalar() == "off"
    except Unavailable:
        return False
    return shutil.disk_usage(Path(db.engine.url.database).parent).free >= LEAST_ROOM


def _open_sqlite(connection, _):
    # SQLAlchemy's own way of leaving transactions to us: its driver begins too late
    connection.isolation_level = None
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA foreign_keys = ON")


def _begin_sqlite(connection):
    # a reader that turned writer could be refused at once: writers say so at the start
    connection.exec_driver_sql(connection.get_execution_options().get("begin", "BEGIN"))


def close():
    """Let go of all connections."""
    db.engine.dispose()
