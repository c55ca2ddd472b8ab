"""The tables say what the kinds say, and the migrations make just these tables."""

import alembic.autogenerate
import alembic.migration
import pytest
from sqlalchemy import JSON, BigInteger, Boolean, Double, Integer, String, Text

from backend.core.declaring.spec import NEEDED
from backend.core.records.checking import KINDS
from backend.store import reading
from backend.store.database import Model
from backend.store.models import table_of

TYPES = {
    "id": String, "day": String, "choice": String, "text": Text, "money": BigInteger, "count": Integer,
    "length": Double, "percent": Double, "ratio": Double, "minutes": Double, "number": Double,
    "flag": Boolean, "list": JSON,
}  # fmt: skip
BESIDE_THE_KINDS = {"log_head", "change", "goods_line", "device", "pairing_code", "pairing_try"}
ALL_KINDS = pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)


@ALL_KINDS
def test_a_kind_has_a_table_with_its_fields_in_order(kind):
    columns = table_of(kind.name).columns.keys()
    names = [field.name for field in kind.fields]
    whole = ["business", "id", "at", *names] if kind.fact else ["business", "id", *names, "stamps"]
    assert columns == whole


@ALL_KINDS
def test_a_column_holds_what_its_field_may_hold(kind):
    for field in kind.fields:
        column = table_of(kind.name).columns[field.name]
        assert type(column.type) is TYPES[field.quantity], field.name
        # an edit may come before the change that made the record
        assert column.nullable is (not kind.fact or field.default is None), field.name
        if field.choices:
            assert max(map(len, field.choices)) <= column.type.length


def test_each_table_but_the_tries_leads_with_the_business():
    for table in Model.metadata.tables.values():
        if table.name != "pairing_try":
            assert next(iter(table.columns)).name == "business", table.name
            assert next(iter(table.primary_key)).name == "business", table.name


def test_there_is_no_table_without_a_kind():
    tables = {kind.name.replace("-", "_") for kind in KINDS}
    assert set(Model.metadata.tables) == tables | BESIDE_THE_KINDS


def test_the_migrations_make_the_tables_that_are_declared(app):
    with reading() as connection:
        context = alembic.migration.MigrationContext.configure(connection, opts={"compare_type": True})
        assert alembic.autogenerate.compare_metadata(context, Model.metadata) == []


def test_required_fields_of_facts_are_never_null():
    for kind in KINDS:
        for field in kind.fields if kind.fact else ():
            if field.default == NEEDED:
                assert not table_of(kind.name).columns[field.name].nullable
