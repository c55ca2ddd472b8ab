"""The tables hold what the log says: as folded by the core, in any order, and made again the same."""

from random import Random

import pytest

from backend.api.records import plural
from backend.core.records.checking import KINDS, check, kind_named
from backend.core.records.merging import fold
from backend.store import writing
from backend.sync.rebuild import rebuild
from tests.phones import Phone, add_business
from tests.store.random_changes import FEW_IDS, random_changes
from tests.tables import tables_of


@pytest.fixture
def phones(app):
    business = add_business()
    return [Phone(app, business) for _ in range(2)]


def send_all(phone, changes):
    for start in range(0, len(changes), 100):
        results = phone.exchange(changes[start : start + 100])["results"]
        assert {result["status"] for result in results} == {"accepted"}, results


def test_rebuilding_changes_nothing(phones, how_many):
    send_all(phones[0], random_changes(1, phones, how_many(230, 4600)))
    business = phones[0].business
    before = tables_of(business)
    assert all(before[kind.name.replace("-", "_")] for kind in KINDS)
    with writing() as connection:
        assert rebuild(connection, business) == how_many(230, 4600)
    assert tables_of(business) == before


def test_rebuilding_leaves_another_business_alone(app, phones):
    other = Phone(app, add_business())
    send_all(other, [other.sale()])
    with writing() as connection:
        rebuild(connection, phones[0].business)
    assert len(tables_of(other.business)["sale"]) == 1


@pytest.mark.parametrize("seed", range(3))
def test_any_order_of_arrival_makes_the_same_tables(app, phones, seed):
    changes = random_changes(seed, phones, 92)
    send_all(phones[0], changes)
    shuffled = list(changes)
    Random(seed).shuffle(shuffled)
    other = Phone(app, add_business())
    send_all(other, shuffled)
    assert tables_of(other.business) == tables_of(phones[0].business)


def test_a_description_stands_as_the_core_folds_it(phones):
    changes = [change for change in random_changes(5, phones, 460) if "record" in change]
    send_all(phones[0], changes)
    edits = [change | {"fields": check(change["kind"], change["fields"], False)} for change in changes]
    for name, records in fold(edits).items():
        rows = phones[1].ask("GET", f"/{plural(name)}").get_json()["records"]
        assert rows == [{"id": id, **kind_named(name).completed(records[id])} for id in sorted(records)]


def test_a_fact_is_a_row_with_its_defaults(phones):
    for change in random_changes(6, phones, 230):
        if not kind_named(change["kind"]).fact:
            continue
        send_all(phones[0], [change])
        path = f"/{plural(change['kind'])}?limit=1000"
        rows = {row["id"]: row for row in phones[0].ask("GET", path).get_json()["records"]}
        whole = check(change["kind"], change["fields"], True)
        assert rows[change["id"]] == {"id": change["id"], "at": change["at"], **whole}


def test_pages_hold_each_record_once(phones):
    send_all(phones[0], [phones[0].sale() for _ in range(25)])
    seen, after = [], ""
    while after is not None:
        told = phones[0].ask("GET", f"/sales?limit=10{'&after=' + after if after else ''}").get_json()
        seen += [row["id"] for row in told["records"]]
        after = told["next"]
    assert len(seen) == 25 and seen == sorted(set(seen))


def test_filters_choose_by_day_market_and_product(phones):
    owner, market, booking = phones[0], FEW_IDS[0], FEW_IDS[1]
    owner.exchange([
        owner.edit("booking", booking, {"market": market, "days": ["2026-05-02", "2026-05-03"]}),
        owner.sale(booking=booking), owner.sale(day="2026-05-03"), owner.sale(),
    ])  # fmt: skip
    product = owner.sale()["fields"]["lines"][0]["product"]

    def count(query):
        return len(owner.ask("GET", query).get_json()["records"])

    assert count("/sales") == 3
    assert count("/sales?day=2026-05-02") == 2
    assert count("/sales?day=2026-05-03") == 1
    assert count(f"/sales?market={market}") == 1
    assert count(f"/sales?market={FEW_IDS[2]}") == 0
    assert count(f"/sales?product={product}") == 3
    assert count(f"/sales?product={FEW_IDS[2]}") == 0
    assert count(f"/bookings?day=2026-05-03&market={market}") == 1
    assert count("/bookings?day=2026-05-04") == 0


@pytest.mark.parametrize(
    ("query", "bad"),
    [
        ("/sales?day=today", "day"),
        ("/sales?limit=0", "limit"),
        ("/sales?limit=1001", "limit"),
        ("/sales?limit=x", "limit"),
        ("/sales?after=x", "after"),
        ("/sales?colour=red", "colour"),
        ("/places?day=2026-05-02", "day"),
        ("/voids?product=" + FEW_IDS[0], "product"),
    ],
)
def test_a_filter_that_is_bad_or_has_no_sense_is_named(phones, query, bad):
    reply = phones[0].ask("GET", query)
    assert reply.status_code == 422
    assert list(reply.get_json()["errors"]) == [bad]
