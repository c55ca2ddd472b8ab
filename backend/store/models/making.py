"""What is cut."""

from sqlalchemy.orm import Mapped

from .columns import Day, Fact, Id, Number, Rows


class Cut(Fact):
    """Strips cut from one cloth."""

    __tablename__ = "cut"

    day: Mapped[Day]
    cloth: Mapped[Id]
    remnant: Mapped[Id | None]
    length: Mapped[Number]
    lines: Mapped[Rows]
