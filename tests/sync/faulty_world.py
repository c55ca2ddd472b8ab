"""Phones and a real server with everything between them that goes wrong, decided by one seed."""

import contextlib
import http.client
import threading
import time

from backend import store
from backend.store import log
from backend.sync import copies
from tests.phones import add_business, make_code, uuid7
from tests.sync.reference_phone import ReferencePhone

HOUR_MS = 3_600_000
MOST_SKEW_MS = 36 * HOUR_MS
DAY = "2026-05-02"
LOST = (OSError, http.client.HTTPException)
# what an exchange may meet, and how often
FAULTS = {
    "none": 8, "request lost": 2, "request cut off": 2, "reply lost": 2, "reply cut off": 2, "repeated": 2,
    "request late": 2, "reply late": 2, "killed in it": 0.35,
}  # fmt: skip


class World:
    """A business with a few phones on a server that others may have used before."""

    def __init__(self, random, server, folder):
        self.random, self.server, self.folder = random, server, folder
        self.business = add_business()
        roles = ["owner", "owner" if random.random() < 0.4 else "helper", *["helper"] * random.randint(0, 1)]
        self.phones = [self._pair(role) for role in roles]
        self.places, self.products = [uuid7() for _ in range(2)], [uuid7() for _ in range(3)]
        self.made, self.bad, self.order = {}, set(), {}
        self.sales, self.results = [], []
        # what is still on its way: (phone, request, None for the request or the reply's text)
        self.in_the_air = []
        self.copy, self.restored, self.lost, self.met = None, 0, [], set()

    def _pair(self, role):
        told, cookie = self.server.pair_by(make_code(self.business, role))
        return ReferencePhone(told, cookie, self.random.randint(-MOST_SKEW_MS, MOST_SKEW_MS))

    def run(self, steps):
        """Let things happen, one after another."""
        happenings = {
            self.work: 10, self.meet: 12, self.deliver: 4, self.set_clock: 1, self.kill: 0.2, self.back_up: 2,
            self.restore: 0.5,
        }  # fmt: skip
        for _ in range(steps):
            [happen] = self.random.choices(list(happenings), list(happenings.values()))
            happen()

    # what people do

    def work(self):
        """Make a few changes on one phone."""
        phone = self.random.choice(self.phones)
        for _ in range(self.random.randint(1, 4)):
            kinds = [self._sell, self._sell, self._void, self._move, self._ask, self._mistake]
            kinds += [self._sew, self._sew_not, self._time]
            self.random.choice(kinds + ([self._describe] * 3 + [self._spend]) * (phone.role == "owner"))(
                phone
            )

    def _keep(self, phone, kind, fields, **more):
        id = phone.make(kind, fields, **more)
        self.made[id] = dict(phone.outbox[id])
        self.order.setdefault(phone.id, []).append(id)
        return id

    def _sell(self, phone):
        quantity = self.random.randint(1, 3)
        line = {"product": self.random.choice(self.products), "quantity": quantity, "unit_price": 600}
        line["total"] = quantity * 600
        fields = {
            "day": DAY,
            "place": self.places[0],
            "lines": [line],
            "amount": line["total"],
            "payment": "cash",
        }
        self.sales.append(self._keep(phone, "sale", fields))

    def _void(self, phone):
        # perhaps of a sale that this phone cannot know of yet
        if self.sales:
            self._keep(phone, "void", {"day": DAY, "sale": self.random.choice(self.sales)})

    def _sew(self, phone):
        line = {"product": self.random.choice(self.products), "made": 24, "good": self.random.randint(0, 24)}
        fields = {"day": DAY, "batch": self.places[0], "place": self.places[1], "lines": [line]}
        self.results.append(self._keep(phone, "batch-result", fields))

    def _sew_not(self, phone):
        if self.results:
            self._keep(phone, "batch-void", {"day": DAY, "result": self.random.choice(self.results)})

    def _time(self, phone):
        laps = [{"pieces": 12, "took_ms": self.random.randint(1, 900_000)}]
        self._keep(phone, "batch-step", {"day": DAY, "batch": self.places[0], "step": "Sew", "laps": laps})

    def _spend(self, phone):
        fields = {"day": DAY, "what": "Parking", "amount": self.random.randint(1, 900)}
        self._keep(phone, "expense", fields)

    def _move(self, phone):
        source, target = self.random.sample(self.places, 2)
        fields = {"day": DAY, "from": source, "to": target, "product": self.random.choice(self.products)}
        self._keep(phone, "move", fields | {"quantity": self.random.randint(1, 9)})

    def _ask(self, phone):
        fields = {"day": DAY, "place": self.places[0], "product": self.random.choice(self.products)}
        self._keep(phone, "asked-for", fields)

    def _describe(self, phone):
        price, name = self.random.randint(1, 999), f"name {self.random.randint(1, 99)}"
        kind, record, fields = self.random.choice((
            ("place", self.places[0], {"name": name}),
            ("place", self.places[0], {"use": self.random.choice(("home", "stall"))}),
            ("product", self.products[0], {"price": price, "name": name}),
            ("cloth", self.products[1], {"price": price, "name": name}),
            ("cloth", self.products[1], {"price": price}),
        ))  # fmt: skip
        self._keep(phone, kind, fields, record=record)

    def _mistake(self, phone):
        if self.random.random() < 0.3:
            fields = {
                "day": DAY,
                "place": self.places[0],
                "product": self.products[0],
                "size": self.products[0],
            }
            self.bad.add(self._keep(phone, "asked-for", fields))

    def set_clock(self):
        """Set one phone's clock to another wrong time."""
        self.random.choice(self.phones).skew = self.random.randint(-MOST_SKEW_MS, MOST_SKEW_MS)

    # what goes wrong between

    def meet(self):
        """Let one phone exchange with the server, and something may happen to it."""
        phone = self.random.choice(self.phones)
        [fault] = self.random.choices(list(FAULTS), list(FAULTS.values()))
        self.met.add(fault)
        request = phone.request(self.random.choice((1, 5, 1000)))
        if fault == "request late":
            self.in_the_air.append((phone, request, None))
        elif fault == "request cut off":
            length = self.random.randrange(len(request[3]))
            with contextlib.suppress(*LOST):
                self.server.post_part("/sync", request[3], phone.cookie, length)
        elif fault == "killed in it":
            self._kill_in(phone, request)
        elif fault != "request lost":
            self._pass_on(phone, request, fault)

    def _pass_on(self, phone, request, fault):
        text = self._post(phone, request)
        if fault == "none":
            phone.receive(request, text)
        elif fault == "reply late":
            self.in_the_air.append((phone, request, text))
        elif fault == "reply cut off":
            with contextlib.suppress(ValueError):
                phone.receive(request, text[: self.random.randrange(len(text))])
        elif fault == "repeated":
            texts = [text]
            twice = [
                threading.Thread(target=lambda: texts.append(self._post(phone, request))) for _ in range(2)
            ]
            for one in twice:
                one.start()
            for one in twice:
                one.join()
            self.random.shuffle(texts)
            for one in texts:
                phone.receive(request, one)

    def _post(self, phone, request):
        status, text, _ = self.server.post("/sync", request[3], phone.cookie)
        assert status == 200, text
        return text

    def deliver(self):
        """Let something that was late arrive, whatever came in between."""
        if not self.in_the_air:
            return
        phone, request, text = self.in_the_air.pop(self.random.randrange(len(self.in_the_air)))
        phone.receive(request, text or self._post(phone, request))

    def _kill_in(self, phone, request):
        killer = threading.Timer(self.random.uniform(0, 0.015), self.server.kill)
        killer.start()
        with contextlib.suppress(*LOST):
            phone.receive(request, self._post(phone, request))
        killer.join()
        self.server.start()

    def kill(self):
        """Kill the server while nothing is on its way."""
        self.server.kill()
        self.server.start()

    def back_up(self):
        """Copy everything while the server runs, but once only: the copy shall grow old."""
        if self.copy is None:
            self.copy = self.folder / f"copy-{self.business}"
            copies.write(self.copy, self.server.data)

    def restore(self):
        """Kill the server, and put back the old copy; at times a phone is lost with what was killed."""
        if self.copy is None or self.restored == 2:
            return
        self.server.kill()
        copies.restore(self.copy, self.server.data, replace=True)
        self.restored += 1
        # one at least is left to tell what was
        if self.random.random() < 0.3 and len(self.phones) > 1:
            self._lose_phone()
        self.server.start()

    def _lose_phone(self):
        # the first is an owner's, and stays
        gone = self.phones.pop()
        self.in_the_air = [late for late in self.in_the_air if late[0] is not gone]
        self.lost.append(gone)
        held = {row.id for row in self.log()}
        for phone in self.phones:
            if phone.role == "owner":
                held.update(phone.before, phone.outbox, [change["id"] for change in phone.log.values()])
        for id in self.order.get(gone.id, ()):
            if id not in held:
                del self.made[id]

    # the end

    def settle(self):
        """Let all that is late arrive, then let every phone exchange until nothing is left."""
        while self.in_the_air:
            self.deliver()
        deadline = time.monotonic() + 60
        while not self._is_settled():
            assert time.monotonic() < deadline, "the phones and the server do not come to rest"
            for phone in self.phones:
                request = phone.request()
                phone.receive(request, self._post(phone, request))

    def _is_settled(self):
        known = {(phone.epoch, phone.cursor) for phone in self.phones}
        waiting = [phone for phone in self.phones if phone.outbox or phone.before]
        return (
            len(known) == 1 and not waiting and {phone.cursor for phone in self.phones} == {len(self.log())}
        )

    def log(self):
        """Read the server's log, as rows."""
        with store.reading() as connection:
            last_seq = log.head(connection, self.business).last_seq
            with log.page(connection, self.business, 0, last_seq) as rows:
                return rows.all()
