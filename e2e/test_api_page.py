"""The API's page: it shows every operation, asks nobody outside, and tries one out."""

import json
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import expect

from backend.core.catalogue import NAMES, answer

from .looks import violations

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
    expect(page.locator(".api-operation")).to_have_count(operations)
    for name in NAMES:
        expect(page.locator(f'[data-path$="/calculators/{name}"]').first).to_be_visible()
    # each opens on fields or on what it answers
    for summary in page.locator(".api-operation > summary").all():
        summary.click()
    expect(page.locator(".api-operation[open]:not(:has(table, p))")).to_have_count(0)
    assert {host for host in asked if host} == {urlsplit(server.address).netloc}


def test_fields_are_told_with_limits_defaults_and_what_they_are(new_phone, server):
    page = new_phone(server.address).switch_on().page
    page.goto(f"{server.address}/api.html")
    asked = page.locator('[data-method=post][data-path$="/calculators/strip-length"]')
    asked.locator("summary").tap()
    loop = asked.locator("tr", has=page.locator("th", has_text="loop")).first
    expect(loop).to_contain_text("number 10 to 2000")
    expect(loop).to_contain_text("165")
    expect(loop).to_contain_text("inner length of the finished elastic ring (mm)")
    nested = page.locator('[data-method=post][data-path$="/calculators/cutting-layout"]')
    nested.locator("summary").tap()
    expect(nested.locator("th", has_text="cloths.N.width").first).to_be_visible()


def test_an_example_tried_out_is_answered_as_the_core_answers(new_phone, server):
    page = new_phone(server.address, **WIDE).switch_on().page
    page.goto(f"{server.address}/api.html")
    ask = page.locator('[data-method=post][data-path$="/calculators/strip-length"]')
    ask.locator("summary").click()
    given = json.loads(ask.locator("textarea").input_value())
    ask.get_by_role("button", name="Ask").click()
    told = ask.locator(".api-answer")
    expect(told).to_have_attribute("data-status", "200")
    assert json.loads(told.inner_text())["result"] == answer("strip-length", given)["result"]


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_everybody_can_read_it(new_phone, server, theme):
    phone = new_phone(server.address, color_scheme=theme)
    page = phone.switch_on().page
    page.goto(f"{server.address}/api.html")
    page.locator('[data-method=post][data-path$="/calculators/strip-length"] summary').tap()
    page.locator("textarea").wait_for()
    assert violations(phone.screen) == []
