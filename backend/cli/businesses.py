"""`boltfair business`: which businesses are kept here."""

import time
from types import SimpleNamespace

from .. import store
from ..access import businesses
from ..core.numbers.money import EXPONENTS
from ..core.records.envelope import SCHEMA
from ..sync.push import push
from ..sync.words import word
from .options import add_data, settings_of


def declare(commands):
    """Declare the command."""
    command = commands.add_parser("business", help="add a business, or list those kept here")
    actions = command.add_subparsers(required=True, metavar="add NAME | list")
    adding = actions.add_parser("add", help="add a business")
    adding.add_argument("name", metavar="NAME")
    adding.add_argument("--currency", default="EUR", choices=sorted(EXPONENTS), metavar="CODE",
                        help="what it sells in (ISO 4217; default %(default)s)")  # fmt: skip
    adding.set_defaults(run=add)
    listing = actions.add_parser("list", help="list the businesses, oldest first")
    listing.set_defaults(run=show)
    for one in (adding, listing):
        add_data(one)


def add(given):
    """Begin a business, and say in its log what it is called."""
    now = time.time_ns() // 1_000_000
    with store.opened(settings_of(given)), store.writing() as connection:
        id = businesses.begin(connection, now)
        # the server speaks for the business itself, as a device of that id
        change = {
            "id": id, "record": id, "kind": "business", "at": now, "stamp": f"{now:013}-0000-{id}",
            "schema": SCHEMA, "fields": {"name": given.name, "currency": given.currency},
        }  # fmt: skip
        [result] = push(connection, SimpleNamespace(business=id, id=id, role="owner"), [change], now)
        if result.problems:
            raise OSError("; ".join(f"{item['field']} {word(item)}" for item in result.problems))
    print(f"{id}  {given.name}")


def show(given):
    """List the businesses."""
    with store.opened(settings_of(given)), store.reading() as connection:
        for one in businesses.all_of(connection):
            print(f"{one.id}  {one.name}")
