"""`boltfair pair` and `boltfair devices`: letting phones in, and taking them off."""

import json
import time
from datetime import UTC, datetime

from .. import store
from ..access import codes, phones
from ..access.showing import code_in_words
from ..store import devices
from .options import add_business, add_data, business_of, settings_of


def declare(commands):
    """Declare the commands."""
    command = commands.add_parser("pair", help="make a code that pairs one phone, once, within ten minutes")
    add_data(command)
    add_business(command)
    command.add_argument("--name", metavar="N", help="what the phone will be called")
    command.add_argument("--role", choices=("owner", "helper"), default="owner", help="default %(default)s")
    command.add_argument("--json", action="store_true", help="as JSON, for programs")
    command.set_defaults(run=pair)
    command = commands.add_parser("devices", help="list the phones, or take one off")
    add_data(command)
    add_business(command)
    actions = command.add_subparsers(metavar="revoke ID")
    revoking = actions.add_parser("revoke", help="take a phone off: its next exchange is refused")
    revoking.add_argument("id", metavar="ID")
    revoking.set_defaults(run=revoke)
    command.set_defaults(run=show)


def pair(given):
    """Make a code and show it."""
    settings, now = settings_of(given), time.time_ns() // 1_000_000
    with store.opened(settings), store.writing() as connection:
        business = business_of(connection, given)
        code = codes.make(connection, business, given.role, given.name, now)
    link = codes.link(settings.address, code)
    if given.json:
        told = {"business": business, "role": given.role, "name": given.name, "code": code, "link": link}
        print(json.dumps(told | {"ends_at": now + codes.LIFE_MS}))
    else:
        print(code_in_words(code, link))


def show(given):
    """List the phones of a business."""
    with store.opened(settings_of(given)), store.reading() as connection:
        rows = devices.of_business(connection, business_of(connection, given))
    for row in rows:
        state = "taken off" if row.revoked_at else f"last seen {_moment(row.seen_at)}"
        waiting = f", {row.unsent} not sent" if row.unsent else ""
        print(f"{row.id}  {row.role:6}  {row.name}  ({state}{waiting})")


def revoke(given):
    """Take a phone off."""
    with store.opened(settings_of(given)):
        with store.reading() as connection:
            business = business_of(connection, given)
        if not phones.revoke(business, given.id, time.time_ns() // 1_000_000):
            raise OSError(f"there is no phone {given.id} here")
    print(f"{given.id} is taken off: its next exchange is refused")


def _moment(ms):
    return datetime.fromtimestamp(ms // 1000, UTC).strftime("%Y-%m-%d %H:%M UTC") if ms else "never"
