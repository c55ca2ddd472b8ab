"""Codes pair a phone, once; its cookie lets it in."""

import hashlib
import uuid

import pytest
from sqlalchemy import select

from backend.access import codes, phones
from backend.store import devices, reading
from backend.store.models.access import Device, PairingCode
from tests.phones import ORIGIN, Phone, add_business, make_code, now, uuid7


def pair(app, code, headers=None, base_url=None, **given):
    return app.test_client().post(
        "/api/v1/devices",
        json={"code": code, "name": "A phone", **given},
        headers={"Origin": ORIGIN} if headers is None else headers,
        base_url=base_url,
    )


def test_a_code_is_ten_characters_that_are_not_mistaken(app, business):
    code = make_code(business)
    assert len(code) == 10
    assert not set(code) & set("OILU")


def test_pairing_tells_what_the_phone_is_here(app, business):
    reply = pair(app, make_code(business, "helper"))
    told = reply.get_json()
    assert reply.status_code == 200
    assert told["business"] == business
    assert told["device"] | {"id": ""} == {"id": "", "name": "A phone", "role": "helper"}
    assert set(told) == {"device", "business", "epoch"}


def test_a_name_given_with_the_code_stands(app, business):
    assert pair(app, make_code(business, name="Till")).get_json()["device"]["name"] == "Till"


def test_a_code_typed_by_hand_is_forgiven_its_looks(app, business):
    code = make_code(business).replace("0", "o").replace("1", "l").lower()
    assert pair(app, f" {code[:5]}-{code[5:]} ").status_code == 200


def test_a_code_is_good_once(app, business):
    code = make_code(business)
    assert pair(app, code).status_code == 200
    assert pair(app, code).status_code == 403


def test_a_code_ends_after_ten_minutes(app, business):
    assert pair(app, make_code(business, at=now() - codes.LIFE_MS - 1)).status_code == 403
    assert pair(app, make_code(business, at=now() - codes.LIFE_MS + 30_000)).status_code == 200


def test_neither_code_nor_token_is_kept_as_it_is(app, business):
    code = make_code(business)
    phone = Phone(app, business)
    token = phone.client.get_cookie("boltfair").value.rpartition(".")[2]
    with reading() as connection:
        kept = connection.execute(select(PairingCode.__table__).where(PairingCode.business == business)).all()
        kept += connection.execute(select(Device.__table__).where(Device.business == business)).all()
    assert code not in str(kept) and token not in str(kept)
    assert hashlib.sha256(token.encode()).hexdigest() in str(kept)


def test_a_token_has_256_bits_and_its_cookie_is_closed_to_scripts_and_other_sites(app, business):
    cookie = pair(app, make_code(business)).headers["Set-Cookie"]
    value, *attributes = cookie.split("; ")
    assert len(value.rpartition(".")[2]) == 43
    assert {"HttpOnly", "SameSite=Strict", "Path=/", "Max-Age=34560000"} <= set(attributes)
    assert "Secure" not in attributes


def test_over_https_the_cookie_is_secure_and_bound_to_the_host(app, business):
    https = "https://192.168.1.20:8443"
    reply = pair(app, make_code(business), {"Origin": https}, https)
    assert reply.status_code == 200
    assert reply.headers["Set-Cookie"].startswith("__Host-boltfair=")
    assert "; Secure" in reply.headers["Set-Cookie"]


def test_without_https_a_phone_is_paired_on_this_machine_only(app, business):
    for address, status in (("http://192.168.1.20", 403), ("http://127.0.0.1", 200), ("http://[::1]", 200)):
        assert pair(app, make_code(business), {"Origin": address}, address).status_code == status, address


def test_wrong_codes_are_limited_for_one_address(own_app):
    business = add_business()
    good = make_code(business)
    for _ in range(codes.MOST_TRIES_OF_ONE):
        assert pair(own_app, "WRONGC0DE2").status_code == 403
    reply = pair(own_app, good)
    assert reply.status_code == 429
    assert reply.headers["Retry-After"] == "600"
    elsewhere = own_app.test_client().post(
        "/api/v1/devices",
        json={"code": good, "name": "A phone"},
        headers={"Origin": ORIGIN},
        environ_base={"REMOTE_ADDR": "10.0.0.9"},
    )
    assert elsewhere.status_code == 200


def test_many_wrong_codes_from_elsewhere_keep_out_only_those_who_try_again(own_app):
    business = add_business()
    good = make_code(business, at=1000)
    for number in range(codes.MOST_TRIES):
        with pytest.raises(codes.WrongCode):
            phones.pair("WRONGC0DE2", "x", 1000, f"10.0.{number // 250}.{number % 250}")
    assert phones.pair(good, "x", 1000, "10.1.1.1")
    with pytest.raises(codes.WrongCode):
        phones.pair("WRONGC0DE2", "x", 1000, "10.1.1.2")
    with pytest.raises(codes.TooManyTries):
        phones.pair("WRONGC0DE2", "x", 1000, "10.1.1.2")
    later = 1001 + codes.LIFE_MS
    assert phones.pair(make_code(business, at=later), "x", later, "10.1.1.2")


def test_the_addresses_of_one_ipv6_customer_count_as_one():
    assert codes.network_of("2001:db8::1:2:3:4") == codes.network_of("2001:db8::9") == "2001:db8::"
    assert codes.network_of("10.0.0.1") == "10.0.0.1"
    assert codes.network_of("") == codes.network_of("x") == "unknown"


def test_a_code_for_another_business_is_refused_and_not_used_up(app, business, owner):
    other = add_business()
    code = make_code(other)
    assert owner.ask("POST", "/devices", {"code": code, "name": "A phone"}).status_code == 409
    assert pair(app, code, business=business).status_code == 409
    assert pair(app, code, business=other).status_code == 200


def test_a_phone_that_left_may_join_another_business(app, owner):
    other = add_business()
    assert owner.ask("DELETE", "/devices/me").status_code == 204
    assert owner.send().status_code == 403
    assert owner.ask("POST", "/devices", {"code": make_code(other), "name": "A phone"}).status_code == 200


def test_a_phone_keeps_the_id_of_its_stamps(app, business):
    id = uuid7()
    phone = Phone(app, business, "owner", device=id)
    assert phone.id == id
    waiting = phone.sale()
    again = Phone(app, business, "owner", device=id)
    assert again.id == id
    assert again.exchange([waiting])["results"][0]["status"] == "accepted"
    assert phone.send().status_code == 401


@pytest.mark.parametrize("role", ["owner", "helper"])
def test_a_helpers_code_takes_no_other_phones_id(app, business, role):
    other = Phone(app, business, role)
    assert Phone(app, business, "helper", device=other.id).id != other.id
    assert other.send().status_code == 200


def test_a_helper_that_is_let_in_keeps_its_id_by_another_code(app, business, helper):
    given = {"code": make_code(business, "helper"), "name": "A phone", "device": helper.id}
    assert helper.ask("POST", "/devices", given).get_json()["device"]["id"] == helper.id


def test_an_owner_made_a_helper_keeps_its_id(app, business, owner):
    code = make_code(business, "helper")
    told = owner.ask("POST", "/devices", {"code": code, "name": "A phone", "device": owner.id}).get_json()
    assert told["device"] == {"id": owner.id, "name": "A phone", "role": "helper"}
    assert owner.exchange()["role"] == "helper"


def test_no_id_of_another_business_is_taken(app, owner):
    assert Phone(app, add_business(), device=owner.id).id != owner.id


@pytest.mark.parametrize(
    ("given", "bad"),
    [
        ({}, {"code", "name"}),
        ({"code": "x", "name": ""}, {"name"}),
        ({"code": "x", "name": "a", "device": "b"}, {"device"}),
        ({"code": 5, "name": "a", "more": 1}, {"code", "more"}),
    ],
)
def test_every_bad_field_of_a_pairing_is_named(app, given, bad):
    reply = app.test_client().post("/api/v1/devices", json=given, headers={"Origin": ORIGIN})
    assert reply.status_code == 422
    assert set(reply.get_json()["errors"]) == bad


def test_an_owner_makes_a_code_as_text_link_and_picture(app, business, owner):
    told = owner.ask("POST", "/devices/codes", {"role": "helper", "name": "Joss"}).get_json()
    assert told["link"] == f"{ORIGIN}/settings#pair={told['code']}"
    assert told["qr"].startswith("data:image/svg+xml")
    assert pair(app, told["code"]).get_json()["device"]["name"] == "Joss"


def test_a_phone_that_lost_its_cookie_pairs_again_by_the_code_it_left(app, business):
    again, next_one = str(uuid.uuid4()), str(uuid.uuid4())
    before = pair(app, make_code(business, "helper", name="Till"), again=again).get_json()
    found = pair(app, again, business=business, again=next_one)
    assert found.status_code == 200
    # the same phone, called the same, with the same role; and the cookie before is none any more
    assert found.get_json() == before
    assert pair(app, again).status_code == 403
    assert pair(app, next_one).get_json() == before
    with reading() as connection:
        assert len(devices.of_business(connection, business)) == 1


def test_such_a_code_brings_back_no_phone_that_was_removed_and_ends_after_ten_minutes(
    app, business, monkeypatch
):
    again = str(uuid.uuid4())
    paired = pair(app, make_code(business, "helper"), again=again).get_json()
    phones.revoke(business, paired["device"]["id"], now())
    assert pair(app, again).status_code == 403
    again = str(uuid.uuid4())
    pair(app, make_code(business, "helper"), again=again)
    later = now() + codes.LIFE_MS + 1
    monkeypatch.setattr("backend.api.guard.now", lambda: later)
    assert pair(app, again).status_code == 403


def test_a_code_that_two_phones_leave_is_the_later_ones(app, business):
    again, elsewhere = str(uuid.uuid4()), add_business()
    pair(app, make_code(business), again=again)
    second = pair(app, make_code(elsewhere), again=again).get_json()
    pair(app, make_code(elsewhere), again=again)
    assert pair(app, again).get_json()["business"] == elsewhere != business
    assert second["business"] == elsewhere


def test_a_code_of_a_phones_own_is_random_enough_or_refused(app, business):
    reply = pair(app, make_code(business), again="A")
    assert reply.status_code == 422 and list(reply.get_json()["errors"]) == ["again"]
