"""A phone that keeps to the protocol and to nothing else, as short as that can be said.

It is written from the words of the protocol alone and shares no code with the page's own.
"""

import json

from tests.phones import now, uuid7

MOST_SENT = 1500
# a clock that is corrected by more than this may go back
CLOCK_SLACK_MS = 120_000


class ReferencePhone:
    """A paired phone. Its clock is wrong by `skew` ms; what it measured of that is `offset`."""

    def __init__(self, told, cookie, skew):
        self.id, self.role, self.business = told["device"]["id"], told["device"]["role"], told["business"]
        self.epoch, self.cursor, self.last, self.cookie = told["epoch"], 0, None, cookie
        self.skew, self.offset, self.last_at, self.heard = skew, 0, 0, "0"
        # the log by number; what is not seen in it yet, oldest first; what the server refused
        self.log, self.hidden = {}, set()
        self.outbox, self.to_check = {}, {}
        # numbers that replies gave to changes that no page has shown yet
        self.numbered = {}
        # the log of a life that ended, until all of it is seen again
        self.before = {}

    # making changes

    def clock(self):
        """Tell the time as this phone thinks it is."""
        return now() + self.skew + self.offset

    def make(self, kind, fields, **more):
        """Make a change, and keep it until it is seen in the log."""
        at = self.clock()
        if self.last_at - CLOCK_SLACK_MS < at < self.last_at:
            at = self.last_at
        self.last_at = at
        change = {
            "id": uuid7(),
            "kind": kind,
            "fields": fields,
            "at": at,
            "stamp": self._stamp(at),
            "schema": 1,
        }
        self.outbox[change["id"]] = change | more
        return change["id"]

    def _stamp(self, at):
        """Make a stamp after all that this phone made or saw."""
        latest = max([self.heard] + [change["stamp"] for change in self.outbox.values()])
        counter = 0 if f"{at:013}" > latest[:13] else int(latest[14:18]) + 1
        return f"{at if counter == 0 else int(latest[:13]):013}-{counter:04}-{self.id}"

    # the exchange

    def request(self, most=MOST_SENT):
        """Write what is sent: (epoch, cursor, ids, body)."""
        changes = [change for change in self.outbox.values() if change["id"] not in self.numbered][:most]
        body = {"epoch": self.epoch, "cursor": self.cursor, "schema": 1, "sent_at": now() + self.skew}
        body |= {"last": self.last, "changes": changes}
        return self.epoch, self.cursor, [change["id"] for change in changes], json.dumps(body).encode()

    def receive(self, request, text):
        """Take in a reply, whole or not at all, however late it is. Raises: ValueError for half a reply."""
        told = json.loads(text)
        epoch, cursor, ids, _ = request
        if (epoch, cursor) != (self.epoch, self.cursor):
            return
        self.offset = told["server_time"] - (now() + self.skew)
        if (told["epoch"], told["from"], told["role"]) != (self.epoch, cursor, self.role):
            self._start_over(told)
            return
        for id, result in zip(ids, told["results"], strict=True):
            self._note(id, result)
        seqs = [change["seq"] for change in told["changes"]] + told["hidden"]
        # the rest of the page is what was sent with this request
        own = {self.numbered[id]: self.outbox[id] for id in ids if id in self.numbered}
        own = [change | {"seq": seq} for seq, change in own.items() if seq not in seqs]
        own = [change for change in own if cursor < change["seq"] <= told["through"]]
        seqs += [change["seq"] for change in own]
        assert sorted(seqs) == list(range(cursor + 1, told["through"] + 1))
        for change in told["changes"] + own:
            self._see(change)
        self.hidden.update(told["hidden"])
        self.cursor, self.last = told["through"], told["last"]
        if not told["more"]:
            self.before = {}

    def _note(self, id, result):
        if id not in self.outbox:
            return
        if result["status"] == "rejected":
            self.to_check[id] = (self.outbox.pop(id), result["errors"])
        else:
            self.numbered[id] = result["seq"]
            # the server may have put it right
            for name in ("stamp", "at"):
                self.outbox[id][name] = result.get(name, self.outbox[id][name])

    def _see(self, change):
        # what the server added is its own, and no part of what is sent again
        self.log[change["seq"]] = {name: change[name] for name in change if name not in ("seq", "received")}
        self.heard = max(self.heard, change["stamp"])
        self.outbox.pop(change["id"], None)
        self.numbered.pop(change["id"], None)

    def _start_over(self, told):
        """Begin another life: pull from the start; an owner sends all it holds again, a helper its own."""
        self.epoch, self.role, self.cursor, self.last = told["epoch"], told["role"], 0, None
        self.before = {change["id"]: change for change in self.log.values()} | self.before
        held = [
            change
            for change in self.before.values()
            if "partial" not in change and (self.role == "owner" or change["stamp"].endswith(self.id))
        ]
        self.outbox = {change["id"]: change for change in held} | self.outbox
        self.log, self.hidden, self.numbered = {}, set(), {}
