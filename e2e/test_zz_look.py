import shutil
import time


def test_look(new_phone, visited):
    profile, address = visited
    phone = new_phone(address, profile, color_scheme="light")
    phone.switch_on(offline=True)
    page = phone.screen.open("/start").page
    t = time.time()
    page.locator("[data-look]").tap()
    page.locator("[data-invented]").wait_for()
    print("year", time.time() - t)
    t = time.time()
    phone.screen.open("/review/sew")
    page.screenshot(path="/tmp/to-sew/s0.png")
    page.locator("[data-worth]").wait_for()
    print("told", time.time() - t)
    page.screenshot(path="/tmp/to-sew/s1.png", full_page=True)
    page.locator("[data-looking=false]").wait_for()
    print("done", time.time() - t)
    page.locator("details.review-why summary").first.tap()
    page.emulate_media(color_scheme="dark")
    page.screenshot(path="/tmp/to-sew/s2.png", full_page=True)
    page.emulate_media(color_scheme="light")
    page.locator("[data-make-plan]").tap()
    page.locator("[data-sewing-plans]").wait_for()
    phone.screen.settle()
    page.screenshot(path="/tmp/to-sew/s3.png", full_page=True)
    page.locator("[data-plan-cutting]").tap()
    page.locator("[data-buys]").wait_for()
    page.screenshot(path="/tmp/to-sew/s4.png", full_page=True)
    phone.switch_off()
    shutil.copytree(phone.profile, "/tmp/to-sew/year-profile", symlinks=True, dirs_exist_ok=True)
    print(address)
