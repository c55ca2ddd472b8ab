"""`boltfair pair` and `boltfair phones`: letting phones in, and removing them."""

import argparse
import json
import time
from datetime import UTC, datetime

from .. import store
from ..access import codes, phones
from ..access.showing import code_in_words
from ..core.declaring.errors import Problems
from ..core.presenting.wording import word
from ..core.records.checking import check
from ..store import devices
from .options import add_business, add_data, business_of, settings_of


def declare(commands):
    """Declare the commands."""
    command = commands.add_parser("pair", help="make a code that pairs one phone, once, within ten minutes")
    add_data(command)
    add_business(command)
    command.add_argument("--name", type=phone_name, metavar="N", help="what the phone will be called")
    command.add_argument("--role", choices=("owner", "helper"), default="owner", help="default %(default)s")
    command.add_argument("--json", action="store_true", help="as JSON, for programs")
    command.set_defaults(run=pair)
    command = commands.add_parser("phones", aliases=["devices"], help="list the phones, or remove one")
    add_data(command)
    add_business(command)
    actions = command.add_subparsers(metavar="revoke ID")
    revoking = actions.add_parser("revoke", help="remove a phone: it can no longer connect")
    revoking.add_argument("id", metavar="ID")
    add_data(revoking, default=argparse.SUPPRESS)
    add_business(revoking, default=argparse.SUPPRESS)
    revoking.set_defaults(run=revoke)
    command.set_defaults(run=show)


def phone_name(text):
    """Read what a phone is called, within the limits of its record."""
    try:
        return check("device-name", {"name": text}, True)["name"]
    except Problems as error:
        raise argparse.ArgumentTypeError(word(error.problems[0])) from None


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
        state = "removed" if row.revoked_at else f"last seen {_moment(row.seen_at)}"
        waiting = f", {row.unsent} not sent" if row.unsent else ""
        print(f"{row.id}  {row.role:6}  {row.name}  ({state}{waiting})")


def revoke(given):
    """Remove a phone."""
    with store.opened(settings_of(given)):
        with store.reading() as connection:
            business = business_of(connection, given)
        if not phones.revoke(business, given.id, time.time_ns() // 1_000_000):
            raise OSError(f"there is no phone {given.id} here")
    print(f"{given.id} is removed: it can no longer connect")


def _moment(ms):
    return datetime.fromtimestamp(ms // 1000, UTC).strftime("%Y-%m-%d %H:%M UTC") if ms else "never"
