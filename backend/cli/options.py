"""Options that several commands share, and what they stand for."""

from pathlib import Path

from ..access import businesses
from ..settings import DATA, from_environment


def add_data(command, default=None):
    """Add the option that names the data folder.

    Takes: default, argparse.SUPPRESS where the command above has the option too.
    """
    command.add_argument("--data", type=Path, metavar="DIR", default=default,
                         help=f"the folder for all records (default {DATA})")  # fmt: skip


def add_business(command, default=None):
    """Add the option that chooses one of several businesses; default as for `add_data`."""
    command.add_argument("--business", metavar="B", default=default,
                         help="which one, by name or id, where there are several")  # fmt: skip


def settings_of(given):
    """Read the settings from the environment and a command's options."""
    settings = from_environment()
    if given.data:
        settings.data = given.data
    return settings


def business_of(connection, given):
    """Find the business that is meant. Raises: OSError, if that is not clear."""
    known = businesses.all_of(connection)
    meant = [one for one in known if given.business in (None, one.id, one.name)]
    if len(meant) == 1:
        return meant[0].id
    if not known:
        raise OSError("there is no business here yet: boltfair business add NAME")
    choices = ", ".join(f"{one.name} ({one.id})" for one in known)
    raise OSError(f"say which business is meant with --business: {choices}")
