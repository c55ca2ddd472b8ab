"""Laps, practice and windows: against SciPy, and what holds whatever the numbers."""

from math import log, log2

import pytest
from hypothesis import assume, given
from hypothesis import strategies as some
from scipy import stats

from backend.core.catalogue import answer
from backend.core.declaring.errors import Problems
from backend.core.making.laps import judged_laps, timed
from backend.core.making.learning import rate_of, units_worth
from backend.core.making.windows import laid_into
from backend.core.numbers.calendar import MINUTE_MS

pytestmark = pytest.mark.full

MINUTES = some.integers(20, 400).map(lambda tenths: tenths / 100)
LAPS = some.lists(MINUTES, min_size=5, max_size=40)
MONDAY = 1_795_600_800_000


def laps_of(values, keep=None):
    return [{"minutes": value, "pieces": 1, "keep": keep} for value in values]


@given(LAPS)
def test_laps_are_left_out_by_scipys_median_deviation(values):
    _, left_out, too_many = judged_laps(laps_of(values))
    usual = stats.median_abs_deviation(values)
    assume(usual > 1e-6)
    middle = sorted(values)[len(values) // 2] if len(values) % 2 else None
    middle = (
        sum(sorted(values)[len(values) // 2 - 1 : len(values) // 2 + 1]) / 2 if middle is None else middle
    )
    scores = [0.6745 * abs(value - middle) / usual for value in values]
    assume(all(abs(score - 3.5) > 1e-6 for score in scores))
    far = [place for place, score in enumerate(scores) if score > 3.5]
    assert too_many == (len(far) > len(values) / 4)
    assert left_out == ([] if too_many else far)


@given(LAPS, some.sampled_from([1, 2.5, 5, 10, 20]))
def test_how_sure_laps_are_is_what_scipy_says(values, accuracy):
    told = timed(laps_of(values), accuracy)
    mean = sum(values) / len(values)
    assert told["observed"] == pytest.approx(mean)
    spread = stats.sem(values)
    reach = stats.t.ppf(0.975, len(values) - 1) * spread
    assert told["precision"] == pytest.approx(100 * reach / mean, rel=1e-9, abs=1e-9)
    # ILO's formula as it stands
    squares, whole = sum(value * value for value in values), sum(values)
    root = 200 / accuracy * max(0, len(values) * squares - whole * whole) ** 0.5 / whole
    assert abs(told["needed"] - root * root) <= 1


@given(LAPS, some.floats(20, 100))
def test_a_disturbed_lap_moves_nothing_once_it_is_left_out(values, times):
    counted, left_out, _ = judged_laps(laps_of(values))
    assume(not left_out)
    # one lap more, far beyond all the others
    disturbed = max(values) * times * len(values)
    again, out, too_many = judged_laps(laps_of([*values, disturbed]))
    assume(not too_many)
    assert len(values) in out
    if out == [len(values)]:
        assert timed(again, 5) == timed(counted, 5)
    # kept by hand it counts, and the time is anybody's guess
    kept, _, _ = judged_laps([*laps_of(values, True), *laps_of([disturbed], True)])
    assert timed(kept, 5)["precision"] > 100


@given(LAPS, some.data())
def test_what_is_said_of_a_lap_stands(values, data):
    said = [data.draw(some.sampled_from([None, True, False])) for _ in values]
    laps = [{**lap, "keep": keep} for lap, keep in zip(laps_of(values), said, strict=True)]
    counted, left_out, _ = judged_laps(laps)
    assert len(counted) + len(left_out) == len(laps)
    assert {place for place, keep in enumerate(said) if keep is False} <= set(left_out)
    assert not {place for place, keep in enumerate(said) if keep} & set(left_out)


@given(some.lists(some.tuples(some.integers(1, 200), MINUTES), min_size=3, max_size=30))
def test_practice_is_scipys_least_squares(batches):
    history = [{"pieces": pieces, "minutes": pieces * each} for pieces, each in batches]
    across, made = [], 0
    for pieces, _ in batches:
        first, last = made + 1, made + pieces
        across.append(log((first + last + 2 * (first * last) ** 0.5) / 4))
        made = last
    fit = stats.linregress(across, [log(each) for _, each in batches])
    high = fit.slope + stats.t.ppf(0.975, len(batches) - 2) * fit.stderr
    assume(abs(high) > 1e-9)
    assert rate_of(history) == pytest.approx(100 * 2**fit.slope if high < 0 else 100)


@given(some.floats(70, 100), some.integers(0, 500), some.integers(1, 300))
def test_each_doubling_takes_the_same_share(rate, made_before, quantity):
    power = log2(rate / 100)
    at = max(1, made_before)
    units = range(made_before + 1, made_before + quantity + 1)
    worth = units_worth(rate, made_before, quantity)
    assert worth == pytest.approx(sum((unit / at) ** power for unit in units))
    assert worth <= quantity * (1 + 1e-12)
    # what is made in two goes takes what it takes in one
    first = quantity // 2
    rest = (
        units_worth(rate, made_before + first, quantity - first) * (max(1, made_before + first) / at) ** power
    )
    assert units_worth(rate, made_before, first) + rest == pytest.approx(worth)


WINDOWS = some.lists(some.tuples(some.integers(0, 200), some.integers(1, 300)), max_size=8)


def windows_of(gaps):
    windows, now = [], MONDAY
    for gap, length in gaps:
        windows.append({"from": now + gap * MINUTE_MS, "to": now + (gap + length) * MINUTE_MS})
        now = windows[-1]["to"]
    return windows


def minute_by_minute(minutes, start, windows, break_every):
    """Work one minute after the other, the slow way."""
    left = minutes
    for window in windows:
        now = window["from"] if start is None else max(start, window["from"])
        worked, breaks = 0, 0
        while now < window["to"] and left:
            if break_every and worked == break_every:
                now += (10 if breaks else 5) * MINUTE_MS
                worked, breaks = 0, breaks + 1
                continue
            now, worked, left = now + MINUTE_MS, worked + 1, left - 1
        if not left:
            return now, 0
    return None, left


@given(
    some.integers(1, 600), some.none() | some.integers(0, 600), WINDOWS, some.sampled_from([0, 1, 5, 25, 55])
)
def test_windows_are_filled_as_if_minute_by_minute(minutes, begin, gaps, break_every):
    windows = windows_of(gaps)
    assume(windows)
    start = None if begin is None else MONDAY + begin * MINUTE_MS
    expected = minute_by_minute(minutes, start, windows, break_every)
    assert laid_into(float(minutes), start, windows, float(break_every)) == expected


@given(some.integers(1, 400), WINDOWS)
def test_it_is_done_within_a_window_and_later_with_more_work(minutes, gaps):
    windows = windows_of(gaps)
    assume(windows)
    done, short = laid_into(float(minutes), None, windows, 55.0)
    more, shorter = laid_into(minutes + 7.5, None, windows, 55.0)
    if done is None:
        assert more is None and shorter == pytest.approx(short + 7.5)
    else:
        assert any(window["from"] < done <= window["to"] for window in windows)
        assert more is None or more > done


@given(some.lists(some.integers(0, 2000), min_size=2, max_size=12))
def test_windows_that_are_not_in_order_are_refused(edges):
    windows = [{"from": one, "to": other} for one, other in zip(edges[::2], edges[1::2], strict=False)]
    asked = {"steps": [{"name": "a", "per": "batch", "minutes": 1}], "windows": windows}
    flat = [edge for window in windows for edge in (window["from"], window["to"])]
    good = flat == sorted(flat) and all(window["from"] < window["to"] for window in windows)
    try:
        answer("batch-time", asked)
        assert good
    except Problems as error:
        assert not good
        assert {item["rule"] for item in error.problems} <= {"window_ends_first", "windows_cross"}
