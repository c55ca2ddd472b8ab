"""The API's page: it shows every operation, asks nobody outside, and tries one out."""

import json
import re
from urllib.parse import urlsplit

from playwright.sync_api import expect

from backend.core.catalogue import NAMES, answer

WIDE = {"viewport": {"width": 1200, "height": 900}, "is_mobile": False}


def test_every_operation_is_shown_and_asks_this_server_alone(new_phone, server):
    phone = new_phone(server.address, **WIDE)
    page = phone.switch_on().page
    asked = set()
    page.on("request", lambda request: asked.add(urlsplit(request.url).netloc))
    page.goto(f"{server.address}/api.html")
    document = phone.context.request.get(f"{server.address}/api/v1/openapi.json").json()
    operations = sum(len(set(path) & {"get", "post", "delete"}) for path in document["paths"].values())
    assert operations > 2 * len(NAMES)
    expect(page.locator(".opblock")).to_have_count(operations)
    for name in NAMES:
        expect(page.locator(f'[data-path$="/calculators/{name}"]').first).to_be_visible()
    assert {host for host in asked if host} == {urlsplit(server.address).netloc}


def test_an_example_tried_out_is_answered_as_the_core_answers(new_phone, server):
    page = new_phone(server.address, **WIDE).switch_on().page
    page.goto(f"{server.address}/api.html")
    ask = page.locator(".opblock-post", has=page.locator('[data-path$="/calculators/strip-length"]'))
    ask.locator(".opblock-summary-control").click()
    ask.get_by_role("button", name="Try it out").click()
    given = json.loads(ask.locator("textarea.body-param__text").input_value())
    ask.get_by_role("button", name="Execute").click()
    told = ask.locator(".live-responses-table .microlight")
    expect(told.first).to_contain_text("strip_length")
    shown = json.loads(re.sub(r"\s+", " ", told.first.inner_text()))
    assert shown["result"] == answer("strip-length", given)["result"]
