"""Tests of what is kept, on both databases."""

from tests.databases import app, database, databases, own_app, settings, shared_app

__all__ = ["app", "database", "databases", "own_app", "settings", "shared_app"]
