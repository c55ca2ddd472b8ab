"""Each address × who asks: no phone, another business, a helper, a phone taken off."""

from random import Random

import pytest

from backend.api.records import plural
from backend.core.records.checking import KINDS
from tests.phones import ORIGIN, Phone, add_business, now, uuid7
from tests.store.random_changes import random_good_fields

# of RFC 9562 A.6: any will do
DEVICE = "017f22e2-79b0-7cc3-98c4-dc0c0c07398f"
KNOWN = [kind for kind in KINDS if kind.is_known_to("helper")]
FOR_OWNERS = [kind for kind in KINDS if kind not in KNOWN]
PHONES = [("GET", f"/{plural(kind.name)}") for kind in KNOWN]
PHONES += [("GET", "/bookings.ics"), ("GET", "/devices/me"), ("POST", "/sync"), ("DELETE", "/devices/me")]
OWNERS = [("GET", "/devices"), ("POST", "/devices/codes"), ("POST", f"/devices/{DEVICE}/revoke")]
OWNERS += [("GET", f"/{plural(kind.name)}") for kind in FOR_OWNERS]
OWNERS += [("GET", "/reports/markets"), ("GET", "/reports/year"), ("GET", "/reports/year.csv")]
EACH_KIND = pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
ALL = pytest.mark.parametrize(("method", "path"), PHONES + OWNERS)


def body(method, path, phone=None):
    if path == "/sync":
        epoch = phone.epoch if phone else uuid7()
        return {"epoch": epoch, "cursor": 0, "schema": 1, "sent_at": now(), "changes": []}
    return {} if method == "POST" else None


# the front end's files, whether the server lives, calculators that keep nothing, and the door itself
OPEN = {("GET", "/"), ("GET", "/<front:path>"), ("GET", "/healthz"), ("POST", "/api/v1/devices")}
# of the computer itself, whoever sits at it (tests/api/test_metrics.py)
OPEN |= {("GET", "/metrics")}


def open_to_anyone(path):
    return path.startswith("/api/v1/calculators") or path == "/api/v1/openapi.json"


def test_no_address_is_left_out_of_these_tests(app):
    routes = {
        (method, rule.rule.replace("<uuid:device>", "{}"))
        for rule in app.url_map.iter_rules()
        for method in rule.methods - {"HEAD", "OPTIONS"}
    }
    closed = {(method, path) for method, path in routes if not open_to_anyone(path)} - OPEN
    tested = {
        (method, "/devices/{}/revoke" if "revoke" in path else path) for method, path in PHONES + OWNERS
    }
    assert closed == {(method, f"/api/v1{path}") for method, path in tested}


@ALL
def test_without_a_phones_cookie_nothing_is_told(app, method, path):
    reply = app.test_client().open(
        f"/api/v1{path}", method=method, json=body(method, path), headers={"Origin": ORIGIN}
    )
    assert reply.status_code == 401
    assert reply.content_type == "application/problem+json"


@ALL
def test_a_made_up_cookie_is_no_phone(app, owner, method, path):
    for value in ("x", f"{owner.business}.{owner.id}.x", f"{owner.business}.{uuid7()}.x", "..", "é.\0"):
        client = app.test_client()
        client.set_cookie("boltfair", value)
        reply = client.open(
            f"/api/v1{path}", method=method, json=body(method, path), headers={"Origin": ORIGIN}
        )
        assert reply.status_code == 401


@ALL
def test_a_phone_taken_off_is_refused_with_a_clear_word(app, owner, business, method, path):
    gone = Phone(app, business, "owner")
    assert owner.ask("POST", f"/devices/{gone.id}/revoke").status_code == 204
    reply = gone.ask(method, path, body(method, path, gone))
    assert reply.status_code == 403
    assert reply.get_json()["type"] == "/api.html#revoked"
    assert "still on it" in reply.get_json()["detail"]


@ALL
def test_a_helper_is_let_in_but_not_to_what_is_for_owners(app, business, method, path):
    helper = Phone(app, business, "helper")
    reply = helper.ask(method, path, body(method, path, helper))
    assert reply.status_code == (403 if (method, path) in OWNERS else 204 if method == "DELETE" else 200)


def whole(owner, kind, seed=1):
    """Make a change of a kind in which every field says something."""
    random = Random(seed)
    while True:
        fields = random_good_fields(random, kind, True)
        if all(fields.get(name) is not None for name in kind.owner_only):
            more = {} if kind.fact else {"record": uuid7()}
            return owner.fact(kind.name, fields, **more)


@EACH_KIND
def test_another_business_sees_nothing_of_it(app, owner, kind):
    stranger, change = Phone(app, add_business()), whole(owner, kind)
    assert owner.exchange([change])["results"][0]["status"] == "accepted"
    [record] = owner.ask("GET", f"/{plural(kind.name)}").get_json()["records"]
    asked = [
        f"/{plural(kind.name)}",
        *(f"/{plural(kind.name)}?{name}={record[name]}" for name in ("day", "product") if record.get(name)),
    ]
    for path in asked:
        assert owner.ask("GET", path).get_json()["records"] == [record]
        assert stranger.ask("GET", path).get_json() == {"records": [], "next": None}
    assert stranger.exchange()["changes"] == []


def test_another_business_sees_neither_its_phones_nor_its_calendar(app, owner):
    stranger = Phone(app, add_business())
    owner.exchange([owner.edit("booking", uuid7(), {"name": "Barn sale", "days": ["2126-05-02"]})])
    assert b"Barn sale" in owner.ask("GET", "/bookings.ics").data
    assert b"Barn sale" not in stranger.ask("GET", "/bookings.ics").data
    assert [phone["id"] for phone in stranger.ask("GET", "/devices").get_json()["devices"]] == [stranger.id]


@pytest.mark.parametrize("kind", KNOWN, ids=lambda kind: kind.name)
def test_a_helper_reads_a_kind_without_what_only_owners_see(owner, helper, kind):
    change = whole(owner, kind)
    owner.exchange([change])
    [of_owner] = owner.ask("GET", f"/{plural(kind.name)}").get_json()["records"]
    [of_helper] = helper.ask("GET", f"/{plural(kind.name)}").get_json()["records"]
    assert of_helper == {name: of_owner[name] for name in of_owner if name not in kind.owner_only}
    assert all(of_owner[name] is not None for name in kind.owner_only)
    told = helper.exchange()
    for pulled in told["changes"]:
        assert not set(kind.owner_only) & pulled["fields"].keys()


def test_another_business_cannot_take_a_phone_off(app, owner):
    stranger = Phone(app, add_business())
    assert stranger.ask("POST", f"/devices/{owner.id}/revoke").status_code == 404
    assert owner.send().status_code == 200


def test_the_same_id_in_two_businesses_is_two_changes(app, owner):
    stranger = Phone(app, add_business())
    sale = owner.sale()
    owner.exchange([sale])
    own = sale | {"stamp": stranger.stamp(), "fields": sale["fields"] | {"amount": 1}}
    assert stranger.exchange([own])["results"][0]["status"] == "accepted"
    assert owner.pull_all()[0] == [sale | {"seq": 1}]


WRITES = [(method, path) for method, path in [*PHONES, *OWNERS, ("POST", "/devices")] if method != "GET"]


@pytest.mark.parametrize(("method", "path"), WRITES)
@pytest.mark.parametrize(
    "origin", [None, "null", "http://localhost.evil.example", "https://localhost", "http://localhost:81"]
)
def test_a_write_from_another_origin_is_refused(owner, method, path, origin):
    headers = {} if origin is None else {"Origin": origin}
    reply = owner.client.open(
        f"/api/v1{path}", method=method, json=body(method, path, owner), headers=headers
    )
    assert reply.status_code == 403
    assert owner.send().status_code == 200


@pytest.mark.parametrize("path", ["/sync", "/devices", "/devices/codes"])
@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", None])
def test_a_write_that_is_not_json_is_refused(owner, path, kind):
    reply = owner.client.post(f"/api/v1{path}", data=b"{}", content_type=kind, headers={"Origin": ORIGIN})
    assert reply.status_code == 415


def test_a_name_that_is_not_the_servers_is_refused(app, owner):
    host = {"base_url": "http://rebound.example"}
    assert app.test_client().get("/api/v1/devices/me", **host).status_code == 403
    assert app.test_client().get("/api/v1/calculators", **host).status_code == 200


def test_what_a_proxy_would_say_is_not_believed_unasked(app, owner):
    said = {"X-Forwarded-Host": "rebound.example", "X-Forwarded-Proto": "https", "X-Forwarded-For": "1.2.3.4"}
    assert owner.ask("GET", "/devices/me", **said).status_code == 200
