"""Many rows at once are kept as single rows are."""

from sqlalchemy import select

from backend.store import bulk, reading, writing
from backend.store.models import table_of
from tests.phones import uuid7


def test_values_of_every_type_come_back_as_they_were(app):
    business = uuid7()
    cloth = {
        "id": uuid7(), "name": "Grün ½ \U0001f9f5", "bolt_width": 1400.5, "selvedge": 0.0, "mixed": True,
        "tear": False, "price": 2**53 - 1, "archived": None, "stamps": {"name": "x"},
    }  # fmt: skip
    booking = {"id": uuid7(), "days": [], "stamps": {}}
    with writing() as connection:
        for name, rows in (("cloth", [cloth, cloth | {"id": uuid7(), "stamps": {}}]), ("booking", [booking])):
            whole = dict.fromkeys(table_of(name).columns.keys())
            bulk.put(connection, table_of(name), [whole | row | {"business": business} for row in rows])
    with reading() as connection:
        table = table_of("cloth")
        rows = connection.execute(
            select(table).where(table.c.business == business, table.c.id == cloth["id"])
        )
        assert cloth.items() <= dict(rows.mappings().one()).items()
        table = table_of("booking")
        days = select(table.c.days, table.c.name).where(table.c.business == business)
        assert connection.execute(days).all() == [([], None)]
