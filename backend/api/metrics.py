"""What is counted of requests, for whoever sits at the server's console, and what the log tells of them."""

from flask import current_app, g, request
from werkzeug.exceptions import Forbidden

from .. import observing
from . import guard

MEDIA_TYPE = "text/plain; version=0.0.4; charset=utf-8"
CONSOLE_ONLY = "only this computer itself is told this"


def register(app):
    """Add GET /metrics to an app, and leave with each request what the log tells of it."""

    @app.after_request
    def leave_traces(reply):
        request.environ[observing.ROUTE] = request.url_rule.rule if request.url_rule else None
        device = g.get("device")
        request.environ[observing.DEVICE] = device.id if device else None
        return reply

    @app.get("/metrics")
    def metrics():
        if not guard.is_console():
            raise Forbidden(CONSOLE_ONLY)
        return current_app.response_class(observing.counts(), content_type=MEDIA_TYPE)
