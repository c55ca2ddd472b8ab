"""From `boltfair serve` on an empty folder to its first answer."""

import time

import pytest

from e2e.server import Server
from tests.benchmarks.table import row

pytestmark = pytest.mark.benchmark

TIMES = 5
ANSWERS_MS = 2000


def test_a_server_soon_answers_on_an_empty_folder(tmp_path, keep):
    # what is made once for a version is there after the first start
    took = [start_ms(tmp_path / str(number)) for number in range(1 + TIMES)]
    limits = f"the first start of all {took[0]:.0f}; of the others the quickest {min(took[1:]):.0f}"
    keep(row("serve, empty folder: answers, ms", took[1:], ANSWERS_MS, limits=limits))


def start_ms(folder):
    """Start a server, which says so once it answers, and end it; returns ms."""
    begun = time.perf_counter()
    with Server(folder):
        return (time.perf_counter() - begun) * 1000
