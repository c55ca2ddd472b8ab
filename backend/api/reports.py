"""Reports for programs, for owners: what markets and a year came to, by the same core as on a phone."""

from datetime import datetime, timedelta, timezone

import marshmallow as ma
from flask import current_app, g, request

from ..core.deciding.market_result import VERDICTS
from ..core.declaring.spec import Field
from ..core.reviewing.ledger import COSTS
from ..core.reviewing.year_files import FILES
from ..core.reviewing.year_told import CHARGES
from ..store import reading
from ..store.books import Books
from . import guard
from .problems import documented
from .records import Query, RecordsBlueprint
from .schemas import Note, Told, asked_fields

CSV = "text/csv"
MINOR_UNITS = {"description": "Minor units, without tax"}
# days and years end where the maker is; the business has no time zone, a program that asks knows its own
OF_ZONE = [
    Field(
        "offset_minutes",
        "count",
        "Local time less UTC; the days of UTC where it is left out",
        0,
        lowest=-840,
        highest=840,
    ),
]
OF_YEAR = [Field("year", "text", "The calendar year, YYYY; this one where it is left out", None, most=4)]
OF_FILE = [Field("file", "choice", "Which file", "figures", choices=FILES)]


def money(**options):
    """Document an amount."""
    return ma.fields.Integer(required=True, metadata=MINOR_UNITS, **options)


def number(**options):
    """Document a number that may be unknown."""
    return ma.fields.Float(required=True, allow_none=True, **options)


def whole(**options):
    """Document a count."""
    return ma.fields.Integer(required=True, **options)


def called():
    """Document an id, null where there is none."""
    return ma.fields.String(required=True, allow_none=True)


def told(schema, **fields):
    """Make the schema of an object that the core tells."""
    return type(schema, (Told,), fields)


def several(schema):
    """Document a list of such objects."""
    return ma.fields.List(ma.fields.Nested(schema), required=True)


FIGURES = {name: money() for name in ("takings", *CHARGES, "profit")}
LIKELY = ("mean", "shrunk", "low", "high", "next_low", "next_high", "chance")
BreakEven = told("BreakEvenOfMarket", pieces=whole(allow_none=True), takings=money(allow_none=True),
                 with_wage=whole(allow_none=True), reached=whole(allow_none=True), of=whole(allow_none=True),
                 chance=number(), guessed=ma.fields.Boolean(required=True))  # fmt: skip
MarketRow = told(
    "MarketOfReport", key=called(), market=called(), name=ma.fields.String(required=True), bookings=whole(),
    takings=money(), profit=money(), minutes=number(), days=whole(allow_none=True),
    verdict=ma.fields.String(required=True, allow_none=True, validate=ma.validate.OneOf(VERDICTS)),
    break_even=ma.fields.Nested(BreakEven, required=True, allow_none=True),
    **{name: number() for name in LIKELY},
)  # fmt: skip
BookingRow = told(
    "BookingOfReport", booking=called(), market=called(), key=called(), name=ma.fields.String(required=True),
    days=ma.fields.List(ma.fields.Date(), required=True), takings=money(), refunds=money(), profit=money(),
    pieces=whole(), own_minutes=number(), per_hour=number(), after_wage=money(allow_none=True),
    **{name: money() for name in COSTS},
)  # fmt: skip
MarketsReport = told("MarketsReport", wage=money(allow_none=True), mean=number(), markets=several(MarketRow),
                     bookings=several(BookingRow), notes=several(Note))  # fmt: skip
DayRow = told("DayOfYear", day=ma.fields.Date(required=True), booking=called(), takings=money())
MonthRow = told(
    "MonthOfYear", month=ma.fields.String(required=True), bought=money(), days=several(DayRow), **FIGURES
)
MarketOfYear = told(
    "MarketOfYear", market=called(), name=ma.fields.String(required=True), bookings=whole(), **FIGURES
)
YearReport = told(
    "YearReport", year=ma.fields.String(required=True),
    years=ma.fields.List(ma.fields.String(), required=True), months=several(MonthRow),
    markets=several(MarketOfYear), notes=several(Note),
    total=ma.fields.Nested(told("TotalOfYear", bought=money(), **FIGURES), required=True),
)  # fmt: skip


class ZoneQuery(asked_fields("ZoneAsked", OF_ZONE), Query):
    """Where the day is told."""

    counted = ("offset_minutes",)


class YearQuery(asked_fields("YearAsked", OF_YEAR + OF_ZONE), ZoneQuery):
    """Which year."""


class FileQuery(asked_fields("YearFileAsked", OF_YEAR + OF_FILE + OF_ZONE), ZoneQuery):
    """Which year, and which file of it."""


def make_blueprint():
    """Make the blueprint of the reports."""
    blueprint = RecordsBlueprint("reports", __name__, description="What markets and a year came to")
    blueprint.before_request(guard.let_in_owner)

    @blueprint.route("/reports/markets")
    @blueprint.doc(operationId="report-markets", security=[{"phone": []}])
    @documented(blueprint, 401, 403, 422)
    @blueprint.arguments(ZoneQuery, location="query")
    @blueprint.response(200, MarketsReport)
    def markets(given):
        """Set the markets side by side: profit an hour, how sure, and what pays for a booking"""
        with reading() as connection:
            return Books(connection, g.device.business).markets(today(given))

    @blueprint.route("/reports/year")
    @blueprint.doc(operationId="report-year", security=[{"phone": []}],
                   responses={"200": {"content": {CSV: {"schema": {"type": "string"}}}}})  # fmt: skip
    @documented(blueprint, 401, 403, 422)
    @blueprint.arguments(YearQuery, location="query")
    @blueprint.response(200, YearReport)
    def year(given):
        """Add up a year by month and by market; as CSV where that is asked for (Accept)"""
        if request.accept_mimetypes.best_match(["application/json", CSV]) == CSV:
            return csv_of(given, "figures")
        with reading() as connection:
            return Books(connection, g.device.business).year(year_of(given), today(given))

    @blueprint.route("/reports/year.csv")
    @blueprint.doc(operationId="export-year", security=[{"phone": []}])
    @documented(blueprint, 401, 403, 422)
    @blueprint.arguments(FileQuery, location="query")
    @blueprint.response(200, content_type=CSV)
    def year_csv(given):
        """Write a file of a year for the books (RFC 4180)"""
        return csv_of(given, given["file"])

    return blueprint


def csv_of(given, file):
    """Make the reply of a file of a year; the stock is that at its end, or now."""
    year = year_of(given)
    with reading() as connection:
        text = Books(connection, g.device.business).year_file(file, year, today(given), told_at(year, given))
    reply = current_app.response_class(text, mimetype=CSV)
    reply.headers["Content-Disposition"] = f'attachment; filename="{year}-{file}.csv"'
    reply.vary.add("Accept")
    return reply


def year_of(given):
    """Tell which year is asked about: this one where none is said."""
    return given["year"] or today(given)[:4]


def told_at(year, given):
    """Tell when a year ends, UTC ms, or what time it is where it has not."""
    if not (year.isascii() and year.isdigit() and len(year) == 4 and "2000" <= year < today(given)[:4]):
        return guard.now()
    return int(datetime(int(year) + 1, 1, 1, tzinfo=zone_of(given)).timestamp() * 1000) - 1


def today(given):
    """Tell the day."""
    return datetime.fromtimestamp(guard.now() / 1000, zone_of(given)).date().isoformat()


def zone_of(given):
    """Tell the zone that is asked for."""
    return timezone(timedelta(minutes=given["offset_minutes"] or 0))
