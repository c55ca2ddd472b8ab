"""The health check says whether the server could keep something."""

import contextlib
import sqlite3

import pytest

from backend import store
from backend.app import create_app
from backend.settings import Settings
from backend.store import database as kept
from tests.databases import database, databases, settings, shared_app

__all__ = ["database", "databases", "settings", "shared_app"]


@pytest.fixture
def client(shared_app):
    return shared_app.test_client()


def test_the_server_says_that_it_is_well(client):
    first, again = client.get("/healthz"), client.get("/healthz")
    assert first.status_code == again.status_code == 200
    assert first.get_json() == again.get_json() == {"status": "ok"}
    assert first.headers["Cache-Control"] == "no-store"


def test_the_health_check_takes_nothing(client, is_problem):
    is_problem(client.post("/healthz", json={"status": "bad"}), 405)


@contextlib.contextmanager
def own_client(settings):
    app = create_app(told=settings)
    with app.app_context():
        store.prepare(settings)
        yield app.test_client()
        store.close()


def test_a_server_that_cannot_write_says_so_and_is_well_again(tmp_path, monkeypatch, is_problem):
    monkeypatch.setattr(kept, "SECONDS_BEHIND_OTHERS", 0.1)
    with own_client(Settings(tmp_path)) as client:
        other = sqlite3.connect(tmp_path / "boltfair.db", isolation_level=None)
        other.execute("BEGIN IMMEDIATE")
        assert client.get("/healthz").status_code == 503
        code = {"code": "WRONGC0DE2", "name": "A phone"}
        refused = client.post("/api/v1/devices", json=code, headers={"Origin": "http://localhost"})
        told = is_problem(refused, 503)
        assert "WRONGC0DE2" not in str(told)
        assert refused.headers["Retry-After"] == "5"
        other.execute("ROLLBACK")
        other.close()
        assert client.get("/healthz").status_code == 200


def test_a_disk_without_room_is_told_before_it_is_full(tmp_path, monkeypatch):
    with own_client(Settings(tmp_path)) as client:
        monkeypatch.setattr(kept, "LEAST_ROOM", 2**62)
        assert client.get("/healthz").status_code == 503
