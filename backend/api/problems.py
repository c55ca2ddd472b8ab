"""Errors as they leave: RFC 9457 problem details, one shape for all."""

from urllib.parse import quote

import marshmallow as ma
from flask import current_app, request
from flask_smorest import Api

from ..core.declaring.errors import Problems
from ..core.presenting.wording import word
from ..store import Unavailable

MEDIA_TYPE = "application/problem+json"
NOT_NOW = "the database cannot be asked now: send this again"
SECONDS_TO_RETRY = 5
BAD_FIELDS = "/api.html#bad-fields"


class Described(ma.Schema):
    """A schema that never changes once it is made, as none here does."""

    def __deepcopy__(self, memo):
        """Be its own copy: an operation's description is copied with each line that adds to it."""
        return self


class BadField(Described):
    """One thing wrong with one field, as data."""

    field = ma.fields.String(required=True, metadata={"description": "Dotted path, rows from 0"})
    rule = ma.fields.String(required=True)
    given = ma.fields.Raw(required=True)
    limit = ma.fields.Raw(required=True)
    quantity = ma.fields.String(required=True, allow_none=True)


class Problem(Described):
    """RFC 9457; `errors` and `problems` come with status 422."""

    type = ma.fields.String(required=True)
    title = ma.fields.String(required=True)
    status = ma.fields.Integer(required=True)
    detail = ma.fields.String(required=True)
    instance = ma.fields.String(required=True)
    errors = ma.fields.Dict(keys=ma.fields.String(), values=ma.fields.List(ma.fields.String()))
    problems = ma.fields.List(ma.fields.Nested(BadField))


class ProblemApi(Api):
    """Flask-smorest with problem details for every error of the whole app."""

    ERROR_SCHEMA = Problem
    DEFAULT_ERROR_RESPONSE_NAME = None

    def init_app(self, app, **options):
        """Register with an app."""
        super().init_app(app, **options)
        app.register_error_handler(Problems, bad_fields)
        for error in Unavailable:
            app.register_error_handler(error, not_now)

    def handle_http_exception(self, error):
        """Reply to any HTTP error; one nobody foresaw says no more than that."""
        reply = problem_reply(error.code, error.name, error.description)
        for name, value in error.get_headers():
            if name != "Content-Type":
                reply.headers[name] = value
        return reply


def not_now(error):
    """Reply that the database cannot be asked now; what comes twice is known by its id."""
    current_app.logger.error("the database cannot be asked: %s", error)
    reply = problem_reply(503, "Service Unavailable", NOT_NOW)
    reply.headers["Retry-After"] = str(SECONDS_TO_RETRY)
    return reply


def bad_fields(error):
    """Reply with every bad field, in words and as data."""
    errors = worded(error.problems)
    detail = f"{len(errors)} bad field" + ("" if len(errors) == 1 else "s") + ": see errors"
    return problem_reply(422, "Bad fields", detail, BAD_FIELDS, errors=errors, problems=error.problems)


def problem_reply(status, title, detail, type="about:blank", **more):
    """Make a response of problem details."""
    told = {"type": type, "title": title, "status": status, "detail": detail, "instance": quote(request.path)}
    return current_app.response_class(current_app.json.dumps(told | more), status, mimetype=MEDIA_TYPE)


def worded(problems, word=word):
    """Word problems in base units, as {field: [messages]}; `word` words one."""
    messages = {}
    for item in problems:
        messages.setdefault(item["field"], []).append(word(item))
    return messages


def documented(blueprint, *statuses):
    """Decorate a view: its OpenAPI entry shows these error statuses."""

    def decorate(view):
        for status in statuses:
            view = blueprint.alt_response(status, schema=Problem, content_type=MEDIA_TYPE)(view)
        return view

    return decorate
