"""Reading: every bad field at once, named by its path, and nothing lets a bad value through."""

import json

import pytest

from backend.core.declaring.errors import Problems
from backend.core.declaring.reading import LARGEST, MOST_DEPTH, MOST_UNKNOWN, load, read, read_part
from backend.core.declaring.spec import Field

ROW = [Field("name", "text", "Name", most=5), Field("width", "length", "Width", lowest=1)]
FIELDS = [
    Field("loop", "length", "Loop", lowest=10, highest=2000),
    Field("pieces", "count", "Pieces", 12, lowest=1),
    Field("price", "money", "Price", None),
    Field("nap", "flag", "Nap", False),
    Field("way", "choice", "Way", "best", choices=("best", "across")),
    Field("fold", "count", "Fold", 1, choices=(1, 2, 4), lowest=1, highest=4),
    Field("rows", "list", "Rows", [], fields=ROW, most=3),
]
GOOD = {"loop": 165}


def problems(given, fields=FIELDS):
    try:
        read(fields, given)
    except Problems as error:
        return {item["field"]: item["rule"] for item in error.problems}
    return {}


def test_what_is_left_out_takes_its_default():
    assert read(FIELDS, {"loop": 165, "nap": None}) == {
        "loop": 165.0, "pieces": 12, "price": None, "nap": False, "way": "best", "fold": 1, "rows": []
    }  # fmt: skip


def test_numbers_are_converted_on_entry():
    values = read(FIELDS, {"loop": 165, "pieces": 24.0})
    assert type(values["loop"]) is float
    assert type(values["pieces"]) is int


@pytest.mark.parametrize("value", [True, False, "165", [165], {}, float("nan")])
def test_what_is_no_number_is_refused(value):
    assert problems({"loop": value}) == {"loop": "number"}


@pytest.mark.parametrize("value", [float("inf"), float("-inf"), LARGEST + 1, -LARGEST - 1, 10**400, 1e300])
def test_a_number_beyond_the_largest_is_refused(value):
    assert problems({"loop": value}) == {"loop": "huge"}
    assert problems({**GOOD, "pieces": value}) == {"pieces": "huge"}


def test_limits_are_allowed_and_beyond_them_is_not():
    assert problems({"loop": 10}) == problems({"loop": 2000}) == {}
    assert problems({"loop": 9.999}) == {"loop": "lowest"}
    assert problems({"loop": 2000.001}) == {"loop": "highest"}


def test_counts_and_money_are_whole():
    assert problems({**GOOD, "pieces": 1.5, "price": 8.9}) == {"pieces": "whole", "price": "whole"}


def test_choices_are_kept_to():
    assert problems({**GOOD, "way": "bias", "fold": 3}) == {"way": "choice", "fold": "choice"}
    assert problems({**GOOD, "way": 1, "fold": "2"}) == {"way": "text", "fold": "number"}


def test_every_bad_field_is_named_at_once_with_its_row():
    given = {
        "pieces": 0,
        "nap": 1,
        "rows": [{"name": "abc", "width": 5}, {"name": 5, "length": 7}, "row"],
        "x": 1,
    }
    assert problems(given) == {
        "loop": "required", "pieces": "lowest", "nap": "flag", "rows.1.name": "text",
        "rows.1.width": "required",
        "rows.1.length": "unknown", "rows.2": "object", "x": "unknown",
    }  # fmt: skip


@pytest.mark.parametrize("given", [None, [], "loop", 7, True])
def test_what_is_no_object_is_refused(given):
    assert problems(given) == {"": "object"}


def test_texts_are_short_readable_and_not_blank():
    row = {"width": 5}
    for text, rule in [
        ("abcdef", "characters"),
        ("a\0b", "unreadable"),
        ("\ud800", "unreadable"),
        ("  ", "required"),
    ]:
        assert problems({**GOOD, "rows": [{"name": text, **row}]}) == {"rows.0.name": rule}
    for text in ("🧵綿", "\ud7ff", "\ue000"):
        assert problems({**GOOD, "rows": [{"name": text, **row}]}) == {}


def test_lists_have_a_most_and_a_fewest():
    assert problems({**GOOD, "rows": [{"name": "a", "width": 5}] * 4}) == {"rows": "rows"}
    assert problems({**GOOD, "rows": {}}) == {"rows": "list"}
    assert problems({"rows": []}, [Field("rows", "list", "Rows", fields=ROW, fewest=1)]) == {
        "rows": "too_few"
    }


@pytest.mark.parametrize("day", ["2026-02-28", "2024-02-29", "2000-02-29", "2026-12-31"])
def test_a_day_is_a_day(day):
    assert problems({"day": day}, [Field("day", "text", "Day", most=10, shape="date")]) == {}


@pytest.mark.parametrize(
    "day",
    [
        "2026-02-29",
        "1900-02-29",
        "2026-13-01",
        "2026-04-31",
        "2026-1-1",
        "today",
        "20260101",
        "2026-00-10",
        "2026-01-00",
        "٢٠٢٦-01-01",
    ],
)
def test_what_is_no_day_is_refused(day):
    assert problems({"day": day}, [Field("day", "text", "Day", most=10, shape="date")]) == {"day": "date"}


def test_what_an_error_repeats_of_a_text_is_short_and_readable():
    with pytest.raises(Problems) as caught:
        read(FIELDS, {**GOOD, "way": "\ud800" + "x" * 300, "y" * 300 + "\0": 1})
    told = json.dumps(caught.value.problems, ensure_ascii=False)
    assert len(told.encode()) < 800


def test_very_many_unknown_fields_are_counted_not_listed():
    given = {f"field {number}": 1 for number in range(MOST_UNKNOWN + 1)}
    assert problems({**GOOD, **given}) == {"": "fields"}
    given.popitem()
    assert len(problems({**GOOD, **given})) == MOST_UNKNOWN


def test_an_edit_carries_only_what_changes():
    assert read_part(FIELDS, {"price": None, "loop": 140}, "", False) == ({"loop": 140.0, "price": None}, [])


def test_text_that_is_not_json_is_refused():
    for text in ("", "{", "nul", "{'a': 1}"):
        with pytest.raises(Problems) as caught:
            load(text)
        assert caught.value.problems[0]["rule"] == "json"


def test_json_nested_too_deep_is_refused_before_it_is_parsed():
    assert load("[" * MOST_DEPTH + "]" * MOST_DEPTH)
    assert load('["[[[[[[[[[[[["]') == ["[[[[[[[[[[[["]
    assert load('["\\"[[[[[[[[[[[["]') == ['"[[[[[[[[[[[[']
    for text in (
        "[" * (MOST_DEPTH + 1),
        '["\\"", ' + "[" * MOST_DEPTH + "]" * MOST_DEPTH + "]",
        '{"a":' * 200000,
        "[" * MOST_DEPTH + '{"a": 1}',
    ):
        with pytest.raises(Problems) as caught:
            load(text)
        assert caught.value.problems[0]["rule"] == "depth"
