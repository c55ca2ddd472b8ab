"""The demo: a year of an invented maker, loaded as phones would send it."""

from .loading import HasRecords, load

__all__ = ["HasRecords", "load"]
