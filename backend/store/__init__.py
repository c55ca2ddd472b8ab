"""What is kept: the log of changes and the tables made of it. The only SQL."""

from .database import Unavailable, can_write, close, opened, prepare, reading, register, writing

__all__ = ["Unavailable", "can_write", "close", "opened", "prepare", "reading", "register", "writing"]
