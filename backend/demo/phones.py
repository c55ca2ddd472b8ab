"""Phones that make changes: the same ids and stamps every time."""

import uuid
from contextlib import contextmanager

SCHEMA = 1


class Ids:
    """Makes ids as phones do (RFC 9562, section 5.7), but from a seeded chance."""

    def __init__(self, random):
        self.random = random

    def make(self, at):
        """Make an id of a time, UTC ms."""
        number = at << 80 | 7 << 76 | self.random.getrandbits(12) << 64
        return str(uuid.UUID(int=number | 2 << 62 | self.random.getrandbits(62)))


class DemoPhone:
    """A phone: makes changes, holds them until it is online, and never sets its clock back."""

    def __init__(self, ids, made_at, name, role):
        self.ids = ids
        self.id = ids.make(made_at)
        self.name = name
        self.role = role
        self.waiting = []
        self.last_at, self.counter = 0, 0

    def fact(self, kind, at, day, **fields):
        """Make a fact of a local date; returns its id."""
        return self._change(kind, at, {"day": day.isoformat(), **fields})

    def describe(self, kind, at, record=None, **fields):
        """Make or edit a description; returns its record's id."""
        record = record or self.ids.make(at)
        self._change(kind, at, fields, record=record)
        return record

    @contextmanager
    def drawing_from(self, ids):
        """Draw ids from another chance for a while, so that all others stay as they are."""
        own, self.ids = self.ids, ids
        yield
        self.ids = own

    def _change(self, kind, at, fields, **more):
        self.counter = self.counter + 1 if at == self.last_at else 0
        self.last_at = at
        id = self.ids.make(at)
        stamp = f"{at:013}-{self.counter:04}-{self.id}"
        change = {"id": id, "kind": kind, "fields": fields, "at": at, "stamp": stamp, "schema": SCHEMA}
        self.waiting.append(change | more)
        return id

    def hand_over(self):
        """Give what is waiting, which is then sent."""
        sent, self.waiting = self.waiting, []
        return sent
