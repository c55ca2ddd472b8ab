"""One honest phone beside two hundred hostile connections: how long it waits, and how long in quiet."""

import contextlib
import json
import multiprocessing
import os
import socket
import threading
import time
from http.client import HTTPConnection, HTTPException

import pytest

from backend.settings import Settings
from tests.attacks.test_strangers_work import HARD, LAYOUT
from tests.benchmarks.one_line_sales import one_line_sales
from tests.benchmarks.table import p95, row
from tests.benchmarks.test_server import Sender
from tests.sync.killable import Killable

pytestmark = pytest.mark.benchmark

HOSTILE, TIMES, PUSHED = 200, 40, 20
MOST_TIMES_QUIET = 3
GIVES_WAY = 5
# what a timer and a busy processor's turn come to, whatever the server does
LEAST_MS = 5
BODY = json.dumps(HARD).encode()


def half_sent(port, ended):
    """Begin a body and do not end it, until the server hangs up; then again."""
    with socket.create_connection(("127.0.0.1", port), timeout=60) as connection:
        connection.sendall(
            b"POST /api/v1/sync HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\n"
            b"Content-Length: 1000\r\n\r\n{"
        )
        connection.recv(1000)


def posting(path, body):
    """Make a stranger who posts the same again and again, a little after each answer."""

    def post(port, ended):
        connection = HTTPConnection("127.0.0.1", port, timeout=60)
        with contextlib.closing(connection):
            headers = {"Content-Type": "application/json", "Origin": f"http://127.0.0.1:{port}"}
            connection.request("POST", path, body, headers)
            connection.getresponse().read()
        ended.wait(0.5)

    return post


WRONG_CODE = posting("/api/v1/devices", json.dumps({"code": "AAAAAAAAAA", "name": "x"}).encode())
REFUSED_PUSH = posting("/api/v1/sync", json.dumps({"changes": [], "cursor": -1}).encode())
WAYS = (half_sent, posting(LAYOUT, BODY), WRONG_CODE, REFUSED_PUSH)


def hostile(way, port, ended):
    """Do one thing until it is over, whatever comes of it."""
    while not ended.is_set():
        try:
            way(port, ended)
        except (OSError, HTTPException):
            ended.wait(0.1)


def all_hostile(port, begun, ended):
    """Be all strangers at once, in a process that gives way: what they do takes other machines' time."""
    os.nice(GIVES_WAY)
    strangers = [
        threading.Thread(target=hostile, args=(WAYS[number % len(WAYS)], port, ended), daemon=True)
        for number in range(HOSTILE)
    ]
    for stranger in strangers:
        stranger.start()
    begun.set()
    ended.wait()


@contextlib.contextmanager
def beside_strangers(port):
    """Have them all at it meanwhile."""
    apart = multiprocessing.get_context("spawn")
    begun, ended = apart.Event(), apart.Event()
    strangers = apart.Process(target=all_hostile, args=(port, begun, ended), daemon=True)
    strangers.start()
    begun.wait()
    yield
    ended.set()
    strangers.join()


class Honest:
    """A phone that pushes a few sales, and asks whether the server is well."""

    def __init__(self, server, sender):
        self.server, self.sender, self.cursor = server, sender, 0
        self.sales = iter(one_line_sales(10_000))

    def measured(self):
        """Make all its requests: returns the ms that pushes took, and those that /healthz took."""
        pushes, health = [], []
        for _ in range(TIMES):
            changes = self.sender.changes([next(self.sales) for _ in range(PUSHED)])
            took, told = self.sender.exchange(self.cursor, changes)
            assert [result["status"] for result in told["results"]] == ["accepted"] * PUSHED
            self.cursor = told["through"]
            pushes.append(took)
            health.append(self._health())
        return pushes, health

    def _health(self):
        began = time.perf_counter()
        with contextlib.closing(HTTPConnection("127.0.0.1", self.server.port, timeout=60)) as connection:
            connection.request("GET", "/healthz")
            reply = connection.getresponse()
            assert reply.status == 200, reply.read()
            reply.read()
        return 1000 * (time.perf_counter() - began)


def test_an_honest_phone_beside_two_hundred_hostile_connections(tmp_path, keep):
    with Killable(Settings(tmp_path)) as server, Sender(server) as sender:
        honest = Honest(server, sender)
        honest.measured()
        quiet = honest.measured()
        with beside_strangers(server.port):
            # until all have come, and the server has what they ask for in hand
            time.sleep(2)
            beside = honest.measured()
    for what, before, during in zip(("push of 20 sales", "/healthz"), quiet, beside, strict=True):
        budget = MOST_TIMES_QUIET * max(LEAST_MS, p95(before))
        said = f"quiet p95 {p95(before):.1f} ms"
        keep(row(f"{what} beside {HOSTILE} hostile, ms", during, budget, "p95", limits=said))
