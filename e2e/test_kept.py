"""Records on this phone: after a reload, after the browser is killed, in two tabs, and on a full disk."""

import json
from datetime import datetime
from zoneinfo import ZoneInfo

import pytest
from playwright.sync_api import expect

from .phone import ZONE
from .scenario import CLOTHS_TYPED, SIZES_TYPED, size_given

STRIP_TYPED = {"strip_length": "482", "strip_width": "110", "quantity": "60"}


def put_cloth_on_list(screen, name="Seagrass lawn"):
    """Work out a cloth, save it and put it on the list."""
    screen.start_at("/buy/fabric-per-dozen")
    screen.fill({**STRIP_TYPED, **CLOTHS_TYPED[name]})
    screen.save("cloth", name)
    screen.step("list").tap()
    screen.wait_for_title("Shopping list")
    screen.said("On the list")


def add_line(screen, name):
    """Write a line by hand, and wait until it is said to be kept."""
    screen.page.fill("#add-line", name)
    screen.page.get_by_role("button", name="Add").tap()
    screen.said("On the list")


def sign(screen, person="Imke"):
    screen.start_at("/make/safe-cutting-checklist")
    screen.fill({"tool": "rotary cutter", "cloth": "lawn"})
    screen.page.fill("[name=skipped]", "shown by Joss")
    screen.sign_as(person)


def today():
    return datetime.now(ZoneInfo(ZONE)).date()


def date_in_words(day):
    """A date as the phone says it, in British English."""
    return f"{day.day} {'Sept' if day.month == 9 else f'{day:%b}'} {day.year}"


def lines(screen):
    return screen.page.locator("[data-line] .tick strong:first-child")


def saved(screen):
    return screen.page.locator(".lines > li > span > strong")


def everything_is_there(screen):
    """Look at all that was kept by `keep_everything`."""
    expect(lines(screen.start_at("/buy/list"))).to_have_text(["Seagrass lawn"])
    expect(saved(screen.start_at("/buy/cloths"))).to_have_text(["Seagrass lawn"])
    expect(saved(screen.start_at("/buy/pieces"))).to_have_text(["Grand"])
    signed = screen.start_at("/make").page.get_by_role(
        "link", name=f"{date_in_words(today())}, rotary cutter"
    )
    expect(signed).to_be_visible()
    screen.start_at("/buy/strip-length")
    expect(screen.field("loop")).to_have_value("170.5")
    expect(screen.field("fullness")).to_have_value("")


def keep_everything(screen):
    screen.start_at("/buy/strip-length")
    screen.fill(SIZES_TYPED["Grand"])
    screen.save("piece", "Grand")
    put_cloth_on_list(screen)
    sign(screen)
    # half filled
    screen.start_at("/buy/strip-length")
    screen.fill({"loop": "170.5", "fullness": ""})
    screen.settle()


def test_all_that_was_kept_survives_a_reload(screen):
    keep_everything(screen)
    screen.reload()
    everything_is_there(screen)


def test_all_that_was_kept_survives_a_killed_browser(phone):
    keep_everything(phone.screen)
    phone.kill()
    everything_is_there(phone.switch_on(offline=True))


@pytest.mark.parametrize(
    "keep, path, look",
    [
        (put_cloth_on_list, "/buy/list", lambda screen: lines(screen).get_by_text("Seagrass lawn")),
        (sign, "/make", lambda screen: screen.page.get_by_text("Imke, lawn")),
    ],
)
def test_what_is_said_to_be_kept_survives_a_kill_at_that_moment(phone, keep, path, look):
    keep(phone.screen)
    phone.kill()
    expect(look(phone.switch_on(offline=True).start_at(path))).to_be_visible()


def test_a_size_survives_a_kill_at_the_moment_it_is_said_to_be_kept(phone):
    phone.screen.start_at("/buy/strip-length")
    phone.screen.fill(SIZES_TYPED["Grand"])
    phone.screen.save("piece", "Grand")
    phone.kill()
    screen = phone.switch_on(offline=True).start_at("/buy/remnant-yield")
    screen.fill({"width": "60", "length": "100"})
    screen.chip("Grand").tap()
    screen.answers("remnant-yield", {"width": 600, "length": 1000, "strip_length": 596, "strip_width": 140})


def test_ticks_of_the_list_and_the_checklist_survive(phone):
    put_cloth_on_list(phone.screen)
    phone.screen.page.locator("[data-line] input[type=checkbox]").tap()
    phone.screen.said("Seagrass lawn is in the bag")
    phone.screen.start_at("/make/safe-cutting-checklist")
    phone.screen.fill({"tool": "shears", "cloth": "woven"})
    must = phone.screen.page.locator("[data-must] input").first
    must.tap()
    phone.screen.settle()
    phone.kill()
    screen = phone.switch_on(offline=True).start_at("/make/safe-cutting-checklist")
    expect(screen.page.locator("[data-must] input").first).to_be_checked()
    expect(screen.start_at("/buy/list").page.locator("[data-line] input[type=checkbox]")).to_be_checked()


def test_a_new_line_can_be_undone(screen):
    put_cloth_on_list(screen)
    screen.page.get_by_role("button", name="Undo").tap()
    expect(lines(screen)).to_have_count(0)
    screen.reload()
    expect(lines(screen)).to_have_count(0)


def test_a_line_taken_off_can_be_brought_back(screen):
    screen.start_at("/buy/list")
    add_line(screen, "thread, rust")
    screen.page.get_by_role("button", name="Take thread, rust off the list").tap()
    screen.said("thread, rust is off the list")
    expect(lines(screen)).to_have_count(0)
    screen.page.get_by_role("button", name="Undo").tap()
    expect(lines(screen)).to_have_text(["thread, rust"])


def test_a_size_put_away_is_offered_no_more(screen):
    screen.start_at("/buy/strip-length")
    screen.fill(SIZES_TYPED["Petite"])
    screen.save("piece", "Petite")
    screen.start_at("/buy/pieces")
    screen.page.get_by_role("button", name="Archive Petite").tap()
    screen.said("Petite is archived")
    expect(saved(screen)).to_have_count(0)
    screen.start_at("/buy/strip-length")
    expect(screen.field("loop")).to_have_value("140")
    expect(screen.chip("Petite")).to_have_count(0)


def test_saving_under_the_same_name_changes_the_saved_one(screen):
    screen.start_at("/buy/strip-length")
    screen.fill(SIZES_TYPED["Petite"])
    screen.save("piece", "Petite")
    screen.fill({"loop": "142"})
    screen.save("piece", "Petite")
    screen.start_at("/buy/pieces")
    expect(saved(screen)).to_have_text(["Petite"])
    expect(screen.page.locator(".lines small")).to_contain_text("loop 142 mm")


def test_what_was_saved_under_a_name_before_is_brought_back(screen):
    screen.start_at("/buy/strip-length")
    screen.fill(SIZES_TYPED["Petite"])
    screen.save("piece", "Petite")
    screen.fill({"loop": "142"})
    screen.save("piece", "Petite")
    screen.page.locator(".notice").get_by_role("button", name="Undo").tap()
    screen.said("Petite is as it was")
    screen.start_at("/buy/pieces")
    expect(screen.page.locator(".lines small")).not_to_contain_text("loop 142 mm")


def test_two_tabs_see_each_others_changes(phone):
    first, second = phone.screen.start_at("/buy/list"), phone.another_tab().open("/buy/list")
    add_line(first, "thread, rust")
    expect(lines(second)).to_have_text(["thread, rust"])
    second.page.locator("[data-line] input[type=checkbox]").tap()
    expect(first.page.locator("[data-line] input[type=checkbox]")).to_be_checked()
    add_line(second, "bodkin")
    expect(lines(first)).to_have_text(["thread, rust", "bodkin"])


READ_WHILE_SAID = """async (say) => {
  const { subscribe } = await import('/data/store/following.js');
  const remembered = await import('/data/store/remembered.js');
  await remembered.remember('probe', 'older');
  const { getAll } = IDBObjectStore.prototype;
  IDBObjectStore.prototype.getAll = function (...asked) {
    IDBObjectStore.prototype.getAll = getAll;
    remembered[say]('probe', 'newer');
    return getAll.apply(this, asked);
  };
  const read = new Promise((resolve) => subscribe(resolve));
  new BroadcastChannel('boltfair-kept').postMessage('changes');
  await read;
  return remembered.recall('probe');
}"""


@pytest.mark.parametrize("say", ["remember", "rememberSoon"])
def test_what_is_said_while_the_store_is_read_anew_for_another_tab_stays(screen, say):
    assert screen.start_at("/buy/list").page.evaluate(READ_WHILE_SAID, say) == "newer"


def test_a_checklist_is_signed_once_a_day_and_can_be_looked_up(screen):
    sign(screen)
    expect(screen.page.locator("[data-sign]")).to_have_count(0)
    screen.reload()
    expect(screen.page.locator("[data-signed]")).to_contain_text("Signed today by Imke")
    screen.page.get_by_role("link", name="See or print it").tap()
    screen.wait_for_title("Signed checklist")
    facts = screen.page.locator(".facts")
    for words in (date_in_words(today()), "Imke", "rotary cutter", "lawn", "shown by Joss"):
        expect(facts).to_contain_text(words)


def test_every_record_says_where_it_is(screen):
    put_cloth_on_list(screen)
    screen.page.locator("[data-line] [data-kept]").tap()
    screen.wait_for_title("Settings")
    # the cloth and the line
    expect(screen.page.locator("[data-waiting]")).to_have_attribute("data-waiting", "2")


def test_a_copy_of_everything_can_be_saved(screen):
    put_cloth_on_list(screen)
    screen.start_at("/settings")
    with screen.page.expect_download() as saving:
        screen.page.get_by_role("button", name="Save a copy").tap()
    copy = json.loads(saving.value.path().read_text(encoding="utf-8"))
    assert [change["kind"] for change in copy["changes"]] == ["cloth", "list-line"]
    assert copy["changes"][1]["fields"]["cost"] == 2314


@pytest.fixture
def full_phone(new_phone, visited):
    """A phone with no room left, as its browser sees it."""
    profile, address = visited
    phone = new_phone(address, profile)
    phone.switch_on(offline=True)
    quota = {"origin": address, "quotaSize": 1}
    phone.devtools().send("Storage.overrideQuotaForOrigin", quota)
    return phone


def test_a_full_phone_says_at_once_that_it_could_not_keep_a_record(full_phone):
    screen = full_phone.screen.start_at("/buy/list")
    screen.page.fill("#add-line", "thread, rust")
    screen.page.get_by_role("button", name="Add").tap()
    screen.said("This phone could not keep that: it has no room left")
    expect(lines(screen)).to_have_count(0)
    expect(screen.page.locator("#add-line")).to_have_value("thread, rust")
    expect(screen.page.locator("[data-kept]")).to_have_count(0)


# a long answer, as screens of Review ask for it
KEEP_ANSWER = """async () => {
  const { keptIn, keptOf } = await import('/data/kept-answers.js');
  const made = await keptOf('tried', [], async () => 'asked', async () => 'told');
  return [made, keptIn('tried').made];
}"""


def test_a_full_phone_shows_what_it_works_out_and_says_nothing_of_it(full_phone):
    page = full_phone.screen.start_at("/sell/goods").page
    assert page.evaluate(KEEP_ANSWER) == ["told", "told"]
    page.evaluate("async () => (await import('/data/store/remembered.js')).settled().then(() => null)")
    assert page.locator(".notice").inner_text() == ""


def test_a_full_phone_says_at_once_that_it_could_not_keep_what_is_typed(full_phone):
    screen = full_phone.screen.start_at("/buy/strip-length")
    screen.fill({"loop": "180", "fullness": "3.2", "tube_width": "60"})
    screen.said("This phone could not keep that: it has no room left")
    # and works on
    screen.answers("strip-length", size_given("Grand"))
