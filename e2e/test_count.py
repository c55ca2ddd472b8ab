"""Counting with no signal: blind, box by box, while selling goes on."""

import re
import uuid

import pytest
from playwright.sync_api import expect

from .screen import HOLD_CORE
from .shop import act, ask, exchange
from .stall import EACH, Stall

CHECK = ("Everyday", "Harbour check")
LAWN = ("Everyday", "Seagrass lawn")
GRAND = ("Grand", "Seagrass lawn")


def counted_stall(phone):
    """Count a stall; there is a shelf at home, too."""
    made = Stall(phone)
    made.count()
    made.home = act(phone, "describeNew", "place", {"name": "Home shelf", "use": "home"})
    return made


@pytest.fixture
def ground():
    return counted_stall


@pytest.fixture
def stall(phone):
    """Such a stall, on a phone that can reach nobody."""
    return phone.ground


@pytest.fixture
def page(phone):
    return phone.screen.page


def begin(phone, which="opening"):
    """Begin a count at the place that is offered first."""
    page = phone.screen.open("/count").page
    page.locator(f"[data-which={which}]").tap()
    page.locator("[data-thing]").first.wait_for()


def row(phone, thing):
    return phone.screen.page.locator(f'[data-thing="{thing}"]')


def more(phone, thing, times=1):
    """Tap plus, and wait until what was seen is shown as kept."""
    for _ in range(times):
        row(phone, thing).get_by_role("button", name="more").tap()
    is_kept(phone, thing)


def key_in(phone, thing, pieces):
    """Tap the number, and type it as the phone's keypad does."""
    row(phone, thing).locator("input").tap()
    phone.screen.page.keyboard.type(str(pieces))
    is_kept(phone, thing)


def is_kept(phone, thing):
    expect(row(phone, thing).locator("[data-kept]")).to_have_text(re.compile("on this phone|sent"))


def use_box(page, name):
    page.locator("#box").select_option("\n")
    page.fill("#box-name", name)
    page.get_by_role("button", name="Use it").tap()


def look(page):
    """Go to what differs, and wait until it has been worked out."""
    page.locator("[data-to-close]").tap()
    page.locator("[data-right]").wait_for()


def close(phone):
    phone.screen.page.locator("[data-close]").tap()
    phone.screen.said("The count is closed")
    phone.screen.page.locator("[data-phone]").first.wait_for()


def difference(page, thing):
    return page.locator(f'[data-row="{thing}"]')


def lines(phone):
    """Tell the lines stated in counts made by hand, the first one first."""
    seen = ask(phone, "facts", "factsOf", "count-line")[::-1]
    return [fact for fact in seen if fact["session"][14] == "5"]


def sell(phone, stall, what, quantity=1):
    thing = {"product": stall.product[what]} if what in stall.product else {"size": stall.size[what]}
    line = {**thing, "quantity": quantity, "unit_price": 600, "total": 600 * quantity}
    fields = {"day": ask(phone, "clock", "today"), "place": stall.place, "payment": "cash"}
    return act(phone, "state", "sale", {**fields, "lines": [line], "amount": 600 * quantity})


# counting


def test_boxes_add_and_the_same_box_replaces(phone, page, stall):
    begin(phone)
    # typed: taps that a busy machine makes slowly are a line each
    key_in(phone, stall.product[CHECK], 3)
    use_box(page, "Blue tray")
    key_in(phone, stall.product[CHECK], 6)
    expect(row(phone, stall.product[CHECK])).to_contain_text("3 in other boxes")
    key_in(phone, stall.product[CHECK], 7)
    assert [(line["box_label"], line["quantity"]) for line in lines(phone)] == [
        ("", 3), ("Blue tray", 6), ("Blue tray", 7),
    ]  # fmt: skip
    page.locator("#box").select_option("")
    expect(row(phone, stall.product[CHECK]).locator("input")).to_have_value("3")
    page.locator("summary", has_text="Seen so far: 2 lines, 10 pieces").tap()
    expect(page.get_by_role("heading", name="Blue tray")).to_be_visible()


def test_naming_a_box_is_left_again_and_no_name_is_none(phone, page, stall):
    begin(phone)
    page.locator("#box").select_option("\n")
    expect(page.locator("#box-name")).to_be_focused()
    expect(page.get_by_role("button", name="Use it")).to_be_disabled()
    page.get_by_role("button", name="Cancel").tap()
    expect(page.locator("#box")).to_have_value("")
    expect(page.locator("#box")).to_be_focused()


def test_many_taps_are_one_line(phone, stall):
    begin(phone)
    # as fast as a finger: a busy machine's own taps may pause so long that a line is kept
    plus = row(phone, stall.product[CHECK]).get_by_role("button", name="more")
    plus.evaluate("""async (plus) => {
      for (let tap = 0; tap < 12; tap += 1) {
        plus.click();
        await new Promise((drawn) => setTimeout(drawn));
      }
    }""")
    is_kept(phone, stall.product[CHECK])
    assert [line["quantity"] for line in lines(phone)] == [12]


def test_none_is_said_with_one_tap_and_a_size_alone_can_be_counted(phone, page, stall):
    begin(phone)
    row(phone, stall.product[CHECK]).get_by_role("button", name="less").tap()
    is_kept(phone, stall.product[CHECK])
    page.locator("summary", has_text="What was never here").tap()
    more(phone, stall.size["Petite"])
    assert [(line["product"], line["size"], line["quantity"]) for line in lines(phone)] == [
        (stall.product[CHECK], None, 0), (None, stall.size["Petite"], 1),
    ]  # fmt: skip


def test_a_count_is_blind(phone, page, stall):
    begin(phone)
    expect(page.locator("[data-thing]").first).to_be_visible()
    assert str(EACH) not in page.locator("main .counts").all_inner_texts()
    assert page.locator("[data-counted]:not([data-counted=''])").count() == 0


def test_a_count_has_the_id_that_every_phone_of_the_business_makes(phone, page, stall):
    begin(phone, "closing")
    more(phone, stall.product[CHECK])
    [line] = lines(phone)
    business, day = uuid.UUID(ask(phone, "clock", "deviceId")), ask(phone, "clock", "today")
    assert line["session"] == str(uuid.uuid5(business, f"{stall.place} {day} closing"))


def test_a_box_is_remembered_for_the_next_count_of_its_place(phone, page, stall):
    begin(phone)
    use_box(page, "Blue tray")
    page.get_by_role("button", name="Leave this count open").tap()
    page.locator("[data-which=midday]").tap()
    page.locator("#box").select_option("Blue tray")


def test_the_open_count_is_what_count_opens_on_while_selling_goes_on(phone, page, stall):
    begin(phone)
    more(phone, stall.product[CHECK], 2)
    page.get_by_role("link", name="Sell", exact=True).tap()
    phone.screen.wait_for_title("Sell")
    page.get_by_role("link", name="Count", exact=True).tap()
    phone.screen.wait_for_title("Opening count")
    expect(row(phone, stall.product[CHECK]).locator("input")).to_have_value("2")


@pytest.mark.parametrize("ground", [None])
def test_with_nothing_to_count_the_way_to_it_is_shown(phone):
    page = phone.screen.open("/count").page
    page.get_by_role("link", name="Add a place").tap()
    expect(page.locator("h1")).to_have_text("A place")


def test_the_keyboard_alone_counts_and_closes(phone, page, stall):
    page = phone.screen.open("/count").page
    page.locator("[data-which=opening]").press("Enter")
    number = row(phone, stall.product[CHECK]).locator("input")
    number.wait_for()
    phone.screen.tab_to(number)
    page.keyboard.type("7")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    is_kept(phone, stall.product[CHECK])
    expect(number).to_have_value("8")
    phone.screen.tab_to(page.locator("[data-to-close]"))
    page.keyboard.press("Enter")
    page.locator("[data-right]").wait_for()
    phone.screen.tab_to(page.locator("[name=scope]").first)
    page.keyboard.press("ArrowDown")
    expect(page.locator("[name=scope][value=list]")).to_be_checked()
    expect(page.locator("[data-row]")).to_have_count(1)
    phone.screen.tab_to(page.locator("[data-close]"))
    page.keyboard.press("Enter")
    phone.screen.said("The count is closed")
    assert stall.left()[stall.product[CHECK]] == 8


# nothing is lost


def test_what_was_shown_as_kept_is_there_after_the_app_is_killed(phone, page, stall):
    begin(phone)
    use_box(page, "Blue tray")
    key_in(phone, stall.product[CHECK], 9)
    phone.screen.settle()
    phone.kill()
    page = phone.switch_on(offline=True).open("/count").page
    phone.screen.wait_for_title("Opening count")
    expect(page.locator("#box")).to_have_value("Blue tray")
    expect(row(phone, stall.product[CHECK]).locator("input")).to_have_value("9")


# only what tells of a count, and from the next time on
HOLD_WHAT_IS_TOLD = """() => {
  const { postMessage } = Worker.prototype;
  const held = [];
  Worker.prototype.postMessage = function (message) {
    if (message.text?.includes('count_so_far')) held.push(message);
    else postMessage.call(this, message);
  };
  self.letGo = () => {
    Worker.prototype.postMessage = postMessage;
    held.forEach((message) => coreWorker.postMessage(message));
  };
}"""


def test_a_tap_goes_on_from_what_was_tapped_last_though_that_is_told_late(phone, page, stall):
    begin(phone)
    page.evaluate(HOLD_WHAT_IS_TOLD)
    one_more = row(phone, stall.product[CHECK]).get_by_role("button", name="more")
    for pieces in (1, 2, 3):
        one_more.tap()
        is_kept(phone, stall.product[CHECK])
        assert lines(phone)[-1]["quantity"] == pieces
    expect(row(phone, stall.product[CHECK]).locator("input")).to_have_value("3")
    page.evaluate("self.letGo()")
    page.locator("summary", has_text="Seen so far").wait_for()
    expect(row(phone, stall.product[CHECK]).locator("input")).to_have_value("3")


def test_what_was_tapped_and_not_yet_kept_is_offered_again(phone, page, stall):
    begin(phone)
    # nothing is kept that the core has not checked
    page.evaluate(HOLD_CORE)
    row(phone, stall.product[CHECK]).get_by_role("button", name="more").tap()
    phone.screen.settle()
    phone.kill()
    page = phone.switch_on(offline=True).open("/count").page
    expect(page.locator("[data-left]")).to_contain_text("1 × Everyday Harbour check")
    assert lines(phone) == []
    page.get_by_role("button", name="Record it").tap()
    is_kept(phone, stall.product[CHECK])
    assert [line["quantity"] for line in lines(phone)] == [1]
    expect(page.locator("[data-left]")).to_have_count(0)


def test_what_was_left_can_be_dropped(phone, page, stall):
    begin(phone)
    page.evaluate(HOLD_CORE)
    row(phone, stall.product[CHECK]).get_by_role("button", name="more").tap()
    phone.screen.settle()
    phone.kill()
    page = phone.switch_on(offline=True).open("/count").page
    page.get_by_role("button", name="Drop it").tap()
    expect(page.locator("[data-left]")).to_have_count(0)
    expect(row(phone, stall.product[CHECK]).locator("input")).to_have_value("")


def test_what_was_said_about_the_close_is_there_after_a_reload(phone, page, stall):
    begin(phone)
    key_in(phone, stall.product[CHECK], 10)
    look(page)
    page.locator("[name=scope][value=list]").check()
    page.locator(f"#why-{stall.product[CHECK]}").fill("a gift")
    phone.screen.settle()
    phone.screen.reload()
    page.locator("[data-right]").wait_for()
    expect(page.locator("[name=scope][value=list]")).to_be_checked()
    expect(page.locator(f"#why-{stall.product[CHECK]}")).to_have_value("a gift")


# closing


def test_closing_only_what_was_counted_leaves_the_rest_as_it_is(phone, page, stall):
    begin(phone)
    key_in(phone, stall.product[CHECK], 10)
    look(page)
    page.locator("[name=scope][value=list]").check()
    expect(page.locator("[data-row]")).to_have_count(1)
    expect(difference(page, stall.product[CHECK])).to_contain_text("2 missing")
    expect(difference(page, stall.product[CHECK])).to_contain_text("€12.00")
    page.locator(f"#why-{stall.product[CHECK]}").fill("a gift")
    close(phone)
    expect(page.locator('[data-missing="2"]')).to_be_visible()
    expect(difference(page, stall.product[CHECK])).to_contain_text("a gift")
    left = stall.left()
    assert (left[stall.product[CHECK]], left[stall.product[LAWN]]) == (10, EACH)
    [fact, _] = ask(phone, "facts", "factsOf", "count-close")
    assert (fact["scope"], fact["reasons"]) == (
        "list",
        [{"product": stall.product[CHECK], "size": None, "reason": "a gift"}],
    )


def test_a_count_closes_only_by_what_was_said_last(phone, page, stall):
    begin(phone)
    key_in(phone, stall.product[CHECK], 10)
    look(page)
    with phone.screen.core_held():
        page.locator("[name=scope][value=list]").check()
        expect(page.locator("[data-close]")).to_be_disabled()
    close(phone)
    assert stall.left()[stall.product[LAWN]] == EACH


def test_of_two_closes_that_contradict_each_other_the_later_stands_and_that_is_said(phone, page, stall):
    begin(phone)
    key_in(phone, stall.product[CHECK], EACH)
    look(page)
    page.locator("[name=scope][value=list]").check()
    expect(page.locator("[data-row]")).to_have_count(0)
    close(phone)
    expect(page.locator("[data-differing]")).to_have_count(0)
    [fact, _] = ask(phone, "facts", "factsOf", "count-close")
    same = {name: fact[name] for name in ("day", "session", "place")}
    act(phone, "state", "count-close", {**same, "scope": "all", "listed": [], "answers": [], "reasons": []})
    expect(page.locator("[data-differing='1']")).to_contain_text("The last close, at")
    assert stall.left()[stall.product[LAWN]] == 0


def test_what_was_tapped_last_is_in_what_is_closed(phone, page, stall):
    begin(phone)
    row(phone, stall.product[CHECK]).get_by_role("button", name="more").tap()
    page.locator("[data-to-close]").tap()
    expect(difference(page, stall.product[CHECK])).to_contain_text("1 counted")
    page.locator("[name=scope][value=list]").check()
    expect(page.locator("[data-row]")).to_have_count(1)
    close(phone)
    assert stall.left()[stall.product[CHECK]] == 1
    assert [line["quantity"] for line in lines(phone)] == [1]


def test_closing_all_says_that_what_was_not_seen_is_none(phone, page, stall):
    begin(phone)
    for what, product in stall.product.items():
        if what != GRAND:
            key_in(phone, product, EACH)
    look(page)
    expect(page.locator('[data-unseen="1"]')).to_be_visible()
    expect(difference(page, stall.product[GRAND])).to_contain_text(f"{EACH} missing")
    close(phone)
    assert stall.left()[stall.product[GRAND]] == 0
    expect(page.locator(".facts")).to_contain_text("83 %")


def test_what_was_not_seen_and_what_was_chosen_is_counted_again(phone, page, stall):
    begin(phone)
    key_in(phone, stall.product[CHECK], 10)
    look(page)
    difference(page, stall.product[CHECK]).get_by_label("Count again").check()
    page.locator("[data-again]").tap()
    expect(page.locator("[data-thing]")).to_have_count(1)
    key_in(phone, stall.product[CHECK], EACH)
    look(page)
    page.get_by_role("button", name="Count them").tap()
    expect(page.locator("[data-thing]")).to_have_count(len(stall.product) - 1)
    page.get_by_role("button", name="Show all").tap()
    expect(row(phone, stall.product[CHECK]).locator("input")).to_have_value(str(EACH))


@pytest.mark.parametrize("answer, left", [("Already out", 10), ("Still on the table", 8), (None, 10)])
def test_what_was_sold_while_it_was_counted_is_asked_about(phone, page, stall, answer, left):
    begin(phone)
    key_in(phone, stall.product[CHECK], 6)
    sell(phone, stall, CHECK, 2)
    use_box(page, "Blue tray")
    key_in(phone, stall.product[CHECK], 4)
    sell(phone, stall, LAWN)
    look(page)
    question = page.locator('[data-meanwhile="2"]')
    expect(question).to_contain_text("2 sold at")
    if answer:
        question.get_by_role("button", name=answer).tap()
        expect(question.get_by_role("button", name=answer)).to_have_attribute("aria-pressed", "true")
    words = "2 missing" if answer == "Still on the table" else "agrees"
    expect(difference(page, stall.product[CHECK])).to_contain_text(words)
    page.locator("[name=scope][value=list]").check()
    close(phone)
    assert stall.left()[stall.product[CHECK]] == left


@pytest.mark.parametrize("answer, words", [("Already there", "1 missing"), ("Not there yet", "agrees")])
def test_what_came_back_while_it_was_counted_is_asked_about(phone, page, stall, answer, words):
    begin(phone)
    key_in(phone, stall.product[CHECK], 6)
    out, back = ({"product": stall.product[what], "quantity": 1} for what in (LAWN, CHECK))
    swap = {"day": ask(phone, "clock", "today"), "place": stall.place, "payment": "none", "amount": 0}
    act(
        phone,
        "state",
        "sale",
        {**swap, "lines": [{**out, "unit_price": 600, "total": 0}], "returned": [back]},
    )
    use_box(page, "Blue tray")
    key_in(phone, stall.product[CHECK], 6)
    look(page)
    question = page.locator('[data-meanwhile="-1"]')
    expect(question).to_contain_text("1 came back at")
    question.get_by_role("button", name=answer).tap()
    expect(difference(page, stall.product[CHECK])).to_contain_text(words)
    page.locator("[name=scope][value=list]").check()
    close(phone)
    assert stall.left()[stall.product[CHECK]] == EACH + (answer == "Not there yet")


def test_a_size_sold_without_naming_its_cloth_is_found_by_the_count(phone, page, stall):
    sell(phone, stall, "Everyday", 2)
    begin(phone)
    key_in(phone, stall.product[CHECK], EACH - 2)
    for what, product in stall.product.items():
        if what != CHECK:
            key_in(phone, product, EACH)
    look(page)
    expect(page.locator("[data-row]")).to_have_count(0)
    close(phone)
    expect(page.locator('[data-accuracy="100"]')).to_be_visible()
    assert stall.left()[stall.product[CHECK]] == EACH - 2
    assert stall.left()[None] == 0


def test_a_closed_count_is_answered_by_a_further_one(phone, page, stall):
    begin(phone)
    key_in(phone, stall.product[CHECK], 10)
    look(page)
    page.locator("[name=scope][value=list]").check()
    close(phone)
    page.locator("[data-count-again]").tap()
    phone.screen.wait_for_title("Further count 1")
    key_in(phone, stall.product[CHECK], 11)
    look(page)
    page.locator("[name=scope][value=list]").check()
    close(phone)
    assert stall.left()[stall.product[CHECK]] == 11
    page = phone.screen.open("/count").page
    expect(page.locator("a[data-which=opening]")).to_contain_text("closed")
    page.locator("a[data-which='1']").tap()
    expect(difference(page, stall.product[CHECK])).to_contain_text("1 too many")


# two phones


@pytest.fixture
def two(paired):
    """An owner's phone and a helper's that know one stall, and have no signal any more."""
    phones = [paired("Imke's phone"), paired("Joss's phone", role="helper")]
    stall = Stall(phones[0])
    stall.count()
    exchange(*phones)
    for phone in phones:
        phone.screen.wait_until_ready_offline()
        phone.expected.append("ERR_INTERNET_DISCONNECTED")
        phone.context.set_offline(True)
    return *phones, stall


def reconnect(*phones):
    for phone in phones:
        phone.context.set_offline(False)
    exchange(*phones)


def test_two_phones_without_a_signal_share_one_count(two):
    imke, joss, stall = two
    begin(imke, "midday")
    begin(joss, "midday")
    use_box(imke.screen.page, "Blue tray")
    key_in(imke, stall.product[CHECK], 5)
    use_box(joss.screen.page, "Red tray")
    key_in(joss, stall.product[CHECK], 6)
    key_in(joss, stall.product[LAWN], EACH)
    sell(joss, stall, CHECK)
    reconnect(imke, joss)
    expect(imke.screen.page.locator("[data-others]")).to_have_text("Counted on another phone: 2 lines.")
    expect(row(imke, stall.product[CHECK])).to_contain_text("6 in other boxes")
    look(joss.screen.page)
    joss.screen.page.locator("[name=scope][value=list]").check()
    expect(difference(joss.screen.page, stall.product[CHECK])).to_contain_text("1 missing")
    expect(difference(joss.screen.page, stall.product[CHECK])).to_contain_text("€6.00")
    close(joss)
    exchange(joss, imke)
    expect(imke.screen.page.locator(".verdict")).to_contain_text("Closed at")
    imke.screen.page.get_by_role("button", name="Leave this count", exact=True).tap()
    imke.screen.page.locator("a[data-which=midday]").tap()
    expect(imke.screen.page.locator("[data-phone]")).to_have_count(2)
    stall.phone = joss
    at_joss = stall.left()
    stall.phone = imke
    assert stall.left() == at_joss
    assert at_joss[stall.product[CHECK]] == 10


def test_a_line_after_the_close_joins_the_count_and_is_told(two):
    imke, joss, stall = two
    begin(imke, "closing")
    begin(joss, "closing")
    key_in(imke, stall.product[CHECK], 5)
    look(imke.screen.page)
    imke.screen.page.locator("[name=scope][value=list]").check()
    close(imke)
    use_box(joss.screen.page, "Red tray")
    key_in(joss, stall.product[CHECK], 6)
    reconnect(joss, imke)
    expect(imke.screen.page.locator('[data-late="1"]')).to_be_visible()
    assert stall.left()[stall.product[CHECK]] == 11


@pytest.mark.parametrize("ground", [None])
def test_a_first_count_is_taken_into_the_books(phone):
    made = Stall(phone)
    begin(phone)
    key_in(phone, made.product[LAWN], 20)
    phone.screen.open("/count/close")
    page = phone.screen.page
    expect(page.locator("[data-first]")).to_have_attribute("data-first", "1")
    expect(page.locator("[data-difference]")).to_have_count(0)
    page.locator("[data-close]").tap()
    expect(page.locator("main [data-first]")).to_contain_text("the books begin with it")
    expect(page.locator("[data-accuracy]")).to_have_count(0)
    assert made.left()[made.product[LAWN]] == 20
