"""The exchange with the server, from a real browser, and the same from general-purpose libraries."""

import statistics

import pytest

from e2e.server import Server
from e2e.shop import Shop
from tests.benchmarks.noted import waited
from tests.benchmarks.one_line_sales import MANY, one_line_sales
from tests.benchmarks.peer_server import Lacking, PeerServer, packages
from tests.benchmarks.phone_at_work import HERE, THROTTLE, PhoneAtWork, told
from tests.benchmarks.table import row

pytestmark = pytest.mark.benchmark

TIMES = 3
ADAPTERS = ("idb", "indexeddb")
PUSH_TIMES, PULL_TIMES = 4, 10
SALE_BYTES, YEAR_MS = 45, 3000
SCRIPT = (HERE / "sales.js").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def new_profile(tmp_path_factory):
    """Make folders for browsers."""
    return lambda: tmp_path_factory.mktemp("phone")


@pytest.fixture(scope="module")
def ours(playwright, tmp_path_factory, new_profile):
    """What exchanges of Boltfair took: {"push": [...], "pull": [...]}, each with `ms` and `weights`."""
    took = {"push": [], "pull": []}
    for _ in range(TIMES):
        with Server(tmp_path_factory.mktemp("data")) as server:
            shop = Shop(server)
            for way, held in (("push", one_line_sales()), ("pull", [])):
                took[way].append(exchange(playwright, new_profile(), shop, held))
    assert {done["count"] for way in took.values() for done in way} == {MANY}
    return took


def exchange(playwright, profile, shop, held):
    """Pair a new phone that holds sales, and exchange."""
    with PhoneAtWork(playwright, profile, shop.address) as phone:
        page = phone.visit("/buy")
        page.evaluate(SCRIPT)
        page.evaluate("(code) => exchanging.pair(code)", shop.code()["code"])
        page.evaluate("(held) => exchanging.keep(held)", held)
        return page.evaluate("exchanging.timed()")


@pytest.fixture(scope="module")
def peers(playwright, tmp_path_factory, new_profile):
    """What the peers took for the same, ms: {("push", "idb"): [...], ("pull", "yjs"): [...], ...}."""
    sales = one_line_sales()
    try:
        folder = packages()
    except Lacking as lacking:
        pytest.skip(str(lacking))
    took = {("pull", "yjs"): []}
    with PeerServer(folder, tmp_path_factory.mktemp("peer")) as server:
        for adapter in ADAPTERS:
            given = [adapter, documents(sales), f"sales-{adapter}"]
            for way in ("push", "pull"):
                took[way, adapter] = [peer(playwright, new_profile(), server, way, given)]
        write_update(server.data / "update.bin", sales)
        for _ in range(TIMES):
            took["pull", "yjs"].append(peer(playwright, new_profile(), server, "pullYjs", []))
    return took


def documents(sales):
    return [{"_id": name_of(number, sale), "kind": "sale", **sale} for number, sale in enumerate(sales)]


def name_of(number, sale):
    return f"{sale['at']}-{number:05}"


def write_update(file, sales):
    pycrdt = pytest.importorskip("pycrdt", reason="the peers need pycrdt: pip install -e '.[benchmark]'")
    doc = pycrdt.Doc()
    held = doc.get("sales", type=pycrdt.Map)
    with doc.transaction():
        for number, sale in enumerate(sales):
            held[name_of(number, sale)] = sale
    file.write_bytes(doc.get_update())


def peer(playwright, profile, server, way, given):
    with PhoneAtWork(playwright, profile, server.address) as phone:
        page = phone.context.pages[0]
        page.goto(server.address + "/page/page.html")
        page.wait_for_function("() => self.peers")
        done = page.evaluate("([way, given]) => peers[way](...given)", [way, given])
        assert done["count"] == MANY
        return done["ms"]


@pytest.fixture(scope="module")
def year(playwright, tmp_path_factory, new_profile):
    """What the demo's year took on a new phone at 4× throttle, each time."""
    with Server(tmp_path_factory.mktemp("data")) as server:
        shop = Shop(server)
        shop.console("demo")
        return [pull_year(playwright, new_profile(), shop) for _ in range(TIMES)]


def pull_year(playwright, profile, shop):
    with PhoneAtWork(playwright, profile, shop.address) as phone:
        phone.visit("/buy")
        page = phone.open("/buy", "nav a")
        page.evaluate(SCRIPT)
        page.evaluate("(code) => exchanging.pair(code)", shop.code()["code"])
        done = page.evaluate("exchanging.timedWithStock()")
        assert done["right"]
        calls = [call for call in told(page)["calls"] if call["sent"] >= done["began"]]
        core = waited({"calls": calls}, done["until"], service_worker=False)
        return {**done, "core": core, "at_four": done["until"] - done["began"] + (THROTTLE - 1) * core}


def test_sales_are_sent_much_faster_than_by_pouchdb(ours, peers, keep):
    adapter = faster("push", peers)
    keep(against("push", adapter, ours, peers, PUSH_TIMES))


def test_a_new_phone_has_all_much_faster_than_with_pouchdb(ours, peers, keep):
    adapter = faster("pull", peers)
    keep(against("pull", adapter, ours, peers, PULL_TIMES))


def test_a_new_phone_has_all_faster_than_with_yjs(ours, peers, keep):
    keep(against("pull", "yjs", ours, peers, 1))


@pytest.mark.parametrize(("way", "part"), [("push", 0), ("pull", 1)])
def test_a_sale_is_light_on_the_wire(way, part, ours, keep):
    weights = [sum(each[part] for each in done["weights"]) / MANY for done in ours[way]]
    exchanges = len(ours[way][0]["weights"])
    keep(
        row(f"{way}, bytes a one-line sale, compressed", weights, SALE_BYTES, limits=f"{exchanges} exchanges")
    )


def test_a_new_phone_soon_has_a_whole_year(year, keep):
    core, pulled = (statistics.median(done[name] for done in year) for name in ("core", "ms"))
    changes = year[0]["count"]
    limits = f"{changes:,} changes, pulled in {pulled:.0f}; core {core:.0f} × {THROTTLE} for the stock"
    keep(
        row(
            "demo year on a new phone, stock told, worker × 4, ms",
            [done["at_four"] for done in year],
            YEAR_MS,
            limits=limits,
        )
    )


def faster(way, peers):
    """Name PouchDB's faster adapter."""
    return min(ADAPTERS, key=lambda adapter: statistics.median(peers[way, adapter]))


def against(way, peer, ours, peers, times):
    """Make the row of one way of the sales beside a peer, who may take `times` as long at least."""
    took, others = [done["ms"] for done in ours[way]], statistics.median(peers[way, peer])
    ratio = others / statistics.median(took)
    limits = f"{ratio:.1f}× as fast as {peer}, {others:,.0f} ms, at least {times}×; as measured, no throttle"
    return row(f"{way} of {MANY:,} sales, beside {peer}, ms", took, others / times, limits=limits)
