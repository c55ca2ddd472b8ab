"""A batch changed while it is sewn, on two phones; a helper's part of one; how strict a sample is."""

import pytest
from playwright.sync_api import expect

from .sewing import (
    STEPS,
    Sewing,
    begin,
    bench_with_strips,
    cut_strips,
    done,
    end,
    finish,
    open_batch,
    sew_the_rest,
    sign_for,
    start_batch,
    stock_of,
    waiting_of,
)
from .shop import act, ask, exchange

NO_SIGNAL = "ERR_INTERNET_DISCONNECTED"
IN_ONE_BREATH = """(way) => {
  const chosen = document.querySelector('#batch-method');
  chosen.value = way;
  chosen.dispatchEvent(new Event('change', { bubbles: true }));
  document.querySelector('[data-save]').click();
}"""
OTHER_WAY = {"name": "Pressed flat", "steps": [{"name": STEPS[0]}, {"name": "Press it flat"}]}


@pytest.fixture
def ground():
    return bench_with_strips


@pytest.fixture
def bench(phone):
    """A phone without a network whose maker has 48 strips of Everyday and has signed for the day."""
    phone.sewing = phone.ground
    return phone


@pytest.fixture
def pair(paired):
    """An owner's phone with 36 strips of Everyday and 12 of Petite, and a helper's that knows of them."""
    imke, joss = paired("Imke's phone"), paired("Joss's phone", role="helper")
    # a browser writes the pairing's cookie to the disk when it is closed, or half a minute later
    imke.switch_off()
    imke.switch_on()
    imke.sewing = Sewing(imke)
    cut_strips(imke, imke.sewing, Everyday=36, Petite=12)
    sign_for(imke, imke.sewing, "Imke")
    exchange(imke, joss)
    joss.screen.open("/make")
    sign_for(joss, imke.sewing, "Joss")
    exchange(imke, joss)
    return imke, joss


def free_of(phone):
    return {row["size"]: row["quantity"] for row in ask(phone, "batches", "freeStrips")}


def to_change(phone, batch):
    page = phone.screen.open(f"/make/batches/{batch}/change").page
    page.locator("[data-pieces]").wait_for()
    return page


def pieces_of(page, name):
    return page.locator(f'[data-free] input[aria-label="{name}"], [data-typed] input[aria-label="{name}"]')


def test_a_batch_changed_without_signal_keeps_the_laps_of_both_phones(pair):
    imke, joss = pair
    sewing = imke.sewing
    batch = start_batch(imke)
    way = act(imke, "describeNew", "method", OTHER_WAY)
    exchange(imke, joss)
    for phone in pair:
        phone.expected.append(NO_SIGNAL)
        phone.context.set_offline(True)

    # Joss sews a tray of two steps, and is at the second one again
    his = open_batch(joss, batch)
    for step in STEPS[:2]:
        if step == STEPS[1]:
            done(his, step).locator("[data-choose]").tap()
        expect(his.locator(".make-clock .total").first).to_contain_text(step)
        begin(his)
        end(his)
        his.locator("[data-drop]").tap()
        his.locator("[data-lap=none]").wait_for()
    expect(his.locator(".make-clock .total").first).to_contain_text(STEPS[1])
    begin(his)
    # meanwhile Imke leaves the Petite strips for later, and sews another way
    page = to_change(imke, batch)
    page.locator("[data-free] input[type=checkbox]").first.wait_for()
    pieces_of(page, "Petite Seagrass lawn").fill("0")
    expect(page.locator("[data-pieces]")).to_have_attribute("data-pieces", "36")
    page.select_option("#batch-method", label="Pressed flat")
    page.locator('[name="people"], [aria-label="One people more"]').first.tap()
    page.locator("[data-save='36']").tap()
    page.locator(".make-clock").wait_for()
    assert free_of(imke) == {sewing.size["Petite"]: 12}

    for phone in pair:
        phone.context.set_offline(False)
    exchange(imke, joss)
    # his lap runs on at a step that the way has no more, and is ended
    expect(his.locator("[data-beside]")).to_have_text(f"{STEPS[1]}: 12 done, before the way was changed.")
    his.locator("[data-lap=runs]").wait_for()
    expect(his.locator(".make-clock .total").first).to_contain_text(STEPS[1])
    end(his)
    his.locator("[data-lap=none]").wait_for()
    exchange(imke, joss)
    for seen in (page, his):
        expect(done(seen, STEPS[0])).to_have_attribute("data-done", "12")
        expect(done(seen, "Press it flat")).to_have_attribute("data-done", "0")
        expect(seen.locator("[data-beside='24']")).to_be_visible()
        expect(seen.locator("[data-laps]")).to_have_attribute("data-laps", "3")
    for phone in pair:
        assert free_of(phone) == {sewing.size["Petite"]: 12}
        assert waiting_of(phone) == {sewing.size["Petite"]: 12, sewing.size["Everyday"]: 36}
        assert ask(phone, "records", "toCheck") == []
    assert ask(joss, "records", "recordById", "batch", batch)["method"] == way
    assert ask(joss, "records", "recordById", "batch", batch)["people"] == 2


def test_what_is_chosen_last_is_saved_however_soon(bench):
    batch = start_batch(bench)
    way = act(bench, "describeNew", "method", OTHER_WAY)
    page = to_change(bench, batch)
    page.locator('[aria-label="One people more"]').tap()
    expect(page.locator("[data-save]")).to_be_enabled()
    page.evaluate(IN_ONE_BREATH, way)
    page.locator(".make-clock").wait_for()
    changed = ask(bench, "records", "recordById", "batch", batch)
    assert (changed["method"], changed["people"]) == (way, 2)


def test_pieces_that_are_begun_stay_in_the_batch_and_a_change_is_undone(bench):
    batch = start_batch(bench)
    page = open_batch(bench, batch)
    begin(page)
    end(page)
    page = to_change(bench, batch)
    expect(page.locator("[data-save]")).to_be_disabled()
    pieces_of(page, "Everyday Seagrass lawn").fill("11")
    expect(page.get_by_role("alert")).to_contain_text("11 are too few: 12 are begun")
    expect(page.locator("[data-save]")).to_be_disabled()
    # what was typed is there after a reload, and still too few
    bench.screen.reload()
    expect(page.get_by_role("alert")).to_contain_text("11 are too few: 12 are begun")
    pieces_of(page, "Everyday Seagrass lawn").fill("24")
    page.locator("[data-save='24']").tap()
    expect(done(page, STEPS[0])).to_contain_text("12 of 24")
    page.locator(".notice").get_by_role("button", name="Undo").tap()
    expect(done(page, STEPS[0])).to_contain_text("12 of 48")


def test_a_change_that_is_left_changes_nothing(bench):
    batch = start_batch(bench)
    page = to_change(bench, batch)
    pieces_of(page, "Everyday Seagrass lawn").fill("24")
    expect(page.locator("[data-save='24']")).to_be_enabled()
    page.locator("[data-leave]").tap()
    page.locator(".make-clock").wait_for()
    page = to_change(bench, batch)
    expect(page.locator("[data-save='48']")).to_be_disabled()


def test_a_batch_that_is_over_is_not_changed(bench):
    batch = start_batch(bench)
    finish(bench, batch)
    page = bench.screen.open(f"/make/batches/{batch}/change").page
    expect(page.get_by_text("It is no longer open")).to_be_visible()
    expect(page.locator("[data-save]")).to_have_count(0)


def test_a_helper_records_what_is_sold_and_the_owner_what_is_new(pair):
    imke, joss = pair
    sewing = imke.sewing
    # a helper saves no way of sewing, is told who does, and starts a batch all the same
    page = joss.screen.open("/make/batches/new").page
    expect(page.get_by_text("an owner saves it on their phone: Settings, Methods")).to_be_visible()
    expect(page.locator("[data-add-step]")).to_have_count(0)
    batch = start_batch(joss)
    his = open_batch(joss, batch)
    sew_the_rest(his)
    his = joss.screen.open(f"/make/batches/{batch}/finished").page
    expect(his.locator("[data-stays]")).to_contain_text("Petite Seagrass lawn")
    expect(his.locator("[data-made]")).to_have_count(1)
    expect(his.locator("[name=price]")).to_have_count(0)
    finish(joss, batch, good=35)
    exchange(imke, joss)
    for phone in pair:
        assert stock_of(phone) == {sewing.product: 35}
        assert waiting_of(phone) == {sewing.size["Petite"]: 12}
        # they are in the batch, which is still open
        assert free_of(phone) == {}
        assert ask(phone, "records", "recordById", "batch", batch)["state"] == "open"
    his = joss.screen.open(f"/make/batches/{batch}/finished").page
    expect(his.locator("[data-stays]")).to_be_visible()
    expect(his.locator("[data-finish]")).to_have_count(0)

    page = imke.screen.open(f"/make/batches/{batch}/finished").page
    expect(page.locator("[data-made]")).to_have_attribute("data-made", "12")
    for box in page.locator("[data-after]").all():
        box.check()
    page.fill("[name=price]", "4.50")
    page.locator("[data-finish]").tap()
    imke.screen.wait_for_title("Make")
    exchange(imke, joss)
    for phone in pair:
        assert sorted(stock_of(phone).values()) == [12, 35]
        assert waiting_of(phone) == {}
        assert ask(phone, "records", "recordById", "batch", batch)["state"] == "finished"
        assert ask(phone, "records", "toCheck") == []


def test_what_a_helper_recorded_of_a_batch_is_undone_or_voided_and_comes_again(pair):
    imke, joss = pair
    sewing = imke.sewing
    batch = start_batch(joss)
    finish(joss, batch)
    joss.screen.page.get_by_role("button", name="Undo").tap()
    joss.screen.page.locator(".make-clock").wait_for()
    assert stock_of(joss) == {}
    finish(joss, batch)
    exchange(imke, joss)
    page = imke.screen.open(f"/make/batches/{batch}/finished").page
    page.get_by_text("Void this").tap()
    page.locator("[data-void]").tap()
    expect(page.locator("[data-made]")).to_have_count(2)
    exchange(imke, joss)
    for phone in pair:
        assert stock_of(phone) == {}
        assert waiting_of(phone) == {sewing.size["Petite"]: 12, sewing.size["Everyday"]: 36}


def test_how_strict_a_sample_is_is_chosen_before_the_first_piece_and_remembered(bench):
    batch = start_batch(bench)
    page = bench.screen.open(f"/make/batches/{batch}/sample").page
    expect(page.get_by_text("Look at 5 of 48")).to_be_visible()
    page.get_by_text("How strict: usual").tap()
    # 0.975⁵ = 88.1 %, 0.9⁵ = 59.0 %
    expect(page.locator("[data-aql]")).to_contain_text(
        "Of 100 batches with 2.5 bad in 100, about 88 pass; of 100 with 10 bad in 100, about 59."
    )
    page.select_option("#aql", label="Very strict: 1 in 100")
    expect(page.get_by_text("Look at 13 of 48")).to_be_visible()
    # 0.99¹³ = 87.8 %, 0.9¹³ = 25.4 %
    expect(page.locator("[data-aql='1']")).to_contain_text(
        "about 88 pass; of 100 with 10 bad in 100, about 25."
    )
    page.locator("[data-good]").tap()
    expect(page.get_by_text("1 looked at, 0 bad")).to_be_visible()
    expect(page.locator("#aql")).to_have_count(0)
    bench.screen.reload()
    expect(page.get_by_text("Look at 13 of 48")).to_be_visible()
    expect(page.get_by_text("1 looked at, 0 bad")).to_be_visible()
    # the next batch is looked at as strictly
    fields = {
        "number": "2",
        "lines": [{"size": bench.sewing.size["Everyday"], "cloth": bench.sewing.cloth, "quantity": 60}],
    }
    other = act(bench, "describeNew", "batch", fields)
    page = bench.screen.open(f"/make/batches/{other}/sample").page
    expect(page.get_by_text("Look at 13 of 60")).to_be_visible()


def test_a_sample_of_a_batch_that_became_smaller_begins_anew(bench):
    batch = start_batch(bench)
    page = bench.screen.open(f"/make/batches/{batch}/sample").page
    for looked in (1, 2, 3):
        page.locator("[data-good]").tap()
        expect(page.get_by_text(f"{looked} looked at")).to_be_visible()
    lines = ask(bench, "records", "recordById", "batch", batch)["lines"]
    act(bench, "edit", "batch", batch, {"lines": [{**lines[0], "quantity": 2}]})
    page.locator("[data-anew]").tap()
    expect(page.get_by_text("Look at 2 of 2")).to_be_visible()
