"""The exchange over HTTP: what a phone has made goes in, what it has not seen comes out."""

import gzip

import marshmallow as ma
import orjson
from flask import current_app, g, request
from flask.views import MethodView
from flask_smorest import Blueprint
from werkzeug.exceptions import Conflict

from ..core.reading import LARGEST
from ..core.spec import Field
from ..sync import texts
from ..sync.exchange import MOST_PUSHED, NewerSchema, exchange
from ..sync.pull import MOST_CHANGES
from ..sync.words import errors_of
from . import guard
from .bodies import MOST_EXCHANGED_BYTES, BodyParser, read_body
from .problems import documented
from .schemas import Asked, Told

NEWER = "this phone's records are of a newer version than the server's: update the server"
# quick, and small enough: a page is packed while a phone waits for it
PACKING = 6
SMALLEST_PACKED = 500

FIELDS = [
    Field("epoch", "id", "The life of the log that the phone knows"),
    Field("cursor", "count", "The last number the phone has seen", highest=LARGEST),
    Field("schema", "count", "The version of the phone's records", lowest=1, highest=1_000_000),
    Field("sent_at", "instant", "The phone's clock as it sends"),
    Field("changes", "list", "What the phone made, oldest first", most=MOST_PUSHED),
    Field("unsent", "count", "What waits on the phone beside these", None, highest=10_000_000),
]


STATUSES = ["accepted", "duplicate", "rejected"]


class SentChange(ma.Schema):
    """A change as a phone makes it; each is judged by itself."""

    id = ma.fields.UUID(required=True)
    kind = ma.fields.String(required=True)
    fields = ma.fields.Dict(required=True)
    record = ma.fields.UUID(metadata={"description": "The record described; a fact has none"})
    at = ma.fields.Integer(required=True, metadata={"description": "When it happened, UTC ms"})
    stamp = ma.fields.String(required=True, metadata={"description": "{ms}-{counter}-{device}"})
    schema = ma.fields.Integer(required=True)
    replaces = ma.fields.UUID(metadata={"description": "The rejected change this corrects"})


class Exchange(Asked):
    """What a phone sends; the core checks all but the changes."""

    declared = FIELDS

    epoch = ma.fields.UUID(required=True)
    cursor = ma.fields.Integer(required=True)
    schema = ma.fields.Integer(required=True)
    sent_at = ma.fields.Integer(required=True)
    changes = ma.fields.List(ma.fields.Nested(SentChange), required=True)
    unsent = ma.fields.Integer(allow_none=True)


class Result(Told):
    """What became of one change."""

    status = ma.fields.String(
        required=True, validate=ma.validate.OneOf(["accepted", "duplicate", "rejected"])
    )
    seq = ma.fields.Integer(required=True, allow_none=True)
    stamp = ma.fields.String(metadata={"description": "As logged, where it is another than sent"})
    errors = ma.fields.Dict(keys=ma.fields.String(), values=ma.fields.List(ma.fields.String()))


class LoggedChange(SentChange):
    """A change as the log holds it."""

    seq = ma.fields.Integer(required=True)
    partial = ma.fields.Boolean(metadata={"description": "Fields that only owners see were left out"})


class Exchanged(Told):
    """What the phone gets back; what was accepted just now is told by `results` alone."""

    epoch = ma.fields.UUID(required=True)
    after = ma.fields.Integer(
        required=True, data_key="from", metadata={"description": "The page begins above it"}
    )
    role = ma.fields.String(required=True)
    through = ma.fields.Integer(required=True, metadata={"description": "The page ends with it"})
    more = ma.fields.Boolean(required=True)
    results = ma.fields.List(ma.fields.Nested(Result), required=True)
    hidden = ma.fields.List(ma.fields.Integer(), required=True)
    server_time = ma.fields.Integer(required=True)
    changes = ma.fields.List(
        ma.fields.Nested(LoggedChange), required=True, validate=ma.validate.Length(max=MOST_CHANGES)
    )


class ExchangeParser(BodyParser):
    """Reads the body of an exchange, quickly."""

    def load_json(self, req, schema):
        """Read the JSON body of a request."""
        return read_body(req, texts.load, MOST_EXCHANGED_BYTES)


class ExchangeBlueprint(Blueprint):
    """A blueprint whose bodies hold changes."""

    ARGUMENTS_PARSER = ExchangeParser()


def make_blueprint():
    """Make the blueprint with the one address of the exchange."""
    blueprint = ExchangeBlueprint("sync", __name__, description="The exchange of changes with phones")
    blueprint.before_request(guard.let_in_phone)

    @blueprint.route("/sync")
    class SyncView(MethodView):
        @blueprint.doc(operationId="sync", security=[{"phone": []}])
        @documented(blueprint, 400, 401, 403, 409, 413, 415, 422)
        @blueprint.arguments(Exchange)
        @blueprint.response(200, Exchanged)
        def post(self, given):
            """Send what this phone made, get what it has not seen"""
            return answer(given)

    return blueprint


def answer(given):
    """Exchange, and write the reply."""
    now = guard.now()
    try:
        results, page = exchange(
            g.device,
            given["epoch"],
            given["cursor"],
            given["schema"],
            given["changes"],
            now,
            given["unsent"],
        )
    except NewerSchema:
        raise Conflict(NEWER) from None
    reply = packed(told(results, page).encode())
    return guard.set_cookie(reply, request.cookies[guard.cookie_name()])


def told(results, page):
    """Write the reply's JSON; the changes are JSON already."""
    head = {
        "epoch": page.epoch,
        "role": g.device.role,
        "from": page.after,
        "through": page.through,
        "more": page.more,
        "results": [told_result(result) for result in results],
        "hidden": page.hidden,
        "server_time": guard.now(),
    }
    return f'{orjson.dumps(head).decode()[:-1]},"changes":[{",".join(page.changes)}]}}'


def told_result(result):
    """Tell what became of one change."""
    told = {"status": result.status, "seq": result.seq}
    if result.stamp:
        told["stamp"] = result.stamp
    if result.problems:
        told["errors"] = errors_of(result.problems)
    return told


def packed(body):
    """Make the reply, packed where the phone takes that and it is worth it."""
    small = len(body) < SMALLEST_PACKED or not request.accept_encodings["gzip"]
    reply = current_app.response_class(
        body if small else gzip.compress(body, PACKING, mtime=0), mimetype="application/json"
    )
    if not small:
        reply.content_encoding = "gzip"
    reply.vary.add("Accept-Encoding")
    return reply
