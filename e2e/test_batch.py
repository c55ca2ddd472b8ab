"""A batch from strips to stock: two phones, no signal, a pause, a kill in mid-lap, a disturbed lap."""

import time

import pytest
from playwright.sync_api import expect

from .looks import look
from .sewing import (
    STEPS,
    TOOLS,
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
HOUR = 3600000


@pytest.fixture
def ground():
    return bench_with_strips


@pytest.fixture
def bench(phone):
    """A phone without a network whose maker has 48 strips of Everyday and has signed for the day."""
    phone.sewing = phone.ground
    return phone


def laps_of(phone):
    """List the laps that stand, the latest first."""
    facts = ask(phone, "facts", "factsWithVoids", "batch-step")
    return [lap | {"step": fact["step"]} for fact in facts if not fact["never"] for lap in fact["laps"]]


def offline(*phones):
    for phone in phones:
        phone.expected.append(NO_SIGNAL)
        phone.context.set_offline(True)


def online(*phones):
    for phone in phones:
        phone.context.set_offline(False)


def test_a_batch_on_two_phones_without_signal_ends_in_stock_on_both(paired):
    imke, joss = paired("Imke's phone"), paired("Joss's phone", role="helper")
    # a browser writes the pairing's cookie to the disk when it is closed, or half a minute later
    imke.switch_off()
    imke.switch_on()
    sewing = Sewing(imke)
    offline(imke, joss)
    cut_strips(imke, sewing, Everyday=48)
    batch = start_batch(imke)
    online(imke, joss)
    exchange(imke, joss)
    offline(imke, joss)
    sign_for(imke, sewing, "Imke")
    sign_for(joss, sewing, "Joss")

    # two trays each of the first step; Joss is called away in one of his
    page = open_batch(imke, batch)
    begin(page)
    page.locator("[data-pause]").tap()
    page.locator("[data-lap=paused]").wait_for()
    page.locator("[data-pause]").tap()
    page.locator("[data-lap=runs]").wait_for()
    end(page)
    imke.kill()
    page = imke.switch_on(offline=True).open(f"/make/batches/{batch}").page
    page.locator("[data-lap=runs]").wait_for()
    end(page)
    page.locator("[data-drop]").tap()
    page.locator("[data-lap=none]").wait_for()
    his = open_batch(joss, batch)
    begin(his)
    his.locator("[data-disturbed]").tap()
    expect(his.locator("[data-disturbed]")).to_have_attribute("aria-pressed", "true")
    end(his)
    end(his)
    his.locator("[data-drop]").tap()
    expect(done(page, STEPS[0])).to_have_attribute("data-done", "24")
    expect(done(his, STEPS[0])).to_have_attribute("data-done", "24")

    online(imke, joss)
    exchange(imke, joss)
    for seen in (page, his):
        expect(done(seen, STEPS[0])).to_have_attribute("data-done", "48")
    assert [lap["disturbed"] for lap in laps_of(imke)].count(True) == 1
    offline(imke, joss)
    sew_the_rest(page, STEPS[1:])
    page.get_by_role("link", name="Look at a sample").tap()
    page.locator("[data-piece]").wait_for()
    for looked in range(1, 6):
        page.locator("[data-good]").tap()
        page.locator(f"text=/{looked} looked at|in {looked} looked/").first.wait_for()
    expect(page.locator("[data-verdict=accept]")).to_be_visible()
    page.locator("[data-record]").tap()
    page.locator("[data-sample=accept]").wait_for()
    finish(imke, batch, good=47)
    assert stock_of(joss) == {} and waiting_of(joss) == {sewing.size["Everyday"]: 48}
    online(imke, joss)
    exchange(imke, joss)
    for phone in (imke, joss):
        assert stock_of(phone) == {sewing.product: 47}
        assert waiting_of(phone) == {}
        assert ask(phone, "records", "toCheck") == []
    assert ask(joss, "records", "recordById", "batch", batch)["state"] == "finished"


def test_a_pause_is_outside_the_lap_and_a_kill_is_within(bench):
    batch = start_batch(bench)
    page = open_batch(bench, batch)
    before = time.monotonic()
    begin(page)
    page.locator("[data-pause]").tap()
    page.locator("[data-lap=paused]").wait_for()
    paused = time.monotonic()
    bench.kill()
    page = bench.switch_on(offline=True).open(f"/make/batches/{batch}").page
    page.locator("[data-lap=paused]").wait_for()
    resuming = time.monotonic()
    page.locator("[data-pause]").tap()
    page.locator("[data-lap=runs]").wait_for()
    running = time.monotonic()
    bench.kill()
    killed = time.monotonic()
    page = bench.switch_on(offline=True).open(f"/make/batches/{batch}").page
    page.locator("[data-lap=runs]").wait_for()
    ending = time.monotonic()
    end(page)
    after = time.monotonic()
    [lap] = laps_of(bench)
    most = (paused - before) + (after - resuming)
    assert (ending - running) * 1000 <= lap["took_ms"] + 50 <= most * 1000 + 100
    assert ending - killed > 0 and lap["pieces"] == 12 and not lap["disturbed"]


def test_the_lap_goes_on_while_other_screens_are_looked_at_and_home_leads_back(bench):
    batch = start_batch(bench)
    page = open_batch(bench, batch)
    begin(page)
    page.locator("a.back").tap()
    expect(page.locator(f'[data-batch="{batch}"]')).to_have_text(f"Batch 1: {STEPS[0]}, a lap runs")
    bench.screen.reload()
    page.locator(f'[data-batch="{batch}"]').tap()
    page.locator("[data-lap=runs]").wait_for()


# a lap by the clocks of the wall and of the page, and what it comes to: (ms, whether nobody can know)
CLOCKS = [
    ("both ran on", {"wall": 60000, "page": 60000}, False, 60000, False),
    ("the phone slept", {"wall": 600000, "page": 60000}, True, 600000, False),
    (
        "the wall clock was set an hour on in sight",
        {"wall": HOUR + 60000, "page": 60000},
        False,
        60000,
        False,
    ),
    ("it was set an hour back in sight", {"wall": 60000 - HOUR, "page": 60000}, False, 60000, False),
    ("it was set back while the phone slept", {"wall": -HOUR, "page": 60000}, True, 60000, False),
    ("the app was killed", {"wall": 600000, "page": 500, "origin": 2}, True, 600000, False),
    ("it was killed and the clock set back", {"wall": -HOUR, "page": 500, "origin": 2}, True, 0, True),
    ("it lay in a drawer", {"wall": 25 * HOUR, "page": 500, "origin": 2}, True, 25 * HOUR, True),
]


@pytest.mark.parametrize(
    "here, slept, ms, unsure", [row[1:] for row in CLOCKS], ids=[row[0] for row in CLOCKS]
)
def test_a_lap_is_never_negative_however_a_clock_is_set(screen, phone, here, slept, ms, unsure):
    screen.open("/make")
    since = {"wall": 0, "page": 0, "origin": 1}
    lap = {"counted": 0, "since": since}
    assert ask(phone, "laps", "elapsed", lap, {"origin": 1} | here, slept) == {"ms": ms, "unsure": unsure}


def test_a_lap_that_ran_for_a_day_is_left_out_of_the_times(bench):
    batch = start_batch(bench)
    page = open_batch(bench, batch)
    begin(page)
    lap = ask(bench, "store/remembered", "recall", "lap")
    lap["since"] |= {"wall": lap["since"]["wall"] - 30 * HOUR, "origin": 1}
    ask(bench, "store/remembered", "remember", "lap", lap)
    bench.screen.reload()
    end(page)
    [told] = laps_of(bench)
    assert told["disturbed"] and told["took_ms"] <= 24 * HOUR


def test_a_lap_is_undone_and_goes_on_or_is_marked_as_disturbed_later(bench):
    batch = start_batch(bench)
    page = open_batch(bench, batch)
    begin(page)
    end(page)
    end(page)
    page.locator("[data-mark]").first.tap()
    expect(page.locator("[data-mark]").first).to_have_attribute("aria-pressed", "true")
    assert [lap["disturbed"] for lap in laps_of(bench)] == [True, False]
    took = laps_of(bench)[0]["took_ms"]
    page.locator("[data-undo]").first.tap()
    expect(page.locator("[data-laps]")).to_have_attribute("data-laps", "1")
    expect(done(page, STEPS[0])).to_have_attribute("data-done", "12")
    assert ask(bench, "store/remembered", "recall", "lap")["counted"] >= took


def test_a_finger_that_taps_twice_ends_one_lap(bench):
    page = open_batch(bench, start_batch(bench))
    begin(page)
    page.locator("[data-end]").evaluate("(button) => [1, 2, 3].forEach(() => button.click())")
    expect(page.locator("[data-laps]")).to_have_attribute("data-laps", "1")
    end(page)
    assert len(laps_of(bench)) == 2


TYPE_AND_BEGIN = """(tray) => {
    tray.value = '20';
    tray.dispatchEvent(new Event('input', { bubbles: true }));
    document.querySelector('[data-begin]').click();
}"""


def test_a_batch_of_which_only_a_part_is_known_closes_no_screen(bench):
    # as where its first change was not taken, and a later one was
    act(bench, "edit", "batch", "017f22e2-79b0-7cc3-98c4-dc0c0c07398f", {"people": 2})
    batch = start_batch(bench)
    page = bench.screen.open("/make").page
    expect(page.locator(f'a[href="/make/batches/{batch}"]').first).to_be_visible()
    bench.screen.open("/make/batches/017f22e2-79b0-7cc3-98c4-dc0c0c07398f")
    expect(page.locator("h1")).to_have_text("Batch")
    bench.screen.open("/make/batches/017f22e2-79b0-7cc3-98c4-dc0c0c07398f/change")
    expect(page.locator("h1")).to_contain_text("Batch")


def test_a_lap_that_is_discarded_runs_again(bench):
    page = open_batch(bench, start_batch(bench))
    begin(page)
    page.locator("[data-drop]").tap()
    page.locator("[data-lap=none]").wait_for()
    page.locator(".notice").get_by_role("button", name="Undo").tap()
    page.locator("[data-lap=runs]").wait_for()


def test_a_tray_begins_with_as_many_as_were_typed_last(bench):
    page = open_batch(bench, start_batch(bench))
    page.locator(".make-clock input").evaluate(TYPE_AND_BEGIN)
    page.locator("[data-lap=runs]").wait_for()
    assert ask(bench, "laps", "lapNow")["pieces"] == 20


@pytest.mark.parametrize("ground", [None])
def test_nobody_sews_before_both_lists_are_signed_by_who_is_at_it(phone):
    sewing = Sewing(phone)
    cut_strips(phone, sewing, Everyday=12)
    start_batch(phone)
    page = phone.screen.page
    screen = phone.screen
    page.select_option("#batch-person", label="Imke")
    for tool in TOOLS:
        page.locator(f"[data-to-checklist]:has-text('{tool}')").tap()
        screen.wait_for_title("Safe cutting and sewing")
        expect(screen.field("tool")).to_have_value(tool)
        screen.fill({"cloth": "lawn"})
        page.locator("[data-must]").first.wait_for()
        for must in page.locator("[data-must] input").all():
            must.check()
        expect(page.locator("[data-sign] [name=person]")).to_have_value("Imke")
        screen.sign_as("Imke")
        page.get_by_role("link", name="To the batch").tap()
        page.locator("[data-unsigned], .make-clock").first.wait_for()
    page.locator("[data-begin]").wait_for()
    # another one signs for herself
    page.select_option("#batch-person", label="Joss")
    page.locator("[data-unsigned]").wait_for()
    assert look(phone.screen, "cutChoice", "#sewn-with") is False


def test_what_came_of_a_batch_is_undone_at_once_and_voided_later(bench):
    batch = start_batch(bench)
    finish(bench, batch, good=40)
    assert stock_of(bench) == {bench.sewing.product: 40} and waiting_of(bench) == {}
    page = bench.screen.page
    page.get_by_role("button", name="Undo").tap()
    page.locator(".make-clock").wait_for()
    assert stock_of(bench) == {} and waiting_of(bench) == {bench.sewing.size["Everyday"]: 48}
    finish(bench, batch)
    page = bench.screen.open("/make/batches").page
    page.locator("[data-result] a").first.tap()
    page.get_by_text("Void this").tap()
    page.fill("[data-result] [name=reason]", "counted wrong")
    page.locator("[data-void]").tap()
    page.locator("[data-made]").first.wait_for()
    assert stock_of(bench) == {} and waiting_of(bench) == {bench.sewing.size["Everyday"]: 48}


def test_a_size_sewn_in_a_cloth_for_the_first_time_becomes_a_product(bench):
    cut_strips(bench, bench.sewing, Petite=6)
    batch = start_batch(bench)
    page = bench.screen.open(f"/make/batches/{batch}/finished").page
    page.locator("[data-made]").first.wait_for()
    for box in page.locator("[data-after]").all():
        box.check()
    page.locator("[data-finish]").tap()
    expect(page.get_by_role("alert")).to_contain_text("Petite Seagrass lawn is new")
    page.fill("[name=price]", "4.50")
    page.locator("[data-finish]").tap()
    bench.screen.wait_for_title("Make")
    products = {product["size"]: product for product in ask(bench, "records", "records", "product")}
    petite = products[bench.sewing.size["Petite"]]
    assert petite["price"] == 450
    assert stock_of(bench) == {bench.sewing.product: 48, petite["id"]: 6}
    assert waiting_of(bench) == {}


def test_strips_of_an_open_batch_are_not_offered_again_and_orders_save_set_ups(bench):
    threads = [
        act(bench, "describeNew", "thread", {"name": name, "length": 1000000}) for name in ("Rust", "Navy")
    ]
    lines = [{"size": bench.sewing.size["Everyday"], "cloth": bench.sewing.cloth, "quantity": 12}]
    for number, thread in enumerate([0, 1, 0], 1):
        fields = {"number": str(number), "needle": threads[thread], "lines": lines}
        act(bench, "describeNew", "batch", fields)
    page = bench.screen.open("/make/batches/new").page
    expect(page.locator("[data-free]")).to_have_attribute("data-free", "12")
    # rust, navy, rust: two changes of 3 min; rust, rust, navy: one
    expect(page.locator("[data-saves]")).to_have_attribute("data-saves", "3")
