"""`boltfair demo`: the year of an invented maker, to look around in."""

import time
from datetime import date

from .. import store
from ..access import businesses
from ..demo import HasRecords, load
from .options import add_business, add_data, business_of, settings_of


def declare(commands):
    """Declare the command."""
    command = commands.add_parser("demo", help="load the year of an invented maker, to look around in")
    add_data(command)
    add_business(command)
    command.add_argument("--day", type=date.fromisoformat, metavar="DAY",
                         help="the market day that it leads up to, YYYY-MM-DD (default today)")  # fmt: skip
    command.set_defaults(run=demo)


def demo(given):
    """Load the year into a business that has no records, begun if there is none."""
    with store.opened(settings_of(given)), store.writing() as connection:
        if not businesses.all_of(connection):
            businesses.begin(connection, time.time_ns() // 1_000_000)
        try:
            loaded = load(connection, business_of(connection, given), given.day or date.today())
        except HasRecords:
            raise OSError(
                "there are records here already: give the demo a folder of its own with --data"
            ) from None
    print(f"a year of Tern & Tansy is here, in {loaded:,} changes; boltfair serve shows it to a phone")
