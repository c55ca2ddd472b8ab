"""The API under /api/v1, and the health check."""

from . import calculators, devices, health, metrics, records, reports, sync
from .bodies import MOST_RAW_BYTES
from .problems import ProblemApi
from .replies import StrictJSON

ABOUT = """The calculations of Boltfair, the same that run on the phone.

Lengths are in millimetres, money in whole minor units (cents), percent as `3` for 3 %, time in minutes.
A field that may be left out has a default; errors name every bad field at once (RFC 9457)."""


def register(app):
    """Add the API, its OpenAPI document and the shape of all errors to an app."""
    app.json = StrictJSON(app)
    app.config.update(
        API_TITLE="Boltfair",
        API_VERSION="v1",
        OPENAPI_VERSION="3.1.0",
        OPENAPI_URL_PREFIX="/api/v1",
        API_SPEC_OPTIONS={"info": {"description": ABOUT}},
        MAX_CONTENT_LENGTH=MOST_RAW_BYTES,
        SECONDS_OF_CALCULATIONS=(calculators.SECONDS, calculators.SECONDS_OF_A_PHONE),
    )
    api = ProblemApi(app)
    api.spec.components.security_scheme("phone", {"type": "apiKey", "in": "cookie", "name": "boltfair"})
    made = [calculators.make_blueprint(), sync.make_blueprint(), *devices.make_blueprints()]
    for blueprint in [*made, records.make_blueprint(), reports.make_blueprint()]:
        api.register_blueprint(blueprint, url_prefix="/api/v1")
    health.register(app)
    metrics.register(app)
