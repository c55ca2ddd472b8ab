"""A client of the app, and what every error must look like."""

import pytest

from backend.app import create_app


@pytest.fixture(scope="session")
def app():
    made = create_app()
    # what is asked is answered whole, however busy the machine is
    made.config["SECONDS_OF_CALCULATIONS"] = (60, 60)
    return made


@pytest.fixture
def client(app):
    return app.test_client()


@pytest.fixture
def ask(client):
    """Ask a calculator: `ask("strip-length", {...})`."""
    return lambda name, given: client.post(f"/api/v1/calculators/{name}", json=given)


@pytest.fixture
def send(client):
    """Send a raw body to a calculator, as JSON unless said otherwise."""

    def send_raw(body, name="strip-length", content_type="application/json", **headers):
        named = {key.replace("_", "-"): value for key, value in headers.items()}
        return client.post(f"/api/v1/calculators/{name}", data=body, content_type=content_type, headers=named)

    return send_raw


@pytest.fixture
def is_problem():
    """Assert that a reply is RFC 9457 problem details with this status."""

    def check(reply, status):
        told = reply.get_json()
        assert reply.status_code == status, told
        assert reply.content_type == "application/problem+json"
        assert {"type", "title", "status", "detail", "instance"} <= told.keys()
        assert told["status"] == status
        assert all(told[key] for key in ("type", "title", "detail", "instance"))
        return told

    return check
