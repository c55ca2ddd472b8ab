"""A walk through screens, each judged for hand and eye, and once more with text twice as large."""

import shutil

from .looks import look
from .phone import Phone
from .test_accessible import QUESTIONS

LARGE = "large"
WALKED = [*QUESTIONS, LARGE]


def walk(start_chromium, visited, folder, fill, screens):
    """Walk through screens twice on one phone without a network.

    Takes: visited, (profile, address) of a phone after one visit; folder, for its profile; fill, which puts
    on a phone what its screens show, and tells of it; screens, which walks with the phone and what was told
    of, and yields the name of each screen.
    Returns: {question: {screen: what is wrong}}, for QUESTIONS and for text twice as large.
    """
    profile, address = visited
    shutil.copytree(profile, folder / "profile", symlinks=True)
    phone = Phone(start_chromium, folder / "profile", address, color_scheme="light")
    phone.switch_on(offline=True)
    filled = fill(phone)
    told = {question: {} for question in WALKED}
    for name in screens(phone, filled):
        for question, judge in QUESTIONS.items():
            _note(told[question], name, judge(phone.screen))
    phone.devtools().send("Page.setFontSizes", {"fontSizes": {"standard": 32, "fixed": 26}})
    for name in screens(phone, filled):
        wrong = [*look(phone.screen, "outOfPlace"), *look(phone.screen, "brokenWords", "table *")]
        _note(told[LARGE], name, wrong)
    phone.switch_off()
    assert phone.trouble == []
    return told


def _note(told, name, wrong):
    if wrong:
        told[name] = wrong
