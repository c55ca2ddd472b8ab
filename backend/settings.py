"""What a server is told from outside, in one place.

`boltfair serve` hands its options to its workers in the environment; anything
else that runs the app can set the same variables.
"""

import contextlib
import os
from pathlib import Path

DATA = Path.home() / "boltfair-data"


class Settings:
    """The data folder, the database, the names reached by, and whether a proxy stands in front.

    Takes: data, the folder for all that is kept; database_url, None for SQLite
    in the data folder; names, host names beside localhost and IP addresses;
    log, where a line is written for each request: a file, "-" for standard error, None for nowhere;
    demo, true for a server that shows the invented year alone.
    """

    def __init__(self, data=DATA, database_url=None, names=(), behind_proxy=False, log=None, demo=False):
        self.data = Path(data)
        self.database_url = database_url
        self.names = tuple(names)
        self.behind_proxy = behind_proxy
        self.log = log
        self.demo = demo

    @property
    def address(self):
        """Where phones reach the server: as it was last started, or as it is usually."""
        with contextlib.suppress(OSError):
            return (self.data / "address").read_text(encoding="utf-8").strip()
        return "http://localhost:8080"

    @address.setter
    def address(self, origin):
        self.data.mkdir(parents=True, exist_ok=True, mode=0o700)
        (self.data / "address").write_text(origin + "\n", encoding="utf-8")

    @property
    def url(self):
        """The database as SQLAlchemy addresses it."""
        if not self.database_url:
            return f"sqlite:///{(self.data / 'boltfair.db').absolute()}"
        scheme, found, rest = self.database_url.partition("://")
        return (
            f"postgresql+psycopg://{rest}"
            if found and scheme in ("postgres", "postgresql")
            else self.database_url
        )

    def to_environment(self):
        """Write the settings as environment variables."""
        return {
            "BOLTFAIR_DATA": str(self.data),
            "BOLTFAIR_NAMES": " ".join(self.names),
            "BOLTFAIR_BEHIND_PROXY": "yes" if self.behind_proxy else "",
            "BOLTFAIR_LOG": self.log or "",
            "BOLTFAIR_DEMO": "yes" if self.demo else "",
            # said even where it is none: one that stands in the environment is another's
            "DATABASE_URL": self.database_url or "",
        }


def from_environment(environment=os.environ):
    """Read the settings from environment variables; what is not set has its usual value."""
    return Settings(
        environment.get("BOLTFAIR_DATA") or DATA,
        environment.get("DATABASE_URL") or None,
        environment.get("BOLTFAIR_NAMES", "").split(),
        environment.get("BOLTFAIR_BEHIND_PROXY") == "yes",
        environment.get("BOLTFAIR_LOG") or None,
        environment.get("BOLTFAIR_DEMO") == "yes",
    )
