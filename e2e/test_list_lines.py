"""A line of the shopping list links the size and the cloth it is about, whatever they are called later."""

import pytest
from playwright.sync_api import expect

from .shop import act, ask, exchange
from .stocked import stock_phone

LAWN, CHECK, EVERYDAY, GRAND = "Seagrass lawn", "Harbour check", "Everyday", "Grand"


@pytest.fixture
def ground():
    return stock_phone


@pytest.fixture
def furnished(screen):
    """A phone with the scenario's records."""
    return screen


def ids(phone, kind):
    return {record["name"]: record["id"] for record in ask(phone, "records", "records", kind)}


def lines(phone, name):
    return [line for line in ask(phone, "records", "records", "list-line") if line["name"] == name]


def wanted(phone):
    return ask(phone, "cutting", "wantedOnList")


def put(screen, button="[data-step=list]"):
    """Put the answer on the list, and wait until it is there."""
    found = screen.page.locator(button)
    expect(found).to_be_enabled()
    found.tap()
    screen.wait_for_title("Shopping list")


def test_cloth_worked_out_for_a_size_is_linked_to_both(furnished, phone):
    furnished.open("/buy/fabric-per-dozen")
    furnished.chip(GRAND).tap()
    furnished.chip(CHECK).tap()
    furnished.fill({"quantity": "36"})
    put(furnished)
    [line] = lines(phone, CHECK)
    size, cloth = ids(phone, "piece")[GRAND], ids(phone, "cloth")[CHECK]
    assert (line["size"], line["cloth"], line["quantity"]) == (size, cloth, 36)


@pytest.mark.parametrize("ground", [None])
def test_what_nothing_saved_is_behind_links_nothing(screen, phone):
    screen.open("/buy/fabric-per-dozen")
    screen.fill({"strip_length": "482", "strip_width": "110", "bolt_width": "140", "shrink_length": "3",
                 "shrink_width": "2"})  # fmt: skip
    put(screen)
    [line] = lines(phone, "Cloth")
    assert (line["size"], line["cloth"], line["for_what"]) == (None, None, "")


def test_a_compared_cloth_is_linked_while_its_row_is_called_after_it(furnished, phone):
    furnished.start_at("/buy/cloth-compare")
    furnished.chip(EVERYDAY).tap()
    for cloth in (LAWN, CHECK):
        furnished.chip(cloth).tap()
    furnished.fill({"quantity": "24"})
    second = furnished.page.locator("details.row summary").nth(1)
    expect(second).to_have_text(CHECK)
    expect(furnished.page.locator(".buy-ranking > li")).to_have_count(2)
    second.tap()
    furnished.fill({"cloths.1.name": "check from the market"})
    for name, cloth in ((LAWN, ids(phone, "cloth")[LAWN]), ("check from the market", None)):
        furnished.start_at("/buy/cloth-compare")
        row = furnished.page.locator(".buy-ranking li", has_text=name)
        row.get_by_role("button", name="Put on the list").tap()
        furnished.wait_for_title("Shopping list")
        line = lines(phone, name)[-1]
        assert (line["size"], line["cloth"]) == (ids(phone, "piece")[EVERYDAY], cloth)
        assert line["quantity"] == 24


def test_a_cloth_passed_on_to_be_compared_stays_linked(furnished, phone):
    furnished.open("/buy/fabric-per-dozen")
    furnished.chip(EVERYDAY).tap()
    furnished.chip(CHECK).tap()
    furnished.step("cloth-compare").tap()
    furnished.wait_for_title("Which cloth")
    put(furnished, ".buy-ranking li button")
    [line] = lines(phone, CHECK)
    assert (line["size"], line["cloth"]) == (ids(phone, "piece")[EVERYDAY], ids(phone, "cloth")[CHECK])


def test_a_line_is_cut_by_though_size_and_cloth_are_renamed(furnished, phone):
    furnished.open("/buy/fabric-per-dozen")
    furnished.chip(GRAND).tap()
    furnished.chip(CHECK).tap()
    furnished.fill({"quantity": "36"})
    put(furnished)
    size, cloth = ids(phone, "piece")[GRAND], ids(phone, "cloth")[CHECK]
    act(phone, "edit", "piece", size, {"name": "Generous"})
    act(phone, "edit", "cloth", cloth, {"name": "Blue check"})
    assert {"size": size, "cloth": cloth, "quantity": 36} in wanted(phone)
    page = furnished.open("/make/cutting").page
    page.locator("[data-from-list]").tap()
    expect(page.locator("[data-wanted='36']")).to_contain_text("Generous Blue check")


def test_a_line_of_before_there_were_links_is_found_by_its_names(furnished, phone):
    [line] = lines(phone, LAWN)
    assert line["size"] is None and line["cloth"] is None
    size, cloth = ids(phone, "piece")[EVERYDAY], ids(phone, "cloth")[LAWN]
    assert {"size": size, "cloth": cloth, "quantity": 60} in wanted(phone)
    act(phone, "edit", "piece", size, {"name": "Everyday, old"})
    assert size not in [one["size"] for one in wanted(phone)]


def test_a_line_of_a_cloth_put_away_is_not_cut_by(furnished, phone):
    cloth = ids(phone, "cloth")[CHECK]
    line = {
        "name": LAWN,
        "for_what": EVERYDAY,
        "quantity": 12,
        "cloth": cloth,
        "size": ids(phone, "piece")[GRAND],
    }
    act(phone, "describeNew", "list-line", line)
    assert cloth in [one["cloth"] for one in wanted(phone)]
    act(phone, "putAway", "cloth", cloth)
    # another cloth of the line's name is not taken for it
    assert [one["quantity"] for one in wanted(phone)].count(12) == 0


def test_a_helper_reads_the_list_and_is_offered_nothing_that_would_be_refused(paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone", role="helper")
    cloth = act(imke, "describeNew", "cloth", {"name": LAWN, "bolt_width": 1400})
    line = {"name": LAWN, "cloth": cloth, "length_to_buy": 2600, "cost": 2314}
    open_line, in_the_bag = (
        act(imke, "describeNew", "list-line", {**line, "bought": bought}) for bought in (False, True)
    )
    exchange(imke, joss)
    page = joss.screen.open("/buy/list").page
    expect(page.locator("[data-read-only]")).to_have_text("An owner's phone ticks and changes this list.")
    for id, bought in ((open_line, False), (in_the_bag, True)):
        if bought:
            page.locator("summary", has_text="Bought before").tap()
        tick = page.locator(f"#line-{id}")
        expect(tick).to_be_disabled()
        expect(tick).to_be_checked(checked=bought)
    expect(page.get_by_role("button", name="Off")).to_have_count(0)
    expect(page.locator("#add-line, [data-paid]")).to_have_count(0)
    # a calculator offers neither to put on the list nor to save
    page = joss.screen.open("/buy/strip-length").page
    expect(page.locator("[data-step]").first).to_be_visible()
    expect(page.locator("[data-step=list], [data-save]")).to_have_count(0)
    page = imke.screen.open("/buy/list").page
    expect(page.locator(f"#line-{open_line}")).to_be_enabled()
    expect(page.locator("#add-line")).to_be_visible()


TWICE = "(button) => { button.click(); button.click(); }"


def test_two_taps_put_one_line_on_the_list(furnished, phone):
    furnished.open("/buy/fabric-per-dozen")
    furnished.chip(GRAND).tap()
    furnished.chip(CHECK).tap()
    put_twice = furnished.page.locator("[data-step=list]")
    expect(put_twice).to_be_enabled()
    put_twice.evaluate(TWICE)
    furnished.wait_for_title("Shopping list")
    furnished.page.fill("#add-line", "Chalk")
    furnished.page.get_by_role("button", name="Add", exact=True).evaluate(TWICE)
    furnished.page.locator("[data-line]", has_text="Chalk").first.wait_for()
    furnished.settle()
    assert (len(lines(phone, CHECK)), len(lines(phone, "Chalk"))) == (1, 1)


def test_two_taps_save_one_cloth(furnished, phone):
    furnished.open("/buy/fabric-per-dozen")
    furnished.chip(GRAND).tap()
    furnished.chip(CHECK).tap()
    furnished.page.fill("#save-cloth", "Market check")
    save = furnished.page.locator("[data-save=cloth] button")
    expect(save).to_be_enabled()
    save.evaluate(TWICE)
    furnished.said("Market check is saved on this phone")
    furnished.settle()
    named = [record["name"] for record in ask(phone, "records", "records", "cloth")]
    assert named.count("Market check") == 1


@pytest.mark.parametrize("ground", [None])
def test_what_is_still_to_pay_says_what_has_no_price(screen, phone):
    screen.open("/buy/list")
    act(phone, "describeNew", "list-line", {"name": "Lawn", "cost": 1080})
    act(phone, "describeNew", "list-line", {"name": "Check"})
    page = screen.page
    expect(page.locator(".total")).to_contain_text("€10.80")
    expect(page.locator("[data-unpriced]")).to_have_text("One line has no price: not counted in it.")
    page.get_by_role("checkbox", name="Check").check()
    expect(page.locator("[data-unpriced]")).to_have_count(0)
