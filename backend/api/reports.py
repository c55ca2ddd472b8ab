"""Reports for programs, for owners: what markets and a year came to, by the same core as on a phone."""

from datetime import UTC, datetime

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


class YearQuery(asked_fields("YearAsked", OF_YEAR), Query):
    """Which year."""


class FileQuery(asked_fields("YearFileAsked", OF_YEAR + OF_FILE), Query):
    """Which year, and which file of it."""


def make_blueprint():
    """Make the blueprint of the reports."""
    blueprint = RecordsBlueprint("reports", __name__, description="What markets and a year came to")
    blueprint.before_request(guard.let_in_owner)

    @blueprint.route("/reports/markets")
    @blueprint.doc(operationId="report-markets", security=[{"phone": []}])
    @documented(blueprint, 401, 403)
    @blueprint.response(200, MarketsReport)
    def markets():
        """Set the markets side by side: profit an hour, how sure, and what pays for a booking"""
        with reading() as connection:
            return Books(connection, g.device.business).markets(today())

    @blueprint.route("/reports/year")
    @blueprint.doc(operationId="report-year", security=[{"phone": []}],
                   responses={"200": {"content": {CSV: {"schema": {"type": "string"}}}}})  # fmt: skip
    @documented(blueprint, 401, 403, 422)
    @blueprint.arguments(YearQuery, location="query")
    @blueprint.response(200, YearReport)
    def year(given):
        """Add up a year by month and by market; as CSV where that is asked for (Accept)"""
        if request.accept_mimetypes.best_match(["application/json", CSV]) == CSV:
            return csv_of(given["year"], "figures")
        with reading() as connection:
            return Books(connection, g.device.business).year(given["year"] or today()[:4], today())

    @blueprint.route("/reports/year.csv")
    @blueprint.doc(operationId="export-year", security=[{"phone": []}])
    @documented(blueprint, 401, 403, 422)
    @blueprint.arguments(FileQuery, location="query")
    @blueprint.response(200, content_type=CSV)
    def year_csv(given):
        """Write a file of a year for the books (RFC 4180)"""
        return csv_of(given["year"], given["file"])

    return blueprint


def csv_of(asked, file):
    """Make the reply of a file of a year; the stock is that at its end, UTC, or now."""
    year = asked or today()[:4]
    with reading() as connection:
        text = Books(connection, g.device.business).year_file(file, year, today(), told_at(year))
    reply = current_app.response_class(text, mimetype=CSV)
    reply.headers["Content-Disposition"] = f'attachment; filename="{year}-{file}.csv"'
    reply.vary.add("Accept")
    return reply


def told_at(year):
    """Tell when a year ends, UTC ms, or what time it is where it has not."""
    if not (year.isascii() and year.isdigit() and len(year) == 4 and "2000" <= year < today()[:4]):
        return guard.now()
    return int(datetime(int(year) + 1, 1, 1, tzinfo=UTC).timestamp() * 1000) - 1


def today():
    """Tell the day, UTC."""
    return datetime.fromtimestamp(guard.now() / 1000, UTC).date().isoformat()
