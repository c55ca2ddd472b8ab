"""Reading the records over HTTP: one address a kind, and the bookings as a calendar."""

import re

import marshmallow as ma
from flask import current_app, g
from flask.views import MethodView
from flask_smorest import Blueprint

from ..core.declaring.spec import Field
from ..core.records.checking import KINDS
from ..store import reading, records
from . import calendar, guard
from .bodies import BodyParser
from .problems import documented
from .schemas import Asked, Told, asked_fields, told_fields

MOST_ROWS = 1_000
FILTERS = {
    "day": Field("day", "day", "Only of this day", None),
    "market": Field("market", "id", "Only of this market", None),
    "product": Field("product", "id", "Only with this product", None),
}
PAGING = [
    Field("after", "id", "Only after this id: `next` of the page before", None),
    Field("limit", "count", "Most records of a page", 100, lowest=1, highest=MOST_ROWS),
]
PLURALS = {"person": "people", "supply": "supplies"}


class RecordsBlueprint(Blueprint):
    """A blueprint whose query is read and checked by the core."""

    ARGUMENTS_PARSER = BodyParser()


# as many digits as a float holds
WHOLE = re.compile(r"-?[0-9]{1,15}")


class Query(Asked):
    """What stands after the question mark: texts, some of them, `counted`, whole numbers."""

    counted = ("limit",)

    class Meta:
        register = False

    def load(self, data, **options):
        """Check and fill in defaults. Raises: BadFields with every bad field."""
        given = {name: data[name] for name in data}
        for name in self.counted:
            if WHOLE.fullmatch(given.get(name, "")):
                given[name] = int(given[name])
        return super().load(given, **options)


def make_blueprint():
    """Make the blueprint with one address for each kind of record."""
    blueprint = RecordsBlueprint("records", __name__, description="The records of the business")
    blueprint.before_request(guard.let_in_phone)
    for kind in KINDS:
        blueprint.add_url_rule(f"/{plural(kind.name)}", kind.name, make_view(blueprint, kind))

    @blueprint.route("/bookings.ics")
    @blueprint.doc(operationId="export-calendar", security=[{"phone": []}])
    @documented(blueprint, 401, 403)
    @blueprint.response(200, content_type=calendar.MEDIA_TYPE)
    def bookings_as_calendar():
        """Export the bookings as a calendar (RFC 5545)"""
        with reading() as connection:
            body = calendar.write(connection, g.device.business, guard.now())
        return current_app.response_class(body, mimetype=calendar.MEDIA_TYPE)

    return blueprint


def plural(name):
    """Name many of a kind. Example: plural("cash-box") == "cash-boxes" """
    if name in PLURALS:
        return PLURALS[name]
    return name + ("es" if name.endswith(("s", "x", "ch")) else "s")


def make_view(blueprint, kind):
    """Make the view that lists a kind's records."""
    filters = [FILTERS[name] for name in records.filters_of(kind.name)]
    named = "".join(part.title() for part in plural(kind.name).split("-"))
    query = type(named + "Query", (asked_fields(named + "Asked", filters + PAGING), Query), {})

    class RecordsView(MethodView):
        @blueprint.doc(summary=f"List {plural(kind.name)}", operationId=f"list-{plural(kind.name)}",
                       description=kind.help, security=[{"phone": []}])  # fmt: skip
        @documented(blueprint, 401, 403, 422)
        @blueprint.arguments(query, location="query")
        @blueprint.response(200, page_of(kind, named))
        def get(self, given):
            guard.refuse_unless_known(kind)
            return read_page(kind, given)

    return RecordsView


def page_of(kind, named):
    """Make the schema of a page of a kind's records."""
    fields = dict(told_fields(named, kind.fields)._declared_fields)
    for name, field in fields.items():
        # a description may be known in part only, and a helper is not shown all
        field.allow_none = field.allow_none or not kind.fact
        field.required = name not in kind.owner_only
    fields["id"] = ma.fields.UUID(required=True)
    if kind.fact:
        fields["at"] = ma.fields.Integer(required=True, metadata={"description": "When it happened, UTC ms"})
    row = type(named + "Row", (Told,), fields)
    return type(named + "Page", (Told,), {
        "records": ma.fields.List(ma.fields.Nested(row), required=True),
        "next": ma.fields.UUID(required=True, allow_none=True),
    })  # fmt: skip


def read_page(kind, given):
    """Read a page, and where the next begins."""
    wanted = {name: given[name] for name in FILTERS if given.get(name) is not None}
    after, limit = given["after"], given["limit"]
    with reading() as connection:
        rows = records.page(connection, g.device.business, kind.name, g.device.role, after, limit + 1, wanted)
    more = len(rows) > limit
    return {"records": rows[:limit], "next": rows[limit - 1]["id"] if more else None}
