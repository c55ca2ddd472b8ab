"""`boltfair backup`, `restore` and `rebuild`: everything in a file, and back."""

from pathlib import Path

from .. import store
from ..store import log
from ..sync import copies
from ..sync.rebuild import rebuild as rebuild_tables
from .options import add_data, settings_of


def declare(commands):
    """Declare the commands."""
    command = commands.add_parser("backup", help="copy everything into one file, while serving too")
    command.add_argument("file", type=Path, metavar="FILE")
    add_data(command)
    command.set_defaults(run=backup)
    command = commands.add_parser("restore", help="put everything back from such a file")
    command.add_argument("file", type=Path, metavar="FILE")
    command.add_argument("--replace", action="store_true", help="lose what is here now")
    add_data(command)
    command.set_defaults(run=restore)
    command = commands.add_parser("rebuild", help="make every table again from the log")
    add_data(command)
    command.set_defaults(run=rebuild)


def backup(given):
    """Write a copy."""
    settings = settings_of(given)
    with store.opened(settings):
        copies.write(given.file, settings.data)
    print(f"everything is in {given.file}: put it where only you can read it")


def restore(given):
    """Put a copy back."""
    settings = settings_of(given)
    with store.opened(settings):
        copies.restore(given.file, settings.data, given.replace)
    print("put back; each phone starts over at its next sync and sends again what is missing.")
    print("A phone removed after the copy was made can connect again: see boltfair phones.")


def rebuild(given):
    """Make the tables again."""
    with store.opened(settings_of(given)):
        with store.reading() as connection:
            known = log.businesses(connection)
        for business in known:
            with store.writing() as connection:
                print(f"{business}  {rebuild_tables(connection, business)} changes")
