"""The real server, killed in the middle of pushes: nothing acknowledged is lost, nothing is doubled."""

import contextlib
import http.client
import random
import threading

import pytest

from tests.phones import PLACE, PRODUCT, now, uuid7
from tests.sync.killable import Killable


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
        waiting, made, acknowledged = [], set(), {}

        def sell(many):
            waiting.extend(sale(device, counter) for counter in range(many))
            made.update(change["id"] for change in waiting)

        def send(changes):
            body = {"epoch": epoch, "cursor": 0, "schema": 1, "sent_at": now(), "changes": changes}
            status, reply, _ = server.ask("/sync", body, cookie)
            assert status == 200, reply
            for change, result in zip(changes, reply["results"], strict=True):
                assert result["status"] in ("accepted", "duplicate")
                assert acknowledged.setdefault(change["id"], result["seq"]) == result["seq"]
            del waiting[: len(changes)]

        kills, most_kills = 0, how_many(3, 25)
        sell(how_many(1200, 8000))
        while waiting or kills < most_kills:
            if not waiting:
                # however fast the server is, there is something to be killed in
                sell(400)
            killer = threading.Timer(chance.uniform(0.02, 0.3), server.kill)
            if kills < most_kills:
                killer.start()
            # what the phone was not told of it sends again, blindly
            with contextlib.suppress(OSError, http.client.HTTPException):
                while waiting:
                    send(waiting[: chance.choice((1, 20, 60))])
            if killer.is_alive() or killer.finished.is_set() and server.process is None:
                killer.join()
                kills += 1
                server.start()
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
