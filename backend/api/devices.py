"""Pairing phones over HTTP, and an owner's list of them."""

import marshmallow as ma
import segno
from flask import g, jsonify, request
from flask.views import MethodView
from flask_smorest import Blueprint
from werkzeug.exceptions import Conflict, Forbidden, NotFound, TooManyRequests

from ..access import codes, phones
from ..core.declaring.spec import Field
from ..store import devices, log, reading, writing
from . import guard
from .bodies import BodyParser
from .problems import documented
from .schemas import Told, asked_fields, told_fields

WRONG_CODE = "no such code: each is good once, for ten minutes"
OTHER_BUSINESS = "this phone holds another business: save a copy of what is on it and take it off there first"
TOO_MANY = "too many wrong codes lately: wait ten minutes"
NO_SUCH_PHONE = "there is no such phone here"

CODE = Field("code", "text", "The code shown by an owner or the server", most=40, example="7GX2M4QKZP")
PAIRING = [
    CODE,
    Field("name", "text", "What the phone is called", most=60, example="Joss's phone"),
    Field("business", "id", "The business whose data the phone holds already", None),
    Field("device", "id", "The id in the stamps the phone has made already", None),
    Field(
        "again",
        "id",
        "An id made at random: for ten minutes it is a code that pairs this phone again, once",
        None,
    ),
]
ROLE = Field("role", "choice", "What the phone may do", "helper", choices=("owner", "helper"))
WANTED = [ROLE, Field("name", "text", "What the phone will be called", None, most=60)]
PHONE = [
    Field("id", "id", "The phone's id"),
    Field("name", "text", "What it is called", most=60),
    Field("role", "choice", "What it may do", choices=("owner", "helper")),
]
LISTED = PHONE + [
    Field("paired_at", "instant", "When it was paired"),
    Field("seen_at", "instant", "When it was last here", None),
    Field("unsent", "count", "What it said it had not sent", None),
    Field("revoked_at", "instant", "When it was removed", None),
]
CODE_MADE = [
    CODE,
    Field("link", "text", "An address that holds the code, for the phone to open", most=300),
    Field("qr", "text", "The link as an image: a data address of an SVG", most=100_000),
    Field("ends_at", "instant", "When the code ends"),
]


class Paired(Told):
    """What a phone is here."""

    device = ma.fields.Nested(told_fields("Phone", PHONE), required=True)
    business = ma.fields.UUID(required=True)
    epoch = ma.fields.UUID(required=True)


class Phones(Told):
    """All phones of the business."""

    devices = ma.fields.List(ma.fields.Nested(told_fields("ListedPhone", LISTED)), required=True)


class DevicesBlueprint(Blueprint):
    """A blueprint whose bodies are read and checked by the core."""

    ARGUMENTS_PARSER = BodyParser()


def make_blueprints():
    """Make the blueprints: for those not paired yet, for phones, for owners."""
    return [_for_the_unpaired(), _for_phones(), _for_owners()]


def _for_the_unpaired():
    blueprint = DevicesBlueprint("pairing", __name__, description="Pairing a phone")
    blueprint.before_request(guard.refuse_foreign)

    @blueprint.route("/devices")
    class PairingView(MethodView):
        @blueprint.doc(operationId="pair")
        @documented(blueprint, 400, 403, 409, 413, 415, 422, 429)
        @blueprint.arguments(asked_fields("Pairing", PAIRING))
        @blueprint.response(200, Paired)
        def post(self, given):
            """Pair this phone by a code"""
            guard.refuse_unsafe()
            return pair(given)

    return blueprint


def pair(given):
    """Pair a phone, and hand it its cookie."""
    try:
        device, cookie, epoch = phones.pair(
            given["code"], given["name"], guard.now(), request.remote_addr or "",
            given["business"], given["device"], _phone_here(), given["again"],
        )  # fmt: skip
    except codes.WrongCode:
        raise Forbidden(WRONG_CODE) from None
    except codes.TooManyTries as error:
        raise TooManyRequests(TOO_MANY, retry_after=error.seconds) from None
    except phones.OtherBusiness:
        raise Conflict(OTHER_BUSINESS) from None
    return guard.set_cookie(jsonify(paired(device, epoch)), cookie)


def _phone_here():
    try:
        return phones.let_in(request.cookies.get(guard.cookie_name(), ""))
    except phones.Revoked:
        return None


def paired(device, epoch):
    """Tell a phone what it is here."""
    told = {"id": device.id, "name": device.name, "role": device.role}
    return {"device": told, "business": device.business, "epoch": epoch}


def _for_phones():
    blueprint = DevicesBlueprint("phone", __name__, description="This phone")
    blueprint.before_request(guard.let_in_phone)

    @blueprint.route("/devices/me")
    class PhoneView(MethodView):
        @blueprint.doc(operationId="show-phone", security=[{"phone": []}])
        @documented(blueprint, 401, 403)
        @blueprint.response(200, Paired)
        def get(self):
            """Say what this phone is here"""
            with reading() as connection:
                return paired(g.device, log.head(connection, g.device.business).epoch)

        @blueprint.doc(operationId="leave", security=[{"phone": []}])
        @documented(blueprint, 401, 403)
        @blueprint.response(204)
        def delete(self):
            """Take this phone off the business; what it holds stays on it"""
            phones.revoke(g.device.business, g.device.id, guard.now())

    return blueprint


def _for_owners():
    blueprint = DevicesBlueprint("phones", __name__, description="An owner's list of phones")
    blueprint.before_request(guard.let_in_owner)

    @blueprint.route("/devices")
    class PhonesView(MethodView):
        @blueprint.doc(operationId="list-phones", security=[{"phone": []}])
        @documented(blueprint, 401, 403)
        @blueprint.response(200, Phones)
        def get(self):
            """List the phones of the business"""
            with reading() as connection:
                rows = devices.of_business(connection, g.device.business)
            return {"devices": [listed(row) for row in rows]}

    @blueprint.route("/devices/codes")
    class CodesView(MethodView):
        @blueprint.doc(operationId="make-code", security=[{"phone": []}])
        @documented(blueprint, 400, 401, 403, 413, 415, 422)
        @blueprint.arguments(asked_fields("CodeWanted", WANTED))
        @blueprint.response(200, told_fields("CodeMade", CODE_MADE))
        def post(self, given):
            """Make a code that pairs one more phone, once, within ten minutes"""
            now = guard.now()
            with writing() as connection:
                code = codes.make(connection, g.device.business, given["role"], given["name"], now)
            link = codes.link(guard.own_origin(), code)
            picture = segno.make(link, micro=False).svg_data_uri(scale=8)
            return {"code": code, "link": link, "qr": picture, "ends_at": now + codes.LIFE_MS}

    @blueprint.route("/devices/<uuid:device>/revoke")
    class RevokeView(MethodView):
        @blueprint.doc(operationId="revoke", security=[{"phone": []}])
        @documented(blueprint, 401, 403, 404)
        @blueprint.response(204)
        def post(self, device):
            """Take a phone off the business: its next exchange is refused"""
            if not phones.revoke(g.device.business, str(device), guard.now()):
                raise NotFound(NO_SUCH_PHONE)

    return blueprint


def listed(row):
    """Tell an owner about a phone."""
    return {field.name: getattr(row, field.name) for field in LISTED}
