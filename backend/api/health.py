"""The health check, for whatever watches the server."""

from ..store import can_write


def register(app):
    """Add GET /healthz to an app."""

    @app.get("/healthz")
    def healthz():
        if not can_write():
            return {"status": "cannot write"}, 503
        return {"status": "ok"}
