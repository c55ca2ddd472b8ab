"""Settings: what is sold and where is described on the phone, by forms made from the declarations."""

import json
import re

import pytest
from playwright.sync_api import expect

from tests.phones import uuid7

from .one_batch import OneBatch
from .scenario import SIZES
from .shop import act, ask, exchange, pair

PLACE = uuid7()


def field(screen, name):
    return screen.page.locator(f'form[data-record] [name="{name}"]')


def save(screen):
    screen.page.get_by_role("button", name="Save", exact=True).tap()


def add(screen, kind, typed):
    """Describe something new on its form, and wait until it is said to be kept."""
    screen.hush()
    screen.open(f"/settings/{kind}/new")
    for name, value in typed.items():
        if field(screen, name).evaluate("(element) => element.tagName") == "SELECT":
            field(screen, name).select_option(label=value)
        else:
            field(screen, name).fill(value)
    save(screen)
    screen.said(f"{typed['name']} is saved on this phone")


def record(phone, kind):
    [found] = ask(phone, "records", "records", kind)
    return found


def test_a_business_is_set_up_with_no_signal(phone):
    screen = phone.screen
    add(screen, "business", {"name": "Tern & Tansy", "currency": "CHF"})
    add(screen, "place", {"name": "Quay stall", "use": "stall"})
    market = {
        "name": "Sandholt Quay Saturday",
        "first_day": "2026-03-14",
        "recurrence": "every week, on Saturday",
    }
    add(screen, "market", {**market, "place": "Quay stall", "pitch": "12", "fee": "28", "opens": "09:00"})
    kept = record(phone, "market")
    assert (kept["recurrence"], kept["fee"], kept["opens"]) == ("FREQ=WEEKLY;BYDAY=SA", 2800, "09:00")
    # money is in what the business sells in
    assert ask(phone, "preferences", "currency") == "CHF"
    # one tap books the next day, on the market's terms
    screen.open("/settings/market").page.locator(".lines .button").tap()
    expect(field(screen, "pitch")).to_have_value("12")
    field(screen, "fee").fill("35")
    save(screen)
    expect(screen.page.locator("[data-kind=booking] .to-record")).to_contain_text(
        "Sandholt Quay Saturday, Sat"
    )
    booking = record(phone, "booking")
    assert (booking["market"], booking["place"], booking["fee"]) == (kept["id"], kept["place"], 3500)


TYPE_AND_SAVE = """([name, text]) => {
    const form = document.querySelector("form[data-record]");
    form.elements[name].value = text;
    form.elements[name].dispatchEvent(new Event("input", { bubbles: true }));
    form.requestSubmit();
    form.requestSubmit();
}"""


def test_what_is_typed_last_is_saved_however_soon_and_once(phone):
    """Save is tapped, twice, before the core has read what was typed last."""
    screen = phone.screen
    add(screen, "place", {"name": "Quay stall", "use": "stall"})
    screen.hush()
    screen.open("/settings/place/new")
    field(screen, "name").fill("Quay")
    expect(screen.page.get_by_role("button", name="Save", exact=True)).to_be_enabled()
    screen.page.evaluate(TYPE_AND_SAVE, ["name", "Quay shed"])
    screen.said("Quay shed is saved on this phone")
    assert sorted(place["name"] for place in ask(phone, "records", "records", "place")) == [
        "Quay shed",
        "Quay stall",
    ]


def test_what_is_sewn_with_is_described_with_no_signal(phone):
    screen = phone.screen
    add(screen, "thread", {"name": "Rust 214", "length": "1000", "spools": "2", "tex": "27", "grams": "31.5"})
    thread = record(phone, "thread")
    assert (thread["length"], thread["spools"], thread["grams"], thread["opened"]) == (1000000, 2, 31.5, 0)
    add(screen, "supply", {"name": "Paper bags", "use": "packaging", "price": "4", "lasts": "100"})
    assert record(phone, "supply")["lasts"] == 100
    add(screen, "overhead", {"name": "Insurance", "amount": "120", "per": "year"})
    assert record(phone, "overhead")["amount"] == 12000
    screen.open("/settings/method/new")
    field(screen, "name").fill("Tube, then elastic")
    for number, (name, per) in enumerate((("Sew the tube", "piece"), ("Thread the needle", "thread"))):
        screen.page.get_by_role("button", name="Add a step").tap()
        field(screen, f"steps.{number}.name").fill(name)
        field(screen, f"steps.{number}.per").select_option(label=per)
    save(screen)
    screen.said("Tube, then elastic is saved on this phone")
    step = {"per": "piece", "machine": "", "allowance": 15, "name": "Sew the tube"}
    assert record(phone, "method")["steps"] == [step, step | {"name": "Thread the needle", "per": "thread"}]


def test_an_offer_says_what_it_still_needs_and_lists_its_groups(phone):
    screen = phone.screen
    add(screen, "piece", {"name": "Everyday"})
    size = record(phone, "piece")["id"]
    act(phone, "describeNew", "product", {"size": size, "price": 600, "group": "Everyday"})
    screen.open("/settings/offer/new")
    expect(screen.page.locator("[data-needed]")).to_have_text("Still needed: name, groups")
    expect(screen.page.get_by_role("button", name="Save", exact=True)).to_be_disabled()
    field(screen, "name").fill("Three Everyday for 15")
    screen.page.get_by_role("button", name="Everyday", exact=True).tap()
    field(screen, "n").fill("1")
    expect(screen.page.locator("#offer-n-problem")).to_be_visible()
    field(screen, "n").fill("3")
    field(screen, "price").fill("15")
    save(screen)
    screen.said("Three Everyday for 15 is saved on this phone")
    kept = record(phone, "offer")
    assert (kept["groups"], kept["n"], kept["price"]) == (["Everyday"], 3, 1500)


def test_only_what_was_changed_is_stated_anew(phone):
    screen = phone.screen
    add(screen, "cash-box", {"name": "Green tin", "usual_float": "40"})
    screen.open(f"/settings/cash-box/{record(phone, 'cash-box')['id']}")
    field(screen, "usual_float").fill("45.50")
    save(screen)
    screen.said("Green tin is saved on this phone")
    assert record(phone, "cash-box")["usual_float"] == 4550
    assert [change["fields"] for change in ask(phone, "store/own-changes", "ownChanges")][1:] == [
        {"usual_float": 4550}
    ]


def test_a_draft_holds_what_was_typed_and_no_more(phone):
    phone.screen.start_at("/settings")
    act(phone, "describeNew", "place", {"name": "Home", "use": "home"})
    size = act(phone, "describeNew", "piece", SIZES["Petite"])
    cloth = act(phone, "describeNew", "cloth", {"name": "Fog gauze"})
    fields = {"name": "Mini", "size": size, "cloth": cloth, "price": 450, "group": "Mini"}
    product = act(phone, "describeNew", "product", fields)
    screen = phone.screen.start_at(f"/settings/product/{product}")
    field(screen, "name").fill("Mini bow")
    screen.start_at("/settings")
    act(phone, "edit", "product", product, {"price": 500})
    screen.start_at(f"/settings/product/{product}")
    expect(field(screen, "name")).to_have_value("Mini bow")
    expect(field(screen, "price")).to_have_value("5.00")
    # and what comes while it is open
    act(phone, "edit", "product", product, {"group": "Small"})
    save(screen)
    screen.said("Mini bow is saved on this phone")
    told = ask(phone, "records", "recordById", "product", product)
    assert (told["name"], told["price"], told["group"]) == ("Mini bow", 500, "Small")


def test_each_day_that_is_booked_has_a_form_of_its_own(phone):
    phone.screen.open("/settings")
    markets = {
        name: act(phone, "describeNew", "market", {"name": name, "pitch": pitch})
        for name, pitch in (("Quay", "12"), ("Green", "3"))
    }
    screen = phone.screen.open(f"/settings/booking/new?market={markets['Quay']}&days=2026-12-05")
    expect(field(screen, "pitch")).to_have_value("12")
    screen.open(f"/settings/booking/new?market={markets['Green']}&days=2026-12-12")
    expect(field(screen, "pitch")).to_have_value("3")
    save(screen)
    screen.wait_for_title("Bookings")
    kept = record(phone, "booking")
    assert (kept["market"], kept["days"], kept["pitch"]) == (markets["Green"], ["2026-12-12"], "3")


def test_what_is_added_on_the_way_to_a_batch_is_added_once_and_leads_back(phone):
    screen = phone.screen.open("/settings")
    act(phone, "describeNew", "piece", SIZES["Petite"])
    screen.open("/make/batches/new").page.get_by_role("link", name="Add a thread").tap()
    field(screen, "name").fill("Rust")
    field(screen, "length").fill("1000")
    save(screen)
    screen.said("Rust is saved on this phone")
    expect(screen.page).to_have_url(re.compile("/make/batches/new$"))
    assert record(phone, "thread")["name"] == "Rust"


def test_a_booking_of_two_days_is_called_by_both(phone):
    phone.screen.open("/settings")
    act(phone, "describeNew", "booking", {"name": "", "days": ["2026-12-05", "2026-12-06"]})
    expect(
        phone.screen.open("/settings/booking").page.locator("[data-kind=booking] .to-record")
    ).to_have_text("Stall, Sat 5 Dec to Sun 6 Dec")


def test_a_day_of_another_year_has_no_comma_behind_its_weekday(phone):
    phone.screen.open("/settings")
    assert ask(phone, "naming", "dayInWords", "2025-12-07") == "Sun 7 Dec 2025"


def test_the_room_left_is_told_in_a_unit_that_is_read_at_a_glance(phone):
    room = phone.screen.open("/settings").page.locator("dl.facts div", has_text="Room left").locator("dd")
    expect(room).to_have_text(re.compile(r"^\d{1,3} (MB|GB)$"))


def test_what_is_archived_is_brought_back_later(phone):
    phone.screen.open("/settings")
    place = act(phone, "describeNew", "place", {"name": "Barn", "use": "home"})
    act(phone, "putAway", "place", place)
    page = phone.screen.open("/settings/place").page
    expect(page.locator("[data-kind=place] .to-record")).to_have_count(0)
    page.locator("[data-archived] summary").tap()
    page.get_by_role("button", name="Bring back Barn").tap()
    phone.screen.said("Barn is offered again")
    expect(page.locator("[data-kind=place] .to-record")).to_have_text("Barn")
    expect(page.locator("[data-archived]")).to_have_count(0)


def test_a_half_typed_record_survives_a_reload(phone):
    screen = phone.screen.start_at("/settings/market/new")
    field(screen, "name").fill("Orchard Lane")
    screen.settle()
    screen.reload()
    expect(field(screen, "name")).to_have_value("Orchard Lane")
    screen.page.get_by_role("button", name="Discard").tap()
    expect(field(screen.start_at("/settings/market/new"), "name")).to_have_value("")


def test_what_is_put_away_is_offered_no_more_and_can_be_brought_back(phone):
    screen = phone.screen
    add(screen, "person", {"name": "Joss"})
    screen.page.get_by_role("link", name="Joss").tap()
    screen.page.get_by_role("button", name="Archive").tap()
    screen.said("Joss is archived")
    expect(screen.page.locator(".to-record")).to_have_count(0)
    screen.page.get_by_role("button", name="Undo").tap()
    expect(screen.page.locator(".to-record")).to_have_text(["Joss"])


@pytest.fixture
def imke(paired):
    """An owner's phone."""
    return paired("Imke's phone")


def test_an_owner_adds_a_phone_and_takes_it_off(imke, shop, new_phone, known):
    page = imke.screen.page
    page.get_by_role("button", name="Add a phone").tap()
    code = page.locator("[data-code]").get_attribute("data-code")
    joss = new_phone(shop.address, known)
    joss.switch_on()
    pair(joss, {"code": code.lower()}, "Joss's phone")
    exchange(joss)
    imke.screen.open("/settings")
    listed = page.locator("[data-phones] li")
    expect(listed).to_contain_text("Joss's phone")
    expect(listed).to_contain_text("helper, last seen")
    listed.get_by_role("button", name="Remove Joss's phone").tap()
    # he may hear of it by himself
    joss.expected.append("403 (Forbidden)")
    listed.get_by_role("button", name="Yes, remove Joss's phone").tap()
    expect(listed).to_have_count(0)
    expect(joss.screen.open("/settings").page.locator("[data-standing=revoked]")).to_be_visible()


def test_a_helper_sees_no_fees_and_only_reads_what_owners_describe(imke, paired):
    place = act(imke, "describeNew", "place", {"name": "Stall", "use": "stall"})
    booking = act(
        imke, "describeNew", "booking", {"name": "Quay", "days": ["2026-12-05"], "fee": 2800, "place": place}
    )
    joss = paired("Joss's phone", role="helper")
    exchange(imke, joss)
    screen = joss.screen.open(f"/settings/booking/{booking}")
    expect(screen.page.locator("main")).to_contain_text("Only an owner may change this")
    assert "fee" not in record(joss, "booking")
    # but makes one on the spot
    screen.open("/settings/booking/new")
    expect(field(screen, "fee")).to_have_count(0)
    field(screen, "name").fill("By the road")
    screen.page.get_by_role("button", name="Add a day").tap()
    field(screen, "days.0").fill("2026-12-06")
    save(screen)
    screen.said("By the road is saved on this phone")
    exchange(joss, imke)
    names = [found["name"] for found in ask(imke, "records", "records", "booking")]
    assert sorted(names) == ["By the road", "Quay"]
    assert ask(joss, "records", "toCheck") == []


def test_a_helper_never_hears_of_what_it_costs_to_be_in_business(imke, paired):
    overhead = act(imke, "describeNew", "overhead", {"name": "Insurance", "amount": 12000, "per": "year"})
    act(imke, "state", "expense", {"day": "2026-12-05", "what": "Parking", "amount": 450})
    act(imke, "describeNew", "method", {"name": "Tube", "steps": [{"name": "Sew"}]})
    joss = paired("Joss's phone", role="helper")
    exchange(imke, joss)
    assert record(joss, "method")["name"] == "Tube"
    assert ask(joss, "records", "records", "overhead") == []
    assert ask(joss, "facts", "factsOf", "expense") == []
    assert ask(imke, "records", "records", "overhead") != []
    expect(imke.screen.open("/settings").page.locator('a[href^="/settings/overhead"]')).to_have_count(1)
    main = joss.screen.open("/settings").page.locator("main")
    expect(main).to_contain_text("Methods")
    expect(main).not_to_contain_text("Overheads")
    for path in ("overhead", f"overhead/{overhead}", "overhead/new"):
        expect(joss.screen.open(f"/settings/{path}").page.locator("main")).to_contain_text("No such screen")


COSTS = "async () => { await (await import('/data/costs.js')).costsEach(() => {}); }"
# the name of a cost, with its value, in an answer that is kept as a text
COST_KEPT = 'cash_each\\":'
AMOUNT_WRITTEN = '"900 EUR money"'
# all that the app keeps on this phone, as text
ALL_KEPT = """async () => {
  const answer = (request) =>
    new Promise((resolve) => { request.onsuccess = () => resolve(request.result); });
  const found = [];
  for (const { name } of await indexedDB.databases()) {
    const database = await answer(indexedDB.open(name));
    for (const store of database.objectStoreNames)
      found.push(await answer(database.transaction(store).objectStore(store).getAll()));
    database.close();
  }
  return JSON.stringify(found);
}"""


def test_an_owner_who_becomes_a_helper_forgets_what_is_for_owners(imke, shop, paired):
    joss = paired("Joss's phone", role="owner")
    act(imke, "state", "expense", {"day": "2026-12-05", "what": "Parking", "amount": 450})
    act(joss, "state", "expense", {"day": "2026-12-05", "what": "Lunch", "amount": 900})
    act(imke, "describeNew", "overhead", {"name": "Insurance", "amount": 12000})
    exchange(imke, joss, imke)
    assert len(ask(joss, "facts", "factsOf", "expense")) == 2
    batch = OneBatch(joss)
    batch.buy_cloth()
    batch.make()
    # what was worked out before an exchange went on is not kept
    exchange(joss)
    joss.screen.page.evaluate(COSTS)
    page = joss.screen.start_at("/review/expenses").page
    expect(page.locator("[data-spent='900']")).to_be_visible()
    joss.screen.settle()
    kept = page.evaluate(ALL_KEPT)
    assert COST_KEPT in kept and AMOUNT_WRITTEN in kept
    joss.expected.append("403 (Forbidden)")
    shop.console("phones", "revoke", ask(joss, "clock", "deviceId"))
    act(joss, "state", "asked-for", {"day": "2026-12-05", "place": PLACE, "size": PLACE})
    expect(joss.screen.open("/settings").page.locator("[data-standing=revoked]")).to_be_visible()
    pair(joss, shop.code("helper"), "Joss's phone")
    exchange(joss, imke)
    assert ask(joss, "facts", "factsOf", "expense") == ask(joss, "records", "records", "overhead") == []
    assert ask(joss, "looked-at", "toLookAt")["aside"] == []
    # nor what was worked out of it, nor an amount that a start wrote
    kept = joss.screen.page.evaluate(ALL_KEPT)
    assert COST_KEPT not in kept
    assert AMOUNT_WRITTEN not in kept
    assert len(ask(imke, "facts", "factsOf", "expense")) == 2


def test_a_helper_who_becomes_an_owner_sees_all_and_keeps_all(imke, shop, paired):
    place = act(imke, "describeNew", "place", {"name": "Stall", "use": "stall"})
    act(imke, "describeNew", "booking", {"name": "Quay", "days": ["2026-12-05"], "fee": 2800, "place": place})
    joss = paired("Joss's phone", role="helper")
    act(joss, "state", "asked-for", {"day": "2026-12-05", "place": place, "size": place})
    exchange(imke, joss)
    assert "fee" not in record(joss, "booking")
    joss.expected.append("403 (Forbidden)")
    shop.console("phones", "revoke", ask(joss, "clock", "deviceId"))
    act(joss, "state", "asked-for", {"day": "2026-12-05", "place": place, "size": place})
    expect(joss.screen.open("/settings").page.locator("[data-standing=revoked]")).to_be_visible()
    pair(joss, shop.code("owner"), "Joss's phone")
    exchange(joss, imke)
    assert record(joss, "booking")["fee"] == 2800
    for phone in (imke, joss):
        assert len(ask(phone, "facts", "factsOf", "asked-for")) == 2
    expect(joss.screen.open("/settings").page.locator("main")).to_contain_text("Joss's phone, owner")


def test_a_rejected_change_is_corrected_by_one_that_replaces_it(imke):
    # a price beyond any limit, as a fault or an older version might have kept it
    act(imke, "describeNew", "cash-box", {"name": "Green tin", "usual_float": 4000})
    exchange(imke)
    screen = imke.screen
    screen.page.evaluate(KEEP_BAD, record(imke, "cash-box")["id"])
    exchange(imke)
    screen.open("/settings")
    expect(screen.page.locator("[data-to-check]")).to_contain_text("usual float")
    assert record(imke, "cash-box")["usual_float"] == 4000
    screen.page.locator("[data-to-check]").get_by_role("link", name="Correct").tap()
    expect(field(screen, "name")).to_have_value("Green tin")
    field(screen, "usual_float").fill("42")
    save(screen)
    screen.wait_for_title("Settings")
    exchange(imke)
    expect(screen.page.locator("[data-to-check]")).to_have_count(0)
    assert record(imke, "cash-box")["usual_float"] == 4200
    last = ask(imke, "store/log", "wholeLog")[-1]
    assert last["fields"] == {"usual_float": 4200}
    assert last["replaces"]


KEEP_BAD = """async (record) => {
  const { newId, nextStamp } = await import('/data/clock.js');
  const { keepChanges } = await import('/data/store/own-changes.js');
  const { at, stamp, clock } = nextStamp();
  const fields = { usual_float: -5 };
  await keepChanges([{ id: newId(), kind: 'cash-box', record, fields, at, stamp, schema: 1 }], clock);
}"""


def test_a_copy_saved_on_one_phone_is_taken_in_on_another(phone, new_phone, visited, tmp_path):
    screen = phone.screen
    add(screen, "place", {"name": "Home shelf"})
    with screen.open("/settings").page.expect_download() as saving:
        screen.page.get_by_role("button", name="Save a copy").tap()
    copy = tmp_path / "copy.json"
    copy.write_bytes(saving.value.path().read_bytes())
    other = new_phone(phone.address, visited[0])
    page = other.switch_on(offline=True).open("/settings").page
    page.set_input_files("[data-copy]", copy)
    other.screen.said("1 loaded, 0 were here")
    assert record(other, "place")["name"] == "Home shelf"
    page.set_input_files("[data-copy]", copy)
    other.screen.said("0 loaded, 1 were here")
    copy.write_text(json.dumps({"changes": []}))
    page.set_input_files("[data-copy]", copy)
    other.screen.said("This file is not a copy that Boltfair saved")


def test_what_waits_is_told_one_by_one(phone):
    add(phone.screen, "place", {"name": "Home shelf"})
    screen = phone.screen.open("/settings")
    screen.page.locator(".settings-waits summary").tap()
    expect(screen.page.locator(".settings-waits li")).to_have_text(["Home shelf"])
