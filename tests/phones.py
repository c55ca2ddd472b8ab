"""A phone, as the server sees one: paired by a code, with a cookie, making changes and sending them."""

import json
import time
import uuid

from backend import store
from backend.access import codes
from backend.store import log

ORIGIN = "http://localhost"


def now():
    return time.time_ns() // 1_000_000


def uuid7(ms=None):
    """Make an id as phones do (RFC 9562, section 5.7)."""
    ms = now() if ms is None else ms
    rest = uuid.uuid4().int & ((1 << 80) - 1)
    number = ms << 80 | rest
    number = number & ~(0xF << 76) | 7 << 76
    return str(uuid.UUID(int=number & ~(3 << 62) | 2 << 62))


def add_business():
    """Begin a business's log; returns its id. Needs an app context."""
    business = uuid7()
    with store.writing() as connection:
        log.begin(connection, business, str(uuid.uuid4()), now())
    return business


def make_code(business, role="owner", name=None, at=None):
    """Make a pairing code. Needs an app context."""
    with store.writing() as connection:
        return codes.make(connection, business, role, name, now() if at is None else at)


class Phone:
    """A paired phone that asks through the app's test client."""

    def __init__(self, app, business, role="owner", name="A phone", **known):
        self.client = app.test_client()
        reply = self.ask("POST", "/devices", {"code": make_code(business, role), "name": name, **known})
        assert reply.status_code == 200, reply.get_json()
        told = reply.get_json()
        self.id, self.business, self.role = told["device"]["id"], told["business"], told["device"]["role"]
        self.epoch, self.cursor, self.counter = told["epoch"], 0, 0

    def ask(self, method, path, given=None, **headers):
        """Ask an address below /api/v1 as this server's own pages do."""
        return self.client.open(
            f"/api/v1{path}", method=method, json=given, headers={"Origin": ORIGIN, **headers}
        )

    def stamp(self, at=None):
        """Make the next stamp."""
        self.counter += 1
        return f"{now() if at is None else at:013}-{self.counter % 10000:04}-{self.id}"

    def fact(self, kind, fields, at=None, **more):
        """Make a fact."""
        at = now() if at is None else at
        made = {"id": uuid7(), "kind": kind, "fields": fields, "at": at, "stamp": self.stamp(at), "schema": 1}
        return made | more

    def edit(self, kind, record, fields, at=None):
        """Make a change of a description."""
        return self.fact(kind, fields, at, record=record)

    def sale(self, quantity=1, unit_price=600, **more):
        """Make a sale of one line."""
        total = quantity * unit_price
        line = {"product": PRODUCT, "quantity": quantity, "unit_price": unit_price, "total": total}
        fields = {"day": "2026-05-02", "place": PLACE, "lines": [line], "amount": total, "payment": "cash"}
        return self.fact("sale", fields | more)

    def exchange(self, changes=(), **given):
        """Send changes and take the page: returns the reply's JSON, and moves the cursor."""
        reply = self.send(changes, **given)
        assert reply.status_code == 200, reply.get_json()
        told = reply.get_json()
        if told["epoch"] == self.epoch and told["from"] == self.cursor:
            self.cursor = told["through"]
        return told

    def send(self, changes=(), **given):
        """Send changes; returns the response."""
        body = {
            "epoch": self.epoch,
            "cursor": self.cursor,
            "schema": 1,
            "sent_at": now(),
            "changes": list(changes),
        }
        return self.ask("POST", "/sync", body | given)

    def pull_all(self):
        """Pull from the start: returns (changes, hidden)."""
        changes, hidden, cursor, more = [], [], 0, True
        while more:
            told = self.send(cursor=cursor).get_json()
            changes += told["changes"]
            hidden += told["hidden"]
            cursor, more = told["through"], told["more"]
        return changes, hidden


PRODUCT, PLACE, SALE_DAY = uuid7(), uuid7(), "2026-05-02"


def text_of(change):
    """Write a change as text, to compare."""
    return json.dumps(change, sort_keys=True)
