"""What an exchange takes in and gives out."""

import gzip
import json

import pytest
from sqlalchemy import delete, update

from backend.store import log, writing
from backend.store.models.log import Change, LogHead
from backend.sync.pull import MOST_BYTES
from backend.sync.rebuild import rebuild
from tests.phones import PLACE, PRODUCT, now, uuid7

HOURS = 3_600_000


def test_what_one_phone_sells_the_other_gets_as_it_was_made(owner, helper):
    sale = helper.sale(2)
    told = helper.exchange([sale])
    assert told["results"] == [{"status": "accepted", "seq": 1}]
    told = owner.exchange()
    assert told["changes"] == [sale | {"seq": 1}]
    assert (told["from"], told["through"], told["more"], told["hidden"]) == (0, 1, False, [])
    assert owner.exchange()["changes"] == []


def test_what_a_phone_has_just_sent_is_numbered_and_not_sent_back(owner, helper):
    owner.exchange()
    others = [helper.sale(), helper.sale()]
    helper.exchange(others)
    told = owner.exchange([owner.sale(), owner.sale()])
    assert [result["seq"] for result in told["results"]] == [3, 4]
    assert [change["id"] for change in told["changes"]] == [sale["id"] for sale in others]
    assert (told["from"], told["through"]) == (0, 4)


def test_what_a_phone_sends_again_is_sent_back_as_others_changes_are(owner):
    # its first reply may never have come
    sale, later = owner.sale(), owner.sale()
    owner.send([sale])
    told = owner.exchange([sale, later])
    assert [(result["status"], result["seq"]) for result in told["results"]] == [
        ("duplicate", 1),
        ("accepted", 2),
    ]
    assert [change["id"] for change in told["changes"]] == [sale["id"]]


def test_what_was_just_sent_may_lie_beyond_the_page(owner, helper, monkeypatch):
    monkeypatch.setattr("backend.sync.pull.pull.__defaults__", ((), 2))
    helper.exchange([helper.sale() for _ in range(3)])
    told = owner.exchange([owner.sale()])
    assert [result["seq"] for result in told["results"]] == [4]
    assert (told["through"], len(told["changes"]), told["more"]) == (2, 2, True)
    told = owner.exchange([owner.sale()])
    assert [change["seq"] for change in told["changes"]] == [3, 4]


def test_sending_again_is_harmless_and_says_so(owner):
    sales = [owner.sale() for _ in range(3)]
    owner.exchange(sales)
    told = owner.exchange([*sales, owner.sale()])
    assert [result["status"] for result in told["results"]] == ["duplicate"] * 3 + ["accepted"]
    assert [result["seq"] for result in told["results"]] == [1, 2, 3, 4]
    assert len(owner.pull_all()[0]) == 4


def test_the_same_change_twice_in_one_push_is_taken_once(owner):
    sale = owner.sale()
    told = owner.exchange([sale, sale])
    assert [result["status"] for result in told["results"]] == ["accepted", "duplicate"]
    assert told["through"] == 1


def test_a_number_written_otherwise_is_the_same_content(owner):
    cloth = {"name": "Seagrass lawn", "bolt_width": 1400, "shrink_length": 3, "shrink_width": 2}
    change = owner.edit("cloth", uuid7(), cloth)
    owner.exchange([change])
    body = {"epoch": owner.epoch, "cursor": 0, "schema": 1, "sent_at": now(), "changes": [change]}
    text = (
        json.dumps(body)
        .replace('"bolt_width": 1400', '"bolt_width": 1400.0')
        .replace('"shrink_width": 2', '"shrink_width": 20e-1')
    )
    reply = owner.client.post(
        "/api/v1/sync", data=text, content_type="application/json", headers={"Origin": "http://localhost"}
    )
    assert reply.get_json()["results"][0]["status"] == "duplicate"


def test_a_known_id_with_other_content_is_rejected_and_the_first_stands(owner):
    sale = owner.sale(1)
    owner.exchange([sale])
    told = owner.exchange([sale | {"at": sale["at"] + 1}])
    assert told["results"][0]["status"] == "rejected"
    assert list(told["results"][0]["errors"]) == ["id"]
    assert owner.pull_all()[0] == [sale | {"seq": 1}]


def test_a_rejected_change_never_blocks_the_others(owner):
    bad = owner.sale(0)
    good = [owner.sale(), owner.sale()]
    told = owner.exchange([good[0], bad, good[1]])
    assert [result["status"] for result in told["results"]] == ["accepted", "rejected", "accepted"]
    assert [result["seq"] for result in told["results"]] == [1, None, 2]
    assert told["results"][1]["errors"] == {"lines.0.quantity": ["must be at least 1; 0 given"]}


def test_a_correction_is_a_change_of_its_own_that_says_what_it_replaces(owner):
    bad = owner.sale(0)
    owner.exchange([bad])
    better = owner.sale(1) | {"replaces": bad["id"]}
    owner.exchange([better])
    assert owner.pull_all()[0] == [better | {"seq": 1}]


@pytest.mark.parametrize(
    ("spoilt", "field"),
    [
        ({"id": "no id"}, "id"),
        ({"id": None}, "id"),
        ({"kind": "sail"}, "kind"),
        ({"kind": 3}, "kind"),
        ({"fields": []}, "fields"),
        ({"at": -1}, "at"),
        ({"at": 1.5}, "at"),
        ({"at": True}, "at"),
        ({"stamp": "1-2-3"}, "stamp"),
        ({"schema": 0}, "schema"),
        ({"record": "x"}, "record"),
        ({"record": PLACE}, "record"),
        ({"replaces": 5}, "replaces"),
        ({"seq": 5}, "seq"),
    ],
)
def test_a_bad_envelope_is_rejected_by_its_field(owner, spoilt, field):
    told = owner.exchange([owner.sale() | spoilt, owner.sale()])
    assert [result["status"] for result in told["results"]] == ["rejected", "accepted"]
    assert list(told["results"][0]["errors"]) == [field]


@pytest.mark.parametrize("given", [None, 5, "sale", [], {}])
def test_what_is_no_change_at_all_is_rejected(owner, given):
    assert owner.exchange([given])["results"][0]["status"] == "rejected"


def test_a_description_needs_its_record(owner):
    change = owner.fact("place", {"name": "Home shelf", "use": "home"})
    assert list(owner.exchange([change])["results"][0]["errors"]) == ["record"]


def test_a_fact_may_come_before_what_it_refers_to(owner):
    void = owner.fact("void", {"day": "2026-05-02", "sale": uuid7()})
    assert owner.exchange([void])["results"][0]["status"] == "accepted"


def test_a_newer_schema_is_refused_and_nothing_is_consumed(owner):
    reply = owner.send([owner.sale()], schema=2)
    assert reply.status_code == 409
    assert reply.content_type == "application/problem+json"
    assert owner.exchange()["through"] == 0


def test_a_stamp_far_ahead_is_clamped_in_order_and_told(owner, helper):
    place = uuid7()
    ahead = now() + 36 * 3600 * 1000
    edits = [owner.edit("place", place, {"name": name}, ahead + index) for index, name in enumerate("abc")]
    before = now()
    stamps = [result["stamp"] for result in owner.exchange(edits)["results"]]
    assert stamps == sorted(stamps) and len(set(stamps)) == 3
    assert all(before + 60_000 <= int(stamp[:13]) <= now() + 60_000 for stamp in stamps)
    changes = helper.exchange()["changes"]
    assert [change["stamp"] for change in changes] == stamps
    assert [change["at"] for change in changes] == [ahead, ahead + 1, ahead + 2]
    again = owner.exchange(edits)["results"]
    assert [(result["status"], result["stamp"]) for result in again] == [("duplicate", s) for s in stamps]


def test_a_stamp_a_little_ahead_or_far_behind_stands(owner):
    for at in (now() + 50_000, now() - 36 * 3600 * 1000, 0):
        sale = owner.fact("void", {"day": "2026-05-02", "sale": uuid7()}, at)
        assert "stamp" not in owner.exchange([sale])["results"][0]
        assert owner.pull_all()[0][-1]["stamp"] == sale["stamp"]


def test_a_phone_of_another_life_is_given_the_page_from_the_start(owner):
    owner.exchange([owner.sale() for _ in range(3)])
    told = owner.send(epoch=uuid7()).get_json()
    assert told["epoch"] == owner.epoch
    assert (told["from"], told["through"], len(told["changes"])) == (0, 3, 3)


def test_a_phone_beyond_the_log_starts_over_and_no_other_phone_does(owner, helper):
    owner.exchange([owner.sale()])
    helper.exchange()
    told = helper.send(cursor=7).get_json()
    assert (told["epoch"], told["from"], told["through"]) == (owner.epoch, 0, 1)
    told = owner.send().get_json()
    assert (told["epoch"], told["from"]) == (owner.epoch, owner.cursor)


def put_back(business, seq, renewed=False):
    """Put the log back to where it once was, as a snapshot of the database does, or a copy: in a new life."""
    with writing() as connection:
        if renewed:
            log.renew(connection, business, uuid7())
        changes, heads = Change.__table__, LogHead.__table__
        connection.execute(delete(changes).where(changes.c.business == business, changes.c.seq > seq))
        connection.execute(update(heads).where(heads.c.business == business).values(last_seq=seq))
        rebuild(connection, business)


def test_a_log_put_back_without_a_word_is_noticed_though_it_grew_again(owner, helper):
    sales = [owner.sale() for _ in range(5)]
    owner.exchange(sales)
    last = owner.send().get_json()["last"]
    assert last == sales[-1]["id"]
    put_back(owner.business, 2)
    helper.exchange()
    helper.exchange([helper.sale() for _ in range(4)])
    # the log is longer than the owner saw it, but not the same there
    told = owner.send(last=last).get_json()
    assert (told["epoch"], told["from"], told["through"]) == (owner.epoch, 0, 6)
    owner.cursor = 0
    statuses = [result["status"] for result in owner.exchange(sales)["results"]]
    assert statuses == ["duplicate"] * 2 + ["accepted"] * 3
    assert len(owner.ask("GET", "/sales").get_json()["records"]) == 9


@pytest.mark.parametrize("renewed", [True, False])
def test_a_request_of_a_life_that_ended_changes_nothing_in_the_next(owner, renewed):
    # of a phone a day ahead: its stamps are held to the time at which they come first
    place, ahead, begun = uuid7(), now() + 26 * HOURS, owner.sale()
    first, later = (owner.edit("place", place, {"name": name}, ahead) for name in ("first", "later"))
    last = owner.exchange([begun])["last"]
    late = {"changes": [first], "epoch": owner.epoch, "cursor": owner.cursor, "last": last}
    told = owner.exchange([first, later])
    adopted = [
        edit | {"stamp": result["stamp"]}
        for edit, result in zip((first, later), told["results"], strict=True)
    ]
    put_back(owner.business, 0, renewed)
    told = owner.send(**late).get_json()
    assert (told["results"], told["from"], told["through"]) == ([], 0, 0)
    owner.epoch, owner.cursor = told["epoch"], 0
    owner.exchange([begun, *adopted])
    [record] = owner.ask("GET", "/places").get_json()["records"]
    assert record["name"] == "later"


def test_a_phone_that_stands_in_the_log_goes_on_from_there(owner):
    owner.exchange([owner.sale() for _ in range(3)])
    last = owner.send().get_json()["last"]
    told = owner.send([owner.sale()], last=last).get_json()
    assert (told["from"], told["through"]) == (3, 4)


def test_a_push_of_1500_is_taken_and_one_more_is_not(owner):
    sales = [owner.fact("void", {"day": "2026-05-02", "sale": PLACE}) for _ in range(1501)]
    assert owner.send(sales).status_code == 422
    assert owner.exchange(sales[:1500])["through"] == 1500


def test_a_long_log_comes_in_pages_without_a_hole(owner, monkeypatch):
    for _ in range(3):
        owner.exchange([owner.fact("void", {"day": "2026-05-02", "sale": PLACE}) for _ in range(400)])
    monkeypatch.setattr("backend.sync.pull.pull.__defaults__", ((), 500))
    told = owner.send(cursor=0).get_json()
    assert (told["from"], told["through"], told["more"]) == (0, 500, True)
    changes, _ = owner.pull_all()
    assert [change["seq"] for change in changes] == list(range(1, 1201))


def test_a_packed_body_is_read_and_the_reply_is_packed_where_asked(owner):
    sales = [owner.sale() for _ in range(20)]
    body = {"epoch": owner.epoch, "cursor": 0, "schema": 1, "sent_at": now(), "changes": sales}
    headers = {"Origin": "http://localhost", "Content-Encoding": "gzip", "Accept-Encoding": "gzip"}
    packed = gzip.compress(json.dumps(body).encode())
    reply = owner.client.post("/api/v1/sync", data=packed, content_type="application/json", headers=headers)
    assert reply.headers["Content-Encoding"] == "gzip"
    told = json.loads(gzip.decompress(reply.data))
    assert [result["seq"] for result in told["results"]] == list(range(1, 21))


def test_a_body_over_the_limit_is_refused_unpacked(owner):
    body = json.dumps({"changes": ["x" * (4 * 262_144)]}).encode()
    headers = {"Origin": "http://localhost", "Content-Encoding": "gzip"}
    reply = owner.client.post(
        "/api/v1/sync", data=gzip.compress(body), content_type="application/json", headers=headers
    )
    assert reply.status_code == 413


@pytest.mark.parametrize(
    "text", ["[" * 9 + "]" * 9, '{"a":' * 9 + "1" + "}" * 9, '["[", ' + "[" * 8 + "]" * 8 + "]"]
)
def test_json_nested_too_deep_is_refused(owner, text):
    headers = {"Origin": "http://localhost"}
    reply = owner.client.post("/api/v1/sync", data=text, content_type="application/json", headers=headers)
    assert reply.status_code == 400


@pytest.mark.parametrize(
    "text", ["{", "NaN", '{"cursor": Infinity}', "", "\ud800".encode("utf-8", "surrogatepass")]
)
def test_what_is_not_json_is_refused(owner, text):
    headers = {"Origin": "http://localhost"}
    reply = owner.client.post("/api/v1/sync", data=text, content_type="application/json", headers=headers)
    assert reply.status_code == 400


def test_every_bad_field_of_the_exchange_is_named(owner):
    reply = owner.ask("POST", "/sync", {"epoch": "x", "cursor": -1, "changes": {}, "more": 1})
    assert reply.status_code == 422
    assert set(reply.get_json()["errors"]) == {"epoch", "cursor", "schema", "sent_at", "changes", "more"}


def test_values_no_number_can_hold_are_rejected_and_break_nothing(owner):
    sale = owner.sale()
    body = json.dumps({"epoch": owner.epoch, "cursor": 0, "schema": 1, "sent_at": now(), "changes": [sale]})
    for number in ("1e999", "-1e999", "9" * 400, "1.5", "12345678901234567890"):
        text = body.replace('"amount": 600', f'"amount": {number}')
        reply = owner.client.post(
            "/api/v1/sync", data=text, content_type="application/json", headers={"Origin": "http://localhost"}
        )
        assert reply.get_json()["results"][0]["status"] == "rejected", number


def test_text_no_database_can_hold_is_rejected(owner):
    for text in ("\0", "\ud83d", "a\0b"):
        told = owner.exchange([owner.sale(reason=text)])
        assert told["results"][0]["errors"] == {"reason": ["has a character that cannot be kept"]}


def test_the_phone_is_seen_and_what_it_has_not_sent(owner, helper):
    helper.exchange(unsent=12)
    told = owner.ask("GET", "/devices").get_json()["devices"]
    assert {phone["id"]: phone["unsent"] for phone in told} == {owner.id: None, helper.id: 12}


def test_the_cookie_is_handed_out_again_at_each_exchange(owner):
    cookie = owner.send().headers["Set-Cookie"]
    assert "Max-Age=34560000" in cookie and "HttpOnly" in cookie and "SameSite=Strict" in cookie


def test_a_product_sold_is_in_the_tables_at_once(owner):
    owner.exchange([owner.sale(3)])
    rows = owner.ask("GET", f"/sales?product={PRODUCT}").get_json()["records"]
    assert [row["lines"][0]["quantity"] for row in rows] == [3]


def test_an_event_of_a_clock_far_ahead_is_held_back_and_known_again(owner, helper):
    sent_at = now()
    ahead = helper.fact("void", {"day": "2026-05-02", "sale": PLACE}, sent_at + 90 * HOURS)
    [result] = helper.exchange([ahead])["results"]
    assert sent_at + 48 * HOURS <= result["at"] <= now() + 48 * HOURS
    [seen] = owner.exchange()["changes"]
    assert seen["at"] == result["at"]
    [again] = helper.exchange([ahead])["results"]
    assert (again["status"], again["at"]) == ("duplicate", result["at"])
    # as it adopted it, it is the same, too
    [adopted] = helper.exchange([ahead | {"at": result["at"]}])["results"]
    assert adopted["status"] == "duplicate" and "at" not in adopted
    [other] = helper.exchange([ahead | {"fields": {"day": "2026-05-03", "sale": PLACE}}])["results"]
    assert list(other["errors"]) == ["id"]


def test_an_event_within_two_days_stands_as_it_was_told(owner):
    at = now() + 47 * HOURS
    [result] = owner.exchange([owner.fact("void", {"day": "2026-05-02", "sale": PLACE}, at)])["results"]
    assert result == {"status": "accepted", "seq": 1, "stamp": result["stamp"]}


@pytest.mark.parametrize("at", [253_402_300_800_000, 2**53 - 1, -1, True, 1.5])
def test_a_time_that_no_fold_takes_is_refused(owner, at):
    void = owner.fact("void", {"day": "2026-05-02", "sale": PLACE}) | {"at": at}
    [result] = owner.exchange([void])["results"]
    assert list(result["errors"]) == ["at"]


@pytest.mark.parametrize("day", ["0000-01-01", "1999-12-31", "2200-01-01", "9999-12-31"])
def test_a_day_that_nobody_sells_on_is_refused(owner, day):
    [result] = owner.exchange([owner.fact("void", {"day": day, "sale": PLACE})])["results"]
    assert list(result["errors"]) == ["day"]


def test_a_page_ends_by_its_bytes_too_and_nothing_is_missed(owner, helper):
    listed = [{"product": uuid7(), "size": None} for _ in range(500)]
    close = {"day": "2026-05-02", "session": PLACE, "place": PLACE, "scope": "list", "listed": listed}
    large = owner.fact("count-close", close)
    size = len(json.dumps(large["fields"], separators=(",", ":")))
    count = 3 * MOST_BYTES // size
    made = [owner.fact("count-close", close) for _ in range(count)]
    for start in range(0, count, 20):
        owner.exchange(made[start : start + 20])
    pages, cursor, seen = 0, 0, []
    while True:
        reply = helper.send(cursor=cursor)
        told = reply.get_json()
        assert len(reply.get_data()) <= MOST_BYTES * 1.05
        assert told["from"] == cursor and told["changes"]
        assert [change["seq"] for change in told["changes"]] == list(range(cursor + 1, told["through"] + 1))
        assert told["last"] == told["changes"][-1]["id"]
        seen += [change["id"] for change in told["changes"]]
        pages, cursor = pages + 1, told["through"]
        if not told["more"]:
            break
    assert seen == [change["id"] for change in made]
    assert pages >= 3
    # what is sent along with a page that ends early is known by its number, and comes back later
    sale = helper.sale()
    told = helper.send([sale], cursor=0).get_json()
    assert told["results"][0]["seq"] == count + 1 > told["through"]
    assert told["more"]


@pytest.mark.parametrize("text", ["\ud83d", "a\udc00b", "\0"])
def test_half_a_surrogate_pair_in_an_envelope_names_its_field(owner, text):
    spoilt = [
        ({"id": text}, "id"),
        ({"kind": text}, "kind"),
        ({"stamp": text}, "stamp"),
        ({"record": text}, "record"),
        ({"replaces": text}, "replaces"),
    ]
    for part, field in spoilt:
        [result] = owner.exchange([owner.sale() | part])["results"]
        assert (result["status"], list(result["errors"])) == ("rejected", [field])
    [result] = owner.exchange([owner.sale() | {text: 1}])["results"]
    assert result["status"] == "rejected"
    [result] = owner.exchange([owner.fact("sale", owner.sale()["fields"] | {text: 1})])["results"]
    assert result["status"] == "rejected"
    for name in ("epoch", "last"):
        reply = owner.send(**{name: text})
        assert reply.status_code == 422
        assert list(reply.get_json()["errors"]) == [name]
    reply = owner.send(**{text: 1})
    assert reply.status_code == 422


@pytest.mark.parametrize("name", ["cursor", "schema", "sent_at", "unsent"])
@pytest.mark.parametrize("flag", [True, False])
def test_a_flag_is_no_number_of_an_envelope(owner, name, flag):
    reply = owner.send(**{name: flag})
    assert reply.status_code == 422
    assert list(reply.get_json()["errors"]) == [name]


@pytest.mark.parametrize("name", ["at", "schema"])
@pytest.mark.parametrize("flag", [True, False])
def test_a_flag_is_no_number_of_a_change(owner, name, flag):
    [result] = owner.exchange([owner.sale() | {name: flag}])["results"]
    assert (result["status"], list(result["errors"])) == ("rejected", [name])
