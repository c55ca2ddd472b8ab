"""A stranger must not stop the server: long calculations, half-sent bodies, and both at once."""

import asyncio
import json
import re
import socket
import time
import tracemalloc
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from http.client import HTTPConnection
from types import SimpleNamespace

import pytest

from backend.api.bodies import MOST_RAW_BYTES, MOST_RAW_BYTES_OF_STRANGERS
from backend.api.calculators import SECONDS
from backend.core.catalogue import calculator_named
from backend.gateway import SECONDS_WITHOUT_BYTES, Gateway, Limits
from e2e.server import Server
from e2e.shop import Shop
from tests.phones import uuid7

STRANGERS, HALF_SENT = 64, 150
# as hard as a short body can be: a dozen sizes that share no measure, and all the steps there are
STEPS = next(field.highest for field in calculator_named("cutting-layout").inputs if field.name == "steps")
HARD = {
    "steps": STEPS,
    "cloths": [{"name": "Lawn", "width": 1400}],
    "strips": [
        {"name": f"Size {k}", "length": 203 + 47 * k, "width": 41 + 13 * k, "quantity": 135}
        for k in range(12)
    ],
}
EASY = {
    "cloths": [{"name": "Lawn", "width": 1400}],
    "strips": [{"name": "Everyday", "length": 482, "width": 110, "quantity": 12}],
}
LAYOUT = "/api/v1/calculators/cutting-layout"
# what a busy machine may take for a reply that takes milliseconds
SECONDS_OF_GRACE = 20


@pytest.fixture(scope="module")
def server(tmp_path_factory):
    with Server(tmp_path_factory.mktemp("data")) as started:
        yield started


def ask(server, path, given=None, **headers):
    """Ask over a connection of its own: (status, headers, JSON)."""
    connection = HTTPConnection("127.0.0.1", server.port, timeout=SECONDS + SECONDS_OF_GRACE)
    try:
        body = None if given is None else json.dumps(given)
        headers = {"Content-Type": "application/json", "Origin": server.address, **headers}
        connection.request("GET" if given is None else "POST", path, body, headers)
        reply = connection.getresponse()
        return reply.status, reply.headers, json.loads(reply.read())
    finally:
        connection.close()


def half_sent(server):
    """Begin a body and do not end it."""
    connection = socket.create_connection(("127.0.0.1", server.port), timeout=SECONDS_WITHOUT_BYTES * 4)
    connection.sendall(
        b"POST /api/v1/sync HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\n"
        b"Content-Length: 1000\r\n\r\n{"
    )
    return connection


def until_free(server):
    """Ask an easy layout until it is taken on: (status, headers, JSON)."""
    until = time.monotonic() + SECONDS_OF_GRACE
    while True:
        told = ask(server, LAYOUT, EASY)
        if told[0] != 503 or time.monotonic() > until:
            return told


def test_a_long_calculation_gives_the_best_so_far_when_its_time_is_up(server):
    status, _, told = ask(server, LAYOUT, HARD)
    assert status == 200
    assert told["result"]["unplaced"] == []
    assert not told["result"]["optimal"]
    assert told["result"]["bound"] <= told["result"]["bolt_length"]
    [note] = [note for note in told["notes"] if note["rule"] == "out_of_time"]
    assert note["limit"] == SECONDS


def test_an_answer_that_is_proven_in_time_says_nothing_of_time(server):
    status, _, told = until_free(server)
    assert status == 200
    assert told["result"]["optimal"]
    assert [note["rule"] for note in told["notes"]] == []


def test_the_server_answers_everybody_beside_many_strangers_at_work(server):
    waiting = [half_sent(server) for _ in range(HALF_SENT)]
    with ThreadPoolExecutor(STRANGERS) as strangers:
        asked = [strangers.submit(ask, server, LAYOUT, HARD) for _ in range(STRANGERS)]
        assert [ask(server, "/healthz")[0] for _ in range(20)] == [200] * 20
        replies = [one.result() for one in asked]
    statuses = Counter(status for status, _, _ in replies)
    assert statuses[200] >= 1
    assert statuses[200] + statuses[503] == STRANGERS
    assert {headers["Retry-After"] for status, headers, _ in replies if status == 503} == {str(SECONDS)}
    # a body that does not come is not waited for, and holds nobody up until then
    for connection in waiting:
        assert connection.recv(1000).startswith(b"HTTP/1.1 408 ")
        connection.close()


def test_a_calculation_that_nobody_waits_for_is_ended(server):
    body = json.dumps(HARD).encode()
    head = f"POST {LAYOUT} HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\n"
    for _ in range(5):
        assert until_free(server)[0] == 200
        connection = socket.create_connection(("127.0.0.1", server.port))
        connection.sendall(f"{head}Content-Length: {len(body)}\r\n\r\n".encode() + body)
        connection.close()
    status, _, told = until_free(server)
    assert status == 200 and told["result"]["optimal"]


def test_a_body_that_ends_early_or_is_too_large_is_refused(server):
    for length, status in ((1000, b"400"), (100_000_000, b"413")):
        with socket.create_connection(("127.0.0.1", server.port), timeout=SECONDS_OF_GRACE) as connection:
            head = f"POST {LAYOUT} HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: {length}\r\n\r\n"
            connection.sendall(head.encode() + b"{}")
            connection.shutdown(socket.SHUT_WR)
            got = connection.recv(1000)
        # a server may also let go of whoever has let go
        assert got == b"" or got.startswith(b"HTTP/1.1 " + status)
    assert ask(server, "/healthz")[0] == 200


def paired(server):
    """Pair a phone: (its cookie, the epoch)."""
    name = {"code": Shop(server).code()["code"], "name": "Imke's phone"}
    status, headers, told = ask(server, "/api/v1/devices", name)
    assert status == 200, told
    return re.match("[^;]+", headers["Set-Cookie"])[0], told["epoch"]


def test_only_phones_of_a_business_here_send_large_bodies(server):
    # an easy layout, and blanks; a record in an exchange that nobody reads
    large = {**EASY, "note": " " * MOST_RAW_BYTES_OF_STRANGERS}
    cookie, epoch = paired(server)
    push = {"epoch": epoch, "cursor": 0, "schema": 1, "sent_at": 0, "changes": [{"id": large["note"]}]}
    limit = f"at most {MOST_RAW_BYTES_OF_STRANGERS} bytes"
    made_up = "boltfair=" + ".".join([uuid7(), uuid7(), "x" * 43])
    for headers in ({}, {"Cookie": made_up}):
        status, _, told = ask(server, LAYOUT, large, **headers)
        assert (status, told["status"]) == (413, 413) and limit in told["detail"]
        # who has lost a cookie is told so, and pairs again
        assert ask(server, "/api/v1/sync", push, **headers)[0] == 401
    status, _, told = ask(server, "/api/v1/sync", push, Cookie=cookie)
    assert status == 200, told
    assert [result["status"] for result in told["results"]] == ["rejected"]
    # what is no larger is read, whoever asks
    assert ask(server, LAYOUT, {**EASY, "note": " " * 200_000})[0] == 422


def held_of(status, sent):
    """Send a body of so many bytes to an app that lets in with a status: (the reply's status, bytes held)."""
    told, peaks = [], []

    def app(environ, start):
        peaks.append(tracemalloc.get_traced_memory()[1])
        if environ["PATH_INFO"] == "/me":
            start(status, [])
        else:
            start("200 OK" if int(environ["CONTENT_LENGTH"]) <= MOST_RAW_BYTES else "413 Large", [])
        return [b""]

    class Coming:
        """A request's body, 64 KiB at a time."""

        async def __aiter__(self):
            for _ in range(sent // 65536):
                yield b"x" * 65536

        async def client_disconnect(self):
            await asyncio.sleep(60)

        def response_bytes(self, status, headers, body):
            told.append(status)

    scope = SimpleNamespace(
        method="POST", path="/", query_string="", server="[::1]:80", client="[::1]:9", scheme="http",
        http_version="1.1", authority="", headers={"content-length": str(sent)},
    )  # fmt: skip
    limits = Limits(MOST_RAW_BYTES, MOST_RAW_BYTES_OF_STRANGERS, "/me")
    gateway = Gateway(app, 2, limits, lambda *_: None, None)
    tracemalloc.start()
    # in a thread of its own: a browser that was driven in this one leaves a loop behind
    with ThreadPoolExecutor(1) as thread:
        thread.submit(asyncio.run, gateway.__rsgi__(scope, Coming())).result()
    tracemalloc.stop()
    gateway.pool.shutdown()
    return told, peaks[-1]


def test_of_a_large_body_of_a_stranger_no_more_is_held_than_may_be_sent():
    whole = 1024 * 1024
    told, held = held_of("401 Unauthorized", whole)
    assert told == [413]
    # and what python is made of
    assert held < MOST_RAW_BYTES_OF_STRANGERS + 200_000
    told, held = held_of("200 OK", whole)
    assert told == [200] and held >= whole
