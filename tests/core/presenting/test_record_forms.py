"""Records as forms: typed out and read back, whatever their kind."""

import pytest

from backend.core.presenting.record_forms import blank_row, read_money, record_read, record_typed
from backend.core.records.checking import KINDS, check

PLACE, MARKET = "0192f8a0-0000-7000-8000-000000000001", "0192f8a0-0000-7000-8000-000000000002"
BOOKING = {
    "market": MARKET, "days": ["2026-12-05", "2026-12-06"], "place": PLACE, "pitch": "12", "fee": 14500,
    "fee_percent": 5.5, "opens": "09:00", "closes": "17:30", "distance_km": 61,
}  # fmt: skip


def test_a_record_typed_out_reads_back_the_same():
    kept = check("booking", BOOKING, True)
    typed = record_typed("booking", kept, {}, "EUR")
    assert (typed["fee"], typed["fee_percent"], typed["days"]) == ("145.00", "5.5", BOOKING["days"])
    assert record_read("booking", typed, {}, "EUR") == {"fields": kept, "problems": {}}


def test_rows_of_a_record_read_back_the_same():
    business = {"name": "Tern & Tansy", "currency": "EUR", "denominations": [{"value": 5000}, {"value": 50}]}
    kept = check("business", business, True)
    typed = record_typed("business", kept, {}, "EUR")
    assert [row["value"] for row in typed["denominations"]] == ["50.00", "0.50"]
    assert record_read("business", typed, {}, "EUR")["fields"] == kept


def test_lengths_are_typed_and_read_in_the_unit_shown():
    cloth = {"name": "Seagrass lawn", "bolt_width": 1400, "shrink_length": 3, "shrink_width": 2}
    typed = record_typed("cloth", cloth, {"bolt_width": "cm"}, "EUR")
    assert typed["bolt_width"] == "140"
    assert record_read("cloth", typed, {"bolt_width": "cm"}, "EUR")["fields"]["bolt_width"] == 1400


def test_a_record_opened_in_another_unit_and_saved_untouched_is_as_it_was():
    size = {
        "name": "Everyday",
        "loop": 165,
        "fullness": 2.8,
        "tube_width": 45,
        "end_seam": 10,
        "side_seam": 10,
    }
    kept = check("piece", size, True)
    units = {"loop": "in", "tube_width": "in", "end_seam": "in", "side_seam": "in"}
    typed = record_typed("piece", kept, units, "EUR")
    assert typed["loop"] == {"text": "6 1/2", "mm": 165}
    assert record_read("piece", typed, units, "EUR")["fields"] == kept


def test_what_is_wrong_is_said_beside_its_field():
    told = record_read("booking", {"days": ["2026-02-30"], "fee": "12.345", "opens": "25:00"}, {}, "EUR")
    assert told["fields"] is None
    assert sorted(told["problems"]) == ["days.0", "fee", "opens"]


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_a_blank_form_of_every_kind_holds_all_its_fields(kind):
    typed = record_typed(kind.name, {}, {}, "EUR")
    assert sorted(typed) == sorted(field.name for field in kind.fields)
    for field in kind.fields:
        if field.fields:
            row = blank_row(kind.name, field.name, {}, "EUR")
            assert sorted(row) == sorted(inner.name for inner in field.fields)


def test_an_amount_is_read_as_typed_or_what_is_wrong_is_said():
    assert read_money("8,90", "EUR") == {"amount": 890, "problem": ""}
    assert read_money("890", "JPY") == {"amount": 890, "problem": ""}
    for bad in ("", "x", "-1", "8.905", "99999999999"):
        told = read_money(bad, "EUR")
        assert told["amount"] is None and told["problem"], bad
