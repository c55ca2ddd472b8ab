"""What whoever runs the server is told of its requests: a line each in a log, and counts.

Never a token, a code or a body: the pattern of a route stands for the path.
"""

import logging
import os
import sys
from datetime import UTC, datetime
from logging.handlers import WatchedFileHandler

from prometheus_client import REGISTRY, CollectorRegistry, Counter, Histogram, generate_latest
from prometheus_client.multiprocess import MultiProcessCollector

# where the app leaves, in a request's environ, what it was asked and by which phone
ROUTE, DEVICE = "boltfair.route", "boltfair.device"
# the folder in which the workers of a server count together
TOGETHER = "PROMETHEUS_MULTIPROC_DIR"
METHODS = ("GET", "HEAD", "POST", "DELETE", "OPTIONS")

ANSWERED = Counter("boltfair_requests", "Requests answered", ["method", "route", "status"])
TOOK = Histogram(
    "boltfair_request_seconds",
    "Time from a request's last byte to its reply",
    ["route"],
    buckets=(0.005, 0.02, 0.1, 0.5, 2.5, 10),
)


class Observer:
    """Notes each request.

    Takes: log, a file's path, "-" for standard error, None for no log. A file that
    was moved away, as a rotation does, is begun anew.
    """

    def __init__(self, log=None):
        self.log = None
        if log:
            handler = logging.StreamHandler(sys.stderr) if log == "-" else WatchedFileHandler(log)
            handler.setFormatter(logging.Formatter("%(message)s"))
            self.log = logging.Logger("boltfair.requests")
            self.log.addHandler(handler)

    def close(self):
        """Let go of the log."""
        for handler in self.log.handlers if self.log else ():
            handler.close()

    def note(self, environ, status, seconds):
        """Note a request that was answered."""
        method = environ["REQUEST_METHOD"] if environ["REQUEST_METHOD"] in METHODS else "other"
        route = environ.get(ROUTE) or "none"
        ANSWERED.labels(method, route, str(status)).inc()
        TOOK.labels(route).observe(seconds)
        if self.log:
            now = datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
            self.log.info(
                "%s %s %s %s %.1f %s", now, method, route, status, seconds * 1000, environ.get(DEVICE) or "-"
            )


def counts():
    """Write the counts of all workers, in the text format that monitoring programs read."""
    if TOGETHER not in os.environ:
        return generate_latest(REGISTRY)
    registry = CollectorRegistry()
    MultiProcessCollector(registry)
    return generate_latest(registry)
