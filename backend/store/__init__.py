"""What is kept: the log of changes and the tables made of it. The only SQL."""

from .database import close, opened, prepare, reading, register, writing

__all__ = ["close", "opened", "prepare", "reading", "register", "writing"]
