"""Fairs, and attending them."""

from sqlalchemy.orm import Mapped

from .columns import Count, Day, Description, Flag, Id, Money, Number, Rows, Words


class Market(Description):
    """A market that recurs."""

    __tablename__ = "market"

    name: Mapped[Words | None]
    recurrence: Mapped[Words | None]
    first_day: Mapped[Day | None]
    place: Mapped[Id | None]
    pitch: Mapped[Words | None]
    fee: Mapped[Money | None]
    fee_percent: Mapped[Number | None]
    opens: Mapped[Words | None]
    closes: Mapped[Words | None]
    distance_km: Mapped[Count | None]
    note: Mapped[Words | None]
    archived: Mapped[Flag | None]


class Booking(Description):
    """One attendance at a market."""

    __tablename__ = "booking"

    market: Mapped[Id | None]
    name: Mapped[Words | None]
    days: Mapped[Rows | None]
    place: Mapped[Id | None]
    pitch: Mapped[Words | None]
    fee: Mapped[Money | None]
    fee_percent: Mapped[Number | None]
    opens: Mapped[Words | None]
    closes: Mapped[Words | None]
    distance_km: Mapped[Count | None]
    note: Mapped[Words | None]
    archived: Mapped[Flag | None]
