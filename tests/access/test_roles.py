"""What a helper may write, and what a helper is never shown."""

import json
from random import Random

import pytest

from backend.api.records import plural
from backend.core.records.checking import KINDS
from tests.phones import PLACE, SALE_DAY, Phone, now, uuid7
from tests.store.random_changes import random_good_fields

CLOTH = {"name": "Seagrass lawn", "bolt_width": 1400, "shrink_length": 3, "shrink_width": 2}
PRICED = CLOTH | {"price": 890, "price_length": 1000}


def status(phone, change):
    return phone.exchange([change])["results"][0]["status"]


def refund(phone, sale, amount, **more):
    line = {"product": uuid7(), "quantity": 1, "total": amount}
    fields = {
        "day": SALE_DAY,
        "place": PLACE,
        "lines": [line],
        "amount": amount,
        "payment": "cash",
        "goods": "table",
    }
    return phone.fact("refund", fields | {"sale": sale} | more)


def test_a_helper_never_gets_what_only_owners_see(owner, helper):
    record = uuid7()
    priced = owner.edit("cloth", record, PRICED)
    price_only = owner.edit("cloth", record, {"price": 910})
    plain = owner.edit("cloth", record, {"name": "Lawn"})
    owner.exchange([priced, price_only, plain])
    told = helper.exchange()
    assert told["hidden"] == [2]
    assert [change["seq"] for change in told["changes"]] == [1, 3]
    assert told["changes"][0]["fields"] == CLOTH
    assert [change.get("partial") for change in told["changes"]] == [True, None]
    assert told["through"] - told["from"] == len(told["changes"]) + len(told["hidden"])
    assert [change["fields"] for change in owner.pull_all()[0]][:2] == [PRICED, {"price": 910}]


def test_a_helper_reads_no_cost_anywhere(owner, helper):
    owner.exchange([
        owner.edit("cloth", uuid7(), PRICED),
        owner.edit("market", uuid7(), {"name": "Quay", "fee": 2812, "fee_percent": 5}),
        owner.edit("booking", uuid7(), {"days": [SALE_DAY], "fee": 2812}),
        owner.edit("business", owner.business, {"name": "Tern", "currency": "EUR", "card_fee": 1.75}),
        owner.edit("list-line", uuid7(), {"name": "Lawn", "cost": 2812}),
    ])  # fmt: skip
    for path in ("/cloths", "/markets", "/bookings", "/businesses", "/list-lines"):
        seen = json.dumps(helper.ask("GET", path).get_json())
        assert '"id"' in seen
        # ids are of hexadecimal digits, so that one of them may hold "fee" or 890
        for hidden in ('"price"', '"fee"', '"fee_percent"', '"cost"', ": 2812", ": 890", ": 1.75"):
            assert hidden not in seen, (path, hidden)
    assert "2812" in owner.ask("GET", "/markets").get_data(as_text=True)
    assert b"2812" not in helper.ask("GET", "/bookings.ics").data


FOR_OWNERS = [kind for kind in KINDS if not kind.is_known_to("helper")]
EACH_FOR_OWNERS = pytest.mark.parametrize("kind", FOR_OWNERS, ids=lambda kind: kind.name)


def made(phone, kind, seed=1, record=None):
    fields = random_good_fields(Random(seed), kind, True)
    return phone.fact(kind.name, fields, **({} if kind.fact else {"record": record or uuid7()}))


@EACH_FOR_OWNERS
def test_a_helper_never_hears_of_a_kind_that_is_for_owners(owner, helper, kind):
    record = uuid7()
    told = [made(owner, kind, 1, record), made(owner, kind, 2, record)]
    if not kind.fact:
        # an edit that says nothing says that there is something
        told.append(owner.edit(kind.name, record, {}))
    statuses = {result["status"] for result in owner.exchange(told)["results"]}
    assert statuses == {"accepted"}
    pulled = helper.exchange()
    assert pulled["changes"] == [] and pulled["hidden"] == list(range(1, len(told) + 1))
    reply = helper.ask("GET", f"/{plural(kind.name)}")
    assert reply.status_code == 403 and record not in reply.get_data(as_text=True)
    assert len(owner.pull_all()[0]) == len(told)


@EACH_FOR_OWNERS
def test_a_helper_writes_no_kind_that_is_for_owners_and_cannot_guess_what_is_there(owner, helper, kind):
    there = made(owner, kind)
    assert status(owner, there) == "accepted"
    stamped = {"stamp": helper.stamp()}
    for guess in (there, there | stamped, there | stamped | {"fields": {}}, made(helper, kind)):
        [result] = helper.exchange([guess])["results"]
        assert (result["status"], result["seq"]) == ("rejected", None)
        assert set(result["errors"]) <= {"kind", "stamp"}
    assert len(owner.pull_all()[0]) == 1


def test_a_helper_reads_prices_of_products_and_sets_none(owner, helper):
    price = {"day": SALE_DAY, "product": uuid7(), "price": 600, "from": SALE_DAY}
    assert status(owner, owner.fact("price-set", price)) == "accepted"
    assert helper.exchange()["changes"][0]["fields"] == price
    assert status(helper, helper.fact("price-set", price)) == "rejected"


def test_an_error_shows_a_helper_nothing_it_did_not_send(owner, helper):
    record = uuid7()
    owner.exchange([owner.edit("cloth", record, PRICED)])
    told = helper.exchange([helper.edit("cloth", record, {"name": "x"})])
    assert told["results"][0]["status"] == "rejected"
    assert "890" not in json.dumps(told["results"])


@pytest.mark.parametrize("kind", [kind.name for kind in KINDS if kind.helper == "read" and not kind.fact])
def test_a_helper_does_not_edit_what_owners_keep(helper, kind):
    told = helper.exchange([helper.edit(kind, uuid7(), {"name": "x"})])
    assert list(told["results"][0]["errors"]) == ["kind"]


def test_a_helper_makes_a_booking_on_the_spot_and_edits_none(owner, helper):
    booking = uuid7()
    assert status(helper, helper.edit("booking", booking, {"days": [SALE_DAY], "name": "Fête"})) == "accepted"
    assert status(helper, helper.edit("booking", booking, {"days": [SALE_DAY], "name": "x"})) == "rejected"
    assert status(helper, helper.edit("booking", uuid7(), {"name": "x"})) == "rejected"
    assert status(helper, helper.edit("booking", uuid7(), {"days": [SALE_DAY], "fee": 1})) == "rejected"
    assert status(owner, owner.edit("booking", booking, {"name": "Summer fête", "fee": 900})) == "accepted"


def test_a_booking_made_twice_in_one_push_is_edited(helper):
    booking = uuid7()
    edits = [helper.edit("booking", booking, {"days": [SALE_DAY], "name": name}) for name in "ab"]
    assert [result["status"] for result in helper.exchange(edits)["results"]] == ["accepted", "rejected"]


def test_a_helper_puts_away_a_remnant_without_telling_all_of_it_again(owner, helper):
    rest = {"name": "Blue basket", "cloth": uuid7(), "width": 900, "length": 700}
    record = uuid7()
    owner.exchange([owner.edit("remnant", record, rest)])
    told = helper.exchange([helper.edit("remnant", record, {"archived": True})])
    assert told["results"][0]["status"] == "accepted"


def test_what_a_helper_undid_gave_back_or_claims_is_recorded_and_owners_hear_when_it_came(owner, helper):
    sale = helper.sale(2, 600)
    odd = [
        refund(helper, sale["id"], 1201),
        refund(helper, uuid7(), 600),
        refund(helper, None, 100),
        helper.fact("void", {"day": "2026-05-03", "sale": sale["id"]}),
        helper.fact("refund-void", {"day": "2026-05-03", "refund": uuid7()}),
        helper.fact("work-time", {"day": "2026-05-03", "what": "sewing", "minutes": 60}),
    ]
    told = helper.exchange([sale, *odd])["results"]
    assert {result["status"] for result in told} == {"accepted"}
    mine = refund(owner, None, 100)
    assert status(owner, mine) == "accepted"
    seen = {change["id"]: change for change in owner.pull_all()[0]}
    assert {id for id, change in seen.items() if "received" in change} == {change["id"] for change in odd}
    assert abs(seen[odd[0]["id"]]["received"] - now()) < 60_000
    assert not any("received" in change for change in helper.pull_all()[0])


def test_what_a_helper_gave_back_is_still_told_as_such_once_an_owner_sent_it_again(owner, helper):
    sale, back = helper.sale(), refund(helper, None, 9999)
    sent = [owner.sale(), sale, back]
    [told] = owner.exchange(sent)["changes"][2:]
    # when it came first nobody knows any more
    assert told == back | {"seq": 3, "received": back["at"]}
    [seen] = [change for change in owner.pull_all()[0] if change["id"] == back["id"]]
    assert seen == told
    assert status(helper, back) == "duplicate"


def test_a_helper_voids_no_fact_of_another_kind(owner, helper):
    purchase = owner.fact("purchase", {"day": SALE_DAY, "cloth": uuid7(), "length": 2600, "amount": 2314})
    strips = [{"size": uuid7(), "quantity": 12}]
    cut = helper.fact("cut", {"day": SALE_DAY, "cloth": uuid7(), "length": 1000, "lines": strips})
    assert (status(owner, purchase), status(helper, cut)) == ("accepted", "accepted")
    void = helper.fact("cut-void", {"day": SALE_DAY, "cut": purchase["id"]})
    [told] = helper.exchange([void])["results"]
    assert (told["status"], told["errors"]) == ("rejected", {"cut": ["names something of another kind"]})
    assert status(helper, helper.fact("cut-void", {"day": SALE_DAY, "cut": cut["id"]})) == "accepted"
    assert status(helper, helper.fact("cut-void", {"day": SALE_DAY, "cut": uuid7()})) == "accepted"


def test_a_helper_is_not_told_the_id_of_what_only_owners_see(owner, helper):
    hidden = owner.fact("wage-set", {"day": SALE_DAY, "wage": 1500, "from": SALE_DAY})
    assert status(owner, hidden) == "accepted"
    last = helper.exchange()["last"]
    assert last not in (None, hidden["id"]) and owner.exchange()["last"] == hidden["id"]
    # by it the phone is known to stand where it does
    after = helper.exchange(last=last)
    assert (after["from"], after["last"]) == (after["through"], last)


def test_only_an_owner_passes_on_what_another_phone_made(owner, helper):
    sale = owner.sale()
    told = helper.exchange([sale])
    assert list(told["results"][0]["errors"]) == ["stamp"]
    theirs = helper.sale()
    assert status(owner, theirs) == "accepted"
    assert status(helper, theirs) == "duplicate"


def test_a_helper_cannot_guess_what_only_owners_see(owner, helper):
    priced = owner.edit("cloth", uuid7(), PRICED)
    owner.exchange([priced])
    for price in (889, 890, 891):
        guess = priced | {"fields": PRICED | {"price": price}}
        [result] = helper.exchange([guess])["results"]
        assert (result["status"], result["seq"]) == ("rejected", None)
        assert "id" not in result["errors"]


def test_what_a_phone_made_as_an_owner_is_a_duplicate_still(app, business):
    phone = Phone(app, business, "owner")
    priced = phone.edit("cloth", uuid7(), PRICED)
    phone.exchange([priced])
    again = Phone(app, business, "owner", device=phone.id)
    assert status(again, priced) == "duplicate"
    told = again.ask("POST", "/devices/codes", {"role": "helper"}).get_json()
    paired = again.ask("POST", "/devices", {"code": told["code"], "name": "x", "device": phone.id})
    assert paired.get_json()["device"] == {"id": phone.id, "name": "x", "role": "helper"}
    assert status(again, priced) == "duplicate"


def test_what_a_phone_taken_off_had_not_sent_an_owner_takes_in_from_its_copy(app, business, owner):
    gone = Phone(app, business, "helper")
    gone.exchange([gone.sale()])
    # made before and after it was taken off, as its copy holds them
    unsent = [gone.sale(), gone.sale()]
    assert owner.ask("POST", f"/devices/{gone.id}/revoke").status_code == 204
    assert gone.send(unsent).status_code == 403
    other = Phone(app, business, "helper")
    assert [status(other, sale) for sale in unsent] == ["rejected"] * 2
    owner.exchange()
    assert [result["status"] for result in owner.exchange(unsent)["results"]] == ["accepted"] * 2
    assert [result["status"] for result in owner.exchange(unsent)["results"]] == ["duplicate"] * 2
    logged = owner.pull_all()[0]
    assert [change["id"] for change in logged[1:]] == [sale["id"] for sale in unsent]
    assert {change["stamp"][-36:] for change in logged} == {gone.id}
    assert len(owner.ask("GET", "/sales").get_json()["records"]) == 3


def test_what_was_never_said_of_a_record_reads_as_its_default(owner):
    owner.exchange([owner.edit("product", uuid7(), {"size": uuid7(), "price": 450, "group": "Petite"})])
    [product] = owner.ask("GET", "/products").get_json()["records"]
    assert (product["active"], product["archived"], product["name"]) == (True, False, "")
