"""Every table: the log, the devices, and one table for each kind of record.

A table of records is called as its kind is, and its columns as the kind's
fields; `tests/store/test_models.py` holds the two together.
"""

from ..database import Model
from . import access, buying, cash, costing, log, making, markets, people, selling, stock

__all__ = [
    "access",
    "buying",
    "cash",
    "costing",
    "log",
    "making",
    "markets",
    "people",
    "selling",
    "stock",
    "table_of",
]


def table_of(kind_name):
    """Find the table of a kind of record."""
    return Model.metadata.tables[kind_name.replace("-", "_")]
