"""Markets, attending them, and what is planned for them."""

from sqlalchemy.orm import Mapped

from .columns import Choice, Count, Day, Description, Flag, Id, Money, Number, Rows, Words


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
    other: Mapped[Money | None]
    opens: Mapped[Words | None]
    closes: Mapped[Words | None]
    distance_km: Mapped[Count | None]
    trips: Mapped[Count | None]
    travel_minutes: Mapped[Number | None]
    set_up_minutes: Mapped[Number | None]
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
    other: Mapped[Money | None]
    opens: Mapped[Words | None]
    closes: Mapped[Words | None]
    distance_km: Mapped[Count | None]
    trips: Mapped[Count | None]
    travel_minutes: Mapped[Number | None]
    set_up_minutes: Mapped[Number | None]
    note: Mapped[Words | None]
    archived: Mapped[Flag | None]


class Plan(Description):
    """What an owner decided to sew or to pack."""

    __tablename__ = "plan"

    use: Mapped[Choice | None]
    booking: Mapped[Id | None]
    lines: Mapped[Rows | None]
    archived: Mapped[Flag | None]
