"""Phones that make changes: the same ids and stamps every time."""

from ..numbers.calendar import padded
from ..records.envelope import SCHEMA

HEX = "0123456789abcdef"
PAIRS = [first + second for first in HEX for second in HEX]


class Ids:
    """Makes ids as phones do, but from a seeded chance, and such that those of one moment are in the order of
    their making.

    Source: RFC 9562, sections 5.7 and 6.2, method 1.
    """

    def __init__(self, chance):
        self.chance = chance
        self.last_at, self.counter = 0, 0

    def make(self, at):
        """Make an id of a time, UTC ms."""
        self.counter = self.counter + 1 if at == self.last_at else 0
        self.last_at = at
        early, late = at // 16777216, at % 16777216
        time = _three_pairs(early) + _three_pairs(late)
        order = HEX[self.counter // 256 % 16] + PAIRS[self.counter % 256]
        drawn = [self.chance.below(65536) for _ in range(4)]
        ends = [PAIRS[part // 256] + PAIRS[part % 256] for part in drawn]
        variant = "89ab"[drawn[0] % 4] + ends[0][:3]
        return "-".join([time[:8], time[8:], "7" + order, variant, ends[1] + ends[2] + ends[3]])


def _three_pairs(number):
    return PAIRS[number // 65536 % 256] + PAIRS[number // 256 % 256] + PAIRS[number % 256]


class InventedPhone:
    """A phone: makes changes, holds them until it is online, and never sets its clock back."""

    def __init__(self, ids, made_at, name, role):
        self.ids = ids
        self.id = ids.make(made_at)
        self.name = name
        self.role = role
        self.waiting = []
        self.last_at, self.counter = 0, 0

    def fact(self, kind, at, day, fields):
        """Make a fact of a local date, YYYY-MM-DD; returns its id."""
        made = {"day": day}
        made.update(fields)
        return self._change(kind, at, made)["id"]

    def describe(self, kind, at, fields, record=None):
        """Make or edit a description; returns its record's id."""
        change = self._change(kind, at, fields)
        change["record"] = record or self.ids.make(at)
        return change["record"]

    def _change(self, kind, at, fields):
        self.counter = self.counter + 1 if at == self.last_at else 0
        self.last_at = at
        stamp = "-".join([padded(at, 13), padded(self.counter, 4), self.id])
        change = {
            "id": self.ids.make(at),
            "kind": kind,
            "fields": fields,
            "at": at,
            "stamp": stamp,
            "schema": SCHEMA,
        }
        self.waiting.append(change)
        return change

    def hand_over(self):
        """Give what is waiting, which is then sent."""
        sent, self.waiting = self.waiting, []
        return sent
