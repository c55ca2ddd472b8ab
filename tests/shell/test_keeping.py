"""What is slow to make is made once, and found whole or made anew."""

import os
import time

import pytest

from backend.shell.assets import Asset
from backend.shell.keeping import DAY_S, DAYS_UNUSED, made_once


class Maker:
    """Turns bytes round and counts how often."""

    def __init__(self):
        self.times = 0

    def __call__(self, source):
        self.times += 1
        return source[::-1]


@pytest.fixture
def make():
    """A maker of a test's own."""
    return Maker()


def test_it_is_made_once(tmp_path, make):
    for _ in range(3):
        assert made_once("round", b"abc", make, tmp_path / "kept") == b"cba"
    assert make.times == 1


def test_other_bytes_or_another_way_are_made_for_themselves(tmp_path, make):
    assert made_once("round", b"abc", make, tmp_path) == b"cba"
    assert made_once("round", b"abd", make, tmp_path) == b"dba"
    assert made_once("there", b"abc", bytes.upper, tmp_path) == b"ABC"


@pytest.mark.parametrize(
    "damage", [lambda body: body[:-1], lambda body: body[:7], lambda body: b"", bytes.swapcase]
)
def test_what_is_damaged_is_made_anew(tmp_path, make, damage):
    made_once("round", b"abc", make, tmp_path)
    [file] = tmp_path.iterdir()
    file.write_bytes(damage(file.read_bytes()))
    assert made_once("round", b"abc", make, tmp_path) == b"cba"
    assert made_once("round", b"abc", make, tmp_path) == b"cba"
    assert make.times == 2


def test_it_is_made_where_nothing_can_be_kept(tmp_path, make):
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    assert made_once("round", b"abc", make, tmp_path / "file" / "kept") == b"cba"


def test_what_was_long_unused_goes_when_something_new_comes(tmp_path, make):
    for source in (b"used", b"unused"):
        made_once("round", source, make, tmp_path)
    for file in tmp_path.iterdir():
        os.utime(file, times=(0, time.time() - (DAYS_UNUSED + 1) * DAY_S))
    made_once("round", b"used", make, tmp_path)
    made_once("round", b"new", make, tmp_path)
    assert make.times == 3
    assert len(list(tmp_path.iterdir())) == 2


def test_a_file_is_packed_alike_whether_made_or_found():
    body = os.urandom(30) * 40
    made, found = (Asset("/a.js", body).packed(lambda name: name == "br") for _ in range(2))
    assert made == found
    assert made[0] == "br"
