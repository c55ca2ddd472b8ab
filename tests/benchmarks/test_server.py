"""The server alone, through its own door: what a push costs beside the bare database."""

import contextlib
import gzip
import http.client
import json
import sqlite3
import statistics
import time

import pytest

from backend.settings import Settings
from tests.benchmarks.one_line_sales import MANY, one_line_sales
from tests.benchmarks.table import row
from tests.databases import databases
from tests.phones import now, uuid7
from tests.sync.killable import Killable

pytestmark = pytest.mark.benchmark

__all__ = ["databases"]

TIMES = 3
# as many as a phone sends at once
AT_ONCE, AT_ONCE_RAW = 1500, 500
LEAST_OF_RAW, MOST_GROWTH = 0.20, 1.5
TABLES = ("change", "sale", "goods_line")


class Sender:
    """A phone's side of the exchange, as bare as can be; a context manager that hangs up."""

    def __init__(self, server):
        told, self.cookie = server.pair()
        self.device, self.epoch = told["device"]["id"], told["epoch"]
        self.connection = http.client.HTTPConnection("127.0.0.1", server.port)
        self.headers = {
            "Content-Type": "application/json",
            "Content-Encoding": "gzip",
            "Accept-Encoding": "gzip",
            "Origin": server.address,
            "Cookie": self.cookie,
        }

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.connection.close()

    def changes(self, sales):
        """Make changes of sales, in the order of their ids."""
        return [
            {
                "id": uuid7(at),
                "kind": "sale",
                "at": at,
                "stamp": f"{at:013}-0000-{self.device}",
                "schema": 1,
                "fields": fields,
            }
            for at, fields in ((sale["at"], sale["fields"]) for sale in sales)
        ]

    def exchange(self, cursor, changes=()):
        """Make one exchange: returns the ms that the server took, and its reply."""
        body = {
            "epoch": self.epoch,
            "cursor": cursor,
            "schema": 1,
            "sent_at": now(),
            "changes": list(changes),
        }
        packed = gzip.compress(json.dumps(body, separators=(",", ":")).encode())
        began = time.perf_counter()
        self.connection.request("POST", "/api/v1/sync", packed, self.headers)
        with self.connection.getresponse() as reply:
            told = reply.read()
            took = 1000 * (time.perf_counter() - began)
            assert reply.status == 200, told
        return took, json.loads(gzip.decompress(told))

    def push(self, sales):
        """Send sales: returns the ms of each exchange."""
        took, cursor, changes = [], 0, self.changes(sales)
        for start in range(0, len(changes), AT_ONCE):
            ms, told = self.exchange(cursor, changes[start : start + AT_ONCE])
            cursor = told["through"]
            took.append(ms)
        assert cursor == len(changes)
        return took

    def pull(self):
        """Take everything: returns the ms of each exchange."""
        took, cursor, more = [], 0, True
        while more:
            ms, told = self.exchange(cursor)
            cursor, more = told["through"], told["more"]
            took.append(ms)
        return took


def pushed(settings, sales):
    with Killable(settings) as server, Sender(server) as sender:
        return sender.push(sales)


def raw_on_sqlite(kept, folder):
    """Write the same rows with the driver alone: returns ms."""
    with contextlib.closing(sqlite3.connect(kept)) as there:
        made = there.execute("SELECT sql, name FROM sqlite_master WHERE sql IS NOT NULL ORDER BY type DESC")
        made = [sql for sql, _ in made if any(f" {name} " in sql.replace("(", " ") for name in TABLES)]
        rows = {name: there.execute(f"SELECT * FROM {name}").fetchall() for name in TABLES}
    with contextlib.closing(sqlite3.connect(folder / "raw.db", isolation_level=None)) as raw:
        raw.execute("PRAGMA journal_mode = WAL")
        raw.execute("PRAGMA synchronous = FULL")
        for sql in made:
            raw.execute(sql)
        return written(raw.cursor(), rows, "?", "BEGIN IMMEDIATE")


def raw_on_postgresql(url):
    """Write the same rows with the driver alone, into tables made alike: returns ms."""
    import psycopg

    with psycopg.connect(url, autocommit=True) as connection, connection.cursor() as cursor:
        rows = {}
        for name in TABLES:
            rows[name] = [tuple(map(as_written, held)) for held in cursor.execute(f"SELECT * FROM {name}")]
            cursor.execute(f"CREATE TABLE raw_{name} (LIKE {name} INCLUDING ALL)")
        return written(cursor, {f"raw_{name}": rows[name] for name in TABLES}, "%s", "BEGIN")


def as_written(value):
    # the driver reads a JSON column as what it says
    return json.dumps(value) if isinstance(value, (list, dict)) else value


def written(cursor, rows, mark, begin):
    texts = {
        name: f"INSERT INTO {name} VALUES ({', '.join([mark] * len(held[0]))})" for name, held in rows.items()
    }
    began = time.perf_counter()
    for start in range(0, MANY, AT_ONCE_RAW):
        cursor.execute(begin)
        for name, text in texts.items():
            cursor.executemany(text, rows[name][start : start + AT_ONCE_RAW])
        cursor.execute("COMMIT")
    return 1000 * (time.perf_counter() - began)


def test_a_push_costs_little_more_than_the_rows_it_writes(tmp_path, keep):
    times, raw = [], []
    for number in range(TIMES):
        settings = Settings(tmp_path / str(number))
        times.append(sum(pushed(settings, one_line_sales())))
        raw.append(raw_on_sqlite(settings.data / "boltfair.db", settings.data))
    keep(of_raw("SQLite", times, raw, statistics.median(raw) / LEAST_OF_RAW))


def test_a_push_into_postgresql_is_told_beside_the_rows_it_writes(tmp_path, databases, tell):
    settings = Settings(tmp_path, databases())
    times = [sum(pushed(settings, one_line_sales()))]
    tell(of_raw("PostgreSQL", times, [raw_on_postgresql(settings.database_url)], None))


def of_raw(database, times, raw, budget):
    ours, bare = statistics.median(times), statistics.median(raw)
    limits = f"{bare / ours:.2f} of raw executemany, {bare:,.0f} ms, {AT_ONCE_RAW} a transaction"
    return row(f"server alone, {MANY:,} sales into {database}, ms", times, budget, limits=limits)


def test_the_cost_of_an_exchange_does_not_grow_with_the_log(tmp_path, keep):
    with Killable(Settings(tmp_path)) as server, Sender(server) as sender:
        pushes, pulls = sender.push(one_line_sales(10 * MANY)), sender.pull()
    for what, took, size in (("push", pushes, AT_ONCE), ("pull", pulls, 5000)):
        # the very first pays for what is made but once
        early, late = took[1:3], took[-11:-1]
        budget = MOST_GROWTH * statistics.median(early)
        limits = f"the first after one {statistics.median(early):.0f}; {size:,} changes an exchange"
        keep(row(f"server alone, a {what} at the end of 100,000, ms", late, budget, limits=limits))
