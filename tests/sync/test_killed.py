"""The real server, killed in the middle of pushes: nothing acknowledged is lost, nothing is doubled."""

import contextlib
import http.client
import json
import os
import random
import subprocess
import sys
import threading

import pytest

from e2e.server import Server
from tests.phones import PLACE, PRODUCT, now, uuid7

ORIGIN_OF = "http://127.0.0.1:{}"


class Killable(Server):
    """A server process that can be killed, and started again on the same data."""

    def __init__(self, settings):
        super().__init__(settings.data)
        self.settings = settings

    def start(self):
        os.environ.pop("DATABASE_URL", None)
        if self.settings.database_url:
            os.environ["DATABASE_URL"] = self.settings.database_url
        try:
            super().start()
        finally:
            os.environ.pop("DATABASE_URL", None)

    def kill(self):
        """End the process with SIGKILL, and wait until all of it is gone."""
        self.process.kill()
        self.process.communicate(timeout=60)
        self.process = None

    def pair(self):
        """Pair a phone: returns its reply and its cookie."""
        command = [sys.executable, "-c", "import sys; from backend.cli import main; sys.exit(main())"]
        environment = os.environ | self.settings.to_environment()
        told = subprocess.run([*command, "pair", "--json"], env=environment, capture_output=True, check=True)
        status, told, cookie = self.ask("/devices", {"code": json.loads(told.stdout)["code"], "name": "x"})
        assert status == 200
        return told, cookie

    def ask(self, path, given, cookie=None):
        """Post JSON: returns (status, reply, cookie)."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        with contextlib.closing(connection):
            headers = {"Content-Type": "application/json", "Origin": self.address, "Cookie": cookie or ""}
            connection.request("POST", f"/api/v1{path}", json.dumps(given), headers)
            reply = connection.getresponse()
            cookie = (reply.headers["Set-Cookie"] or "").partition(";")[0]
            return reply.status, json.loads(reply.read()), cookie


def sale(device, counter):
    at = now()
    line = {"product": PRODUCT, "quantity": 1, "unit_price": 600, "total": 600}
    fields = {"day": "2026-05-02", "place": PLACE, "lines": [line], "amount": 600, "payment": "cash"}
    stamp = f"{at:013}-{counter:04}-{device}"
    return {"id": uuid7(), "kind": "sale", "fields": fields, "at": at, "stamp": stamp, "schema": 1}


@pytest.mark.full
def test_a_server_killed_in_the_middle_of_pushes_loses_and_doubles_nothing(settings, how_many):
    chance = random.Random(7)
    with Killable(settings) as server:
        told, cookie = server.pair()
        device, epoch = told["device"]["id"], told["epoch"]
        waiting = [sale(device, counter) for counter in range(how_many(1200, 8000))]
        made, acknowledged = {change["id"] for change in waiting}, {}

        def send(changes):
            body = {"epoch": epoch, "cursor": 0, "schema": 1, "sent_at": now(), "changes": changes}
            status, reply, _ = server.ask("/sync", body, cookie)
            assert status == 200
            for change, result in zip(changes, reply["results"], strict=True):
                assert result["status"] in ("accepted", "duplicate")
                assert acknowledged.setdefault(change["id"], result["seq"]) == result["seq"]
            del waiting[: len(changes)]

        kills = 0
        while waiting:
            killer = threading.Timer(chance.uniform(0.02, 0.3), server.kill)
            if kills < how_many(3, 25):
                killer.start()
            # what the phone was not told of it sends again, blindly
            with contextlib.suppress(OSError, http.client.HTTPException):
                while waiting:
                    send(waiting[: chance.choice((1, 20, 60))])
            if killer.is_alive() or killer.finished.is_set() and server.process is None:
                killer.join()
                kills += 1
                server.start()
        assert kills >= how_many(3, 25)
        seqs, after, more = [], 0, True
        found = []
        while more:
            body = {"epoch": epoch, "cursor": after, "schema": 1, "sent_at": now(), "changes": []}
            _, page, _ = server.ask("/sync", body, cookie)
            found += page["changes"]
            after, more = page["through"], page["more"]
        seqs = [change["seq"] for change in found]
        assert seqs == list(range(1, len(made) + 1))
        assert {change["id"]: change["seq"] for change in found} == acknowledged
        assert set(acknowledged) == made
