"""Reading the tables: a kind's records, a page at a time, filtered."""

from sqlalchemy import Text, cast, select

from ..core.records.checking import kind_named
from .models import table_of
from .models.markets import Booking
from .models.selling import GoodsLine
from .tables import goods_lists

AT_ONCE = 1_000


def filters_of(kind_name):
    """Name the filters that a kind has: of day, market, product."""
    columns = table_of(kind_name).columns.keys()
    return [
        name
        for name, there in (
            ("day", "day" in columns or "days" in columns),
            ("market", "market" in columns or "booking" in columns),
            ("product", "product" in columns or goods_lists(kind_name)),
        )
        if there
    ]


def page(connection, business, kind_name, role, after, limit, wanted):
    """Read records of a kind in the order of their ids.

    Takes: after, an id or None; wanted, {filter: value}.
    Returns: a list of dicts, without what the role may not see; what was never
    said of a record has its declared default.
    """
    table, kind = table_of(kind_name), kind_named(kind_name)
    hidden = kind.hidden_from(role)
    columns = [table.c.id] + ([table.c.at] if kind.fact else [])
    columns += [table.c[field.name] for field in kind.fields if field.name not in hidden]
    rows = select(*columns).where(table.c.business == business).order_by(table.c.id).limit(limit)
    if after:
        rows = rows.where(table.c.id > after)
    for name, value in wanted.items():
        rows = rows.where(FILTERS[name](table, business, value))
    return [kind.completed(dict(row), role) for row in connection.execute(rows).mappings()]


def every(connection, business, kind_name):
    """Read all records of a kind, as an owner sees them, in the order of their ids; a page at a time."""
    after = None
    while found := page(connection, business, kind_name, "owner", after, AT_ONCE, {}):
        yield from found
        after = found[-1]["id"]


def _on_day(table, business, day):
    if "day" in table.c:
        return table.c.day == day
    return cast(table.c.days, Text).contains(f'"{day}"', autoescape=True)


def _at_market(table, business, market):
    if "market" in table.c:
        return table.c.market == market
    bookings = select(Booking.id).where(Booking.business == business, Booking.market == market)
    return table.c.booking.in_(bookings)


def _of_product(table, business, product):
    if "product" in table.c:
        return table.c.product == product
    lines = select(GoodsLine.fact).where(GoodsLine.business == business, GoodsLine.product == product)
    return table.c.id.in_(lines)


FILTERS = {"day": _on_day, "market": _at_market, "product": _of_product}
