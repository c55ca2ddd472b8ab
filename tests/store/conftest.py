"""Tests of what is kept, on both databases."""

from tests.databases import app, databases, postgresql, settings

__all__ = ["app", "databases", "postgresql", "settings"]
