"""The health check, for whatever watches the server."""


def register(app):
    """Add GET /healthz to an app."""

    @app.get("/healthz")
    def healthz():
        return {"status": "ok"}
