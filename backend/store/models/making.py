"""What is cut."""

from sqlalchemy.orm import Mapped

from .columns import Day, Fact, Id, Number, Rows, Words


class Cut(Fact):
    """Strips cut from one cloth."""

    __tablename__ = "cut"

    day: Mapped[Day]
    cloth: Mapped[Id]
    remnant: Mapped[Id | None]
    length: Mapped[Number]
    lines: Mapped[Rows]
    offcuts: Mapped[Rows]


class CutVoid(Fact):
    """A cut that never happened."""

    __tablename__ = "cut_void"

    day: Mapped[Day]
    cut: Mapped[Id]
    reason: Mapped[Words]
