"""What whoever runs the server is told: counts on the console, a line each in a log; never a secret."""

import re

import pytest

from backend.observing import Observer
from tests.databases import app, database, databases, shared_app
from tests.phones import Phone, add_business

__all__ = ["app", "database", "databases", "shared_app"]


def metrics(app, **options):
    return app.test_client().get("/metrics", **options)


def test_the_console_is_told_of_requests_by_their_routes(app):
    app.test_client().get("/healthz")
    told = metrics(app)
    assert told.status_code == 200
    assert told.content_type.startswith("text/plain; version=0.0.4")
    assert "# TYPE boltfair_requests_total counter" in told.text


@pytest.mark.parametrize(
    "options",
    [
        {"environ_base": {"REMOTE_ADDR": "192.168.1.9"}},
        {"headers": {"X-Forwarded-For": "203.0.113.9"}},
        {"base_url": "http://rebound.example/"},
    ],
    ids=["another computer", "through a proxy", "by another name"],
)
def test_nobody_else_is_told(app, options):
    assert metrics(app, **options).status_code == 403


def test_a_line_tells_route_and_phone_and_no_secret(app, tmp_path):
    phone = Phone(app, add_business())
    observer = Observer(str(tmp_path / "log"))
    environs = []

    def watched(environ, start):
        environs.append(environ)
        return real(environ, start)

    real, app.wsgi_app = app.wsgi_app, watched
    try:
        phone.exchange([phone.sale()])
        phone.ask("GET", "/sales?day=2026-11-29")
        phone.ask("POST", f"/devices/{phone.id}/revoke")
    finally:
        app.wsgi_app = real
    for environ in environs:
        observer.note(environ, 200, 0.0123)
    observer.close()
    lines = (tmp_path / "log").read_text().splitlines()
    assert [line.split(" ", 1)[1] for line in lines] == [
        f"POST /api/v1/sync 200 12.3 {phone.id}",
        f"GET /api/v1/sales 200 12.3 {phone.id}",
        f"POST /api/v1/devices/<uuid:device>/revoke 200 12.3 {phone.id}",
    ]
    assert all(re.match(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z ", line) for line in lines)


def test_a_log_that_was_moved_away_is_begun_anew(tmp_path):
    observer = Observer(str(tmp_path / "log"))
    for name in ("one", "two"):
        observer.note({"REQUEST_METHOD": "GET"}, 404, 0.001)
        (tmp_path / "log").rename(tmp_path / name)
    observer.close()
    assert [len((tmp_path / name).read_text().splitlines()) for name in ("one", "two")] == [1, 1]
