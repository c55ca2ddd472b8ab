"""The exchange over HTTP: what a phone has made goes in, what it has not seen comes out."""

import gzip

import marshmallow as ma
import orjson
from flask import current_app, g, request
from flask.views import MethodView
from flask_smorest import Blueprint
from werkzeug.exceptions import Conflict

from ..core.declaring.reading import LARGEST
from ..core.declaring.spec import NEEDED, WHOLE, Field
from ..core.records.envelope import ENVELOPE
from ..sync import texts
from ..sync.exchange import MOST_PUSHED, NewerSchema, exchange
from ..sync.pull import MOST_CHANGES
from ..sync.words import word
from . import guard
from .bodies import MOST_EXCHANGED_BYTES, BodyParser, read_body
from .problems import documented, worded
from .schemas import Asked, Told

NEWER = "this phone's records are of a newer version than the server's: update the server"
# quick, and small enough: a page is packed while a phone waits for it
PACKING = 6
SMALLEST_PACKED = 500

FIELDS = [
    Field("epoch", "id", "The life of the log that the phone knows"),
    Field("cursor", "count", "The last number the phone has seen", highest=LARGEST),
    Field("last", "id", "The change of that number, as a reply told its id", None),
    Field("schema", "count", "The version of the phone's records", lowest=1, highest=1_000_000),
    Field("sent_at", "instant", "The phone's clock as it sends"),
    Field("changes", "list", "What the phone made, oldest first", most=MOST_PUSHED),
    Field("unsent", "count", "Waiting to send on the phone beside these", None, highest=10_000_000),
]


# each part of a change in the document; the exchange judges it itself
SORTS = {"id": ma.fields.UUID, "object": ma.fields.Dict, "text": ma.fields.String}


def part_of_change(field):
    """Document a part of a change's envelope."""
    sort = ma.fields.Integer if field.quantity in WHOLE else SORTS[field.quantity]
    return sort(required=field.default == NEEDED, metadata={"description": field.help})


class SentChange(ma.Schema.from_dict({field.name: part_of_change(field) for field in ENVELOPE})):
    """A change as a phone makes it; each is judged by itself."""


class Exchange(Asked):
    """What a phone sends; the core checks all but the changes."""

    declared = FIELDS

    epoch = ma.fields.UUID(required=True)
    cursor = ma.fields.Integer(required=True)
    last = ma.fields.UUID(allow_none=True)
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
    at = ma.fields.Integer(metadata={"description": "When it happened, where that is another than sent"})
    errors = ma.fields.Dict(keys=ma.fields.String(), values=ma.fields.List(ma.fields.String()))


class LoggedChange(SentChange):
    """A change as the log holds it."""

    seq = ma.fields.Integer(required=True)
    partial = ma.fields.Boolean(metadata={"description": "Fields that only owners see were left out"})
    received = ma.fields.Integer(
        metadata={
            "description": "When a helper's void, refund, batch result or time came in, UTC ms: for owners"
        }
    )


class Exchanged(Told):
    """What the phone gets back; what was accepted just now is told by `results` alone."""

    epoch = ma.fields.UUID(required=True)
    after = ma.fields.Integer(
        required=True, data_key="from", metadata={"description": "The page begins above it"}
    )
    role = ma.fields.String(required=True)
    through = ma.fields.Integer(required=True, metadata={"description": "The page ends with it"})
    last = ma.fields.UUID(
        required=True,
        allow_none=True,
        metadata={"description": "The id of the change it ends with"},
    )
    more = ma.fields.Boolean(required=True)
    results = ma.fields.List(
        ma.fields.Nested(Result),
        required=True,
        metadata={"description": "Of each change sent; none where the log is not the phone's"},
    )
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
    blueprint = ExchangeBlueprint("sync", __name__, description="The sync of changes with phones")
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
            given["last"],
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
        "last": page.last,
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
    if result.at is not None:
        told["at"] = result.at
    if result.problems:
        told["errors"] = worded(result.problems, word)
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
