"""Whatever is lost, late, cut off, killed or put back: no fact is lost or doubled, and all agree."""

import json
import random
from collections import Counter

import pytest

from backend.core.catalogue import answer
from backend.core.records.envelope import MOST_AHEAD_MS
from backend.store import reading, takings, writing
from backend.sync.rebuild import rebuild
from tests.sync.faulty_world import World
from tests.sync.killable import Killable
from tests.tables import tables_of

RUNS = {"sqlite": (6, 160), "postgresql": (2, 40)}
STEPS = 60
# a folder is used by a few runs, then left: a copy holds all businesses in it
RUNS_OF_A_FOLDER = 10


@pytest.fixture
def server(own_app, settings):
    with Killable(settings) as server:
        yield server


def pytest_generate_tests(metafunc):
    """Make as many parts as the runs need: each starts a server."""
    if "part" in metafunc.fixturenames:
        all_asked = metafunc.config.option.markexpr == "full"
        most = max(runs[all_asked] for runs in RUNS.values())
        metafunc.parametrize("part", range(-(-most // RUNS_OF_A_FOLDER)))


@pytest.mark.full
def test_phones_and_server_agree_whatever_happens_between_them(server, database, part, how_many, tmp_path):
    runs = how_many(*RUNS[database])
    for seed in range(part * RUNS_OF_A_FOLDER, min(runs, (part + 1) * RUNS_OF_A_FOLDER)):
        world = World(random.Random(f"faults {seed}"), server, tmp_path)
        world.run(STEPS)
        world.settle()
        check(world)


def check(world):
    log = world.log()
    good = {id: change for id, change in world.made.items() if id not in world.bad}
    assert sorted(row.id for row in log) == sorted(good)
    assert [row.seq for row in log] == list(range(1, len(log) + 1))
    for row in log:
        made = good[row.id]
        assert (row.kind, row.record) == (made["kind"], made.get("record"))
        # a phone's wrong clock is believed so far beyond the arrival
        assert row.at == made["at"] or row.at <= row.received_at + MOST_AHEAD_MS < made["at"]
        assert json.loads(row.fields) == made["fields"]
        assert row.stamp[19:] == made["stamp"][19:]
    check_phones(world, log)
    check_tables(world, log)


def check_phones(world, log):
    for phone in world.phones:
        assert set(phone.to_check) == {id for id in world.order.get(phone.id, ()) if id in world.bad}
        seen = {seq: change["fields"] for seq, change in phone.log.items()}
        for row in log:
            fields = json.loads(row.fields)
            if phone.role == "helper" and row.kind == "cloth":
                fields.pop("price")
            if phone.role == "helper" and row.kind == "expense":
                fields = {}
            if fields:
                assert seen.pop(row.seq) == fields
                assert phone.log[row.seq]["stamp"] == row.stamp
            else:
                assert row.seq in phone.hidden
        assert seen == {}
        # what one phone made later stands later, whatever its clock said
        mine = {row.id: row.stamp for row in log}
        stamps = [mine[id] for id in world.order.get(phone.id, ()) if id in mine]
        assert stamps == sorted(set(stamps))


def check_tables(world, log):
    tables = tables_of(world.business)
    facts = Counter(change["kind"] for id, change in world.made.items() if id not in world.bad)
    for kind in ("sale", "void", "move", "asked-for", "batch-result", "batch-void", "batch-step", "expense"):
        assert len(tables[kind.replace("-", "_")]) == facts[kind]
    for kind in ("place", "product", "cloth"):
        assert {row["id"]: row for row in map(json.loads, tables[kind])} == winners(log, kind, tables[kind])
    with reading() as connection:
        assert dict((row[1], row[3]) for row in takings.by_day(connection, world.business)) == taken(log)
    with writing() as connection:
        rebuild(connection, world.business)
    assert tables_of(world.business) == tables
    check_stock(world, log)


def winners(log, kind, rows):
    """Find what stands of each field: that with the latest stamp."""
    stand = {}
    for row in sorted((row for row in log if row.kind == kind), key=lambda row: row.stamp):
        record = stand.setdefault(row.record, {"stamps": {}})
        for name, value in json.loads(row.fields).items():
            record[name] = value
            record["stamps"][name] = row.stamp
    empty = dict.fromkeys(json.loads(rows[0])) if rows else {}
    return {id: empty | record | {"id": id, "business": ""} for id, record in stand.items()}


def taken(log):
    voided = {json.loads(row.fields)["sale"] for row in log if row.kind == "void"}
    sales = [json.loads(row.fields) for row in log if row.kind == "sale" and row.id not in voided]
    return {"cash": sum(sale["amount"] for sale in sales)} if sales else {}


def check_stock(world, log):
    undoing = {"void": "sale", "batch-void": "result"}
    voided = {json.loads(row.fields)[undoing[row.kind]] for row in log if row.kind in undoing}
    stock = Counter()
    for row in log:
        fields = json.loads(row.fields)
        if row.kind == "move":
            stock[fields["from"], fields["product"]] -= fields["quantity"]
            stock[fields["to"], fields["product"]] += fields["quantity"]
        elif row.kind == "sale" and row.id not in voided:
            [line] = fields["lines"]
            stock[fields["place"], line["product"]] -= line["quantity"]
        elif row.kind == "batch-result" and row.id not in voided:
            [line] = fields["lines"]
            stock[fields["place"], line["product"]] += line["good"]
    for phone in world.phones:
        facts = [
            {**change["fields"], "kind": change["kind"], "id": change["id"], "at": change["at"]}
            for change in phone.log.values()
            if "record" not in change
        ]
        told = answer("stock-on-hand", {"facts": facts})["result"]["on_hand"]
        assert Counter({(row["place"], row["product"]): row["quantity"] for row in told}) == stock
