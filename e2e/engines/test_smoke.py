"""The app in WebKit and Firefox: offline after one visit, the same numbers, and a market day."""

import csv
import json

import pytest

from backend.core import bridge
from tests.core.alike import assert_alike
from tests.core.cases_table import load_cases

from ..server import Server
from ..shop import Shop
from .conftest import needs

ANSWERS = """async (asked) => {
  const { call } = await import('/core/core-client.js');
  const told = [];
  for (const [name, given] of asked) told.push(await call('answer', { name, given }));
  return told;
}"""
ALL_SENT = """async () => {
  const { syncNow } = await import('/data/sync.js');
  const { waiting } = await import('/data/records.js');
  while (waiting().count) await syncNow();
}"""
ALL_PULLED = """async () => {
  const { syncNow } = await import('/data/sync.js');
  await syncNow();
  return (await import('/data/store/log.js')).wholeLog().then((log) => log.length);
}"""
# a size of which three cost less than three times one, and what that is
OFFERED = """async () => {
  const { goods } = await import('/data/till.js');
  const { records } = await import('/data/records.js');
  for (const { id, groups, n, price } of records("offer").filter(({ price }) => price)) {
    const saves = (thing) => thing.product && groups.includes(thing.group) && price < n * thing.price;
    const found = goods().find(saves);
    if (found) return { offer: id, key: found.key, n, price };
  }
}"""
# reads on and on: at whatever moment the page is left, it is reading
READS_ON = """async () => {
  const { wholeLog } = await import('/data/store/log.js');
  await wholeLog();
  const readOn = () => wholeLog().then(readOn, () => {});
  readOn();
}"""
# of every store, as an exchange does; where things stand otherwise nothing is written
WRITES = """async () => {
  const { keepExchange } = await import('/data/store/exchanged.js');
  return keepExchange({ epoch: null, cursor: -1 }, { sync: {} });
}"""
FEW = 10


@pytest.fixture
def server(tmp_path):
    """A server of the test's own, to be ended and started again."""
    with Server(tmp_path / "data") as running:
        yield running


def test_after_one_visit_it_opens_without_the_server_and_calculates_as_the_server_does(server, visit):
    page = visit(server.address).open("/buy")
    page.wait_for("html[data-offline-ready]")
    server.stop()
    page.reload()
    for path in ("/sell", "/buy/fabric-per-dozen", "/settings"):
        page.open(path)
    asked = [(name, case["input"]) for name, case in load_cases()]
    # a few at a time: a busy machine answers all of them in minutes, and a script is waited for one
    told = [told for at in range(0, len(asked), FEW) for told in page.run(ANSWERS, asked[at : at + FEW])]
    # that the server answers as the core does here, tests/api/test_cases_over_http.py holds
    for (name, given), reply in zip(asked, told, strict=True):
        question = {"method": "answer", "args": {"name": name, "given": given}}
        assert_alike(name, reply, json.loads(bridge.call(json.dumps(question))))


def test_a_page_that_is_left_while_it_reads_holds_up_no_later_one(server, visit):
    page = visit(server.address).open("/settings")
    page.wait_for("html[data-offline-ready]")
    for path in ("/buy", "/sell"):
        page.leave()
        page.run(READS_ON)
        page.load(server.address + path)
        page.wait_for("h1")
        assert page.run(WRITES) is False


@pytest.mark.parametrize("engine, package", [("WebKit", "webkit2gtk-driver"), ("Firefox", "firefox-esr")])
def test_an_engine_that_is_missing_is_left_out_by_the_name_of_its_package(engine, package, monkeypatch):
    monkeypatch.setenv("PATH", "")
    with pytest.raises(pytest.skip.Exception, match=f"{engine} is not installed .*{package}"):
        needs(engine)


def test_a_market_day_of_the_demos_maker(server, visit, tmp_path):
    shop = Shop(server)
    shop.console("demo")
    page = visit(server.address).open("/settings")
    page.wait_for("html[data-offline-ready]")
    page.type("#pair-code", shop.code()["code"])
    page.type("#pair-name", "Imke's phone")
    page.tap("[data-pair] button[type=submit]")
    page.said("Paired")
    assert page.run(ALL_PULLED) > 5000
    server.stop()

    sale = sell_by_an_offer(page)
    count_a_piece(page)
    cash_up(page)
    page.reload()
    assert sale in [one["id"] for one in page.ask("facts", "factsOfDay", page.ask("clock", "today"))]
    copy = json.loads(page.ask("copies", "copyOfAll"))
    assert sale in [change["id"] for change in copy["changes"]]
    page.open("/settings").tap("#kept .next-steps button")
    page.said("A copy is saved")
    assert page.ask("copies", "takeIn", json.dumps(copy))["taken"] == 0

    server.start()
    page.run(ALL_SENT)
    shop.console("export", str(tmp_path / "export"))
    with (tmp_path / "export" / "sale.csv").open(newline="", encoding="utf-8") as file:
        assert sale in [row["id"] for row in csv.DictReader(file)]


def sell_by_an_offer(page):
    """Open a stall, sell what an offer is for, and take a note for it; returns the sale's id."""
    page.open("/sell")
    page.type("#spot-name", "Sandholt Quay")
    page.tap("[data-opening] button[type=submit]")
    page.wait_for(".sell-tiles")
    sold = page.run(OFFERED)
    for _ in range(sold["n"]):
        page.tap(f'[data-product="{sold["key"]}"]')
    page.wait_for(f'[data-offer="{sold["offer"]}"]')
    page.wait_for(f'[data-total="{sold["price"]}"]')
    page.tap("[data-tendered]")
    page.wait_for('.sell-last-sale [data-kept="on this phone"]')
    return page.run("async () => document.querySelector('.sell-last-sale').dataset.sale")


def count_a_piece(page):
    """Count one piece of one thing, and close the count for that alone."""
    page.open("/count").tap("[data-which].main")
    page.tap("[data-thing] button[aria-label$=more]")
    page.wait_for('[data-thing] [data-kept="on this phone"]')
    page.tap("[data-to-close]")
    page.wait_for("[data-right]")
    page.tap("[data-close]")
    page.said("The count is closed")


def cash_up(page):
    """Count one coin into the box of today, and record that."""
    page.open("/review").tap('[data-box] a[href*="/cash/"]')
    page.tap("[data-coin] button[aria-label$=more]")
    page.tap("[data-all]")
    page.tap("[data-keep]")
    page.said("The cash-up is recorded")
