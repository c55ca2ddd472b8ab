"""WebKit ends the process that has its databases, as iPhones do in the background: the day goes on."""

import pytest

from ..scenario import SIZES
from ..server import Server


@pytest.fixture
def server(tmp_path):
    with Server(tmp_path / "data") as running:
        yield running


@pytest.fixture
def stall(server, lasting_page):
    """An open stall in WebKit, whose one product is in the basket once, with the server dead."""
    page = lasting_page(server.address).open("/settings")
    page.wait_for("html[data-offline-ready]")
    page.ask("actions", "describeNew", "place", {"name": "Quay stall", "use": "stall"})
    size = page.ask("actions", "describeNew", "piece", SIZES["Everyday"])
    page.ask("actions", "describeNew", "product", {"size": size, "price": 600, "group": "Everyday"})
    page.open("/sell").type("#spot-name", "Sandholt Quay")
    page.tap("[data-opening] button[type=submit]")
    page.tap("[data-product]")
    page.wait_for('[data-total="600"]')
    page.leave()
    server.stop()
    return page


def lose_storage(stall, *tapped):
    """Kill the storage's process, tap, and wait until the page was loaded anew and says so."""
    stall.kill_storage()
    for selector in tapped:
        stall.tap(selector)
    stall.wait_for_load()
    stall.said("is open again")


def test_the_basket_is_whole_and_the_next_sale_is_kept(stall):
    # tapped where nothing can be written
    lose_storage(stall, "[data-product]")
    stall.wait_for('[data-total="1200"]')
    stall.tap("[data-pay=card]")
    stall.wait_for('.sell-last-sale [data-kept="on this phone"]')
    stall.open("/sell/today").wait_for("[data-sale]")
    [sale] = stall.ask("facts", "factsOf", "sale")
    assert (sale["amount"], sale["payment"]) == (1200, "card")
    assert stall.ask("till", "basket")["lines"] == []
