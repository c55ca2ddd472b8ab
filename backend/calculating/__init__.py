"""Long calculations, each in a process of its own and against a clock."""

from .processes import Busy, Gone, TookTooLong, answer, end_all

__all__ = ["Busy", "Gone", "TookTooLong", "answer", "end_all"]
