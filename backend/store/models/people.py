"""The business, who works in it, with which phones, and what they signed."""

from sqlalchemy.orm import Mapped

from .columns import Choice, Count, Day, Description, Fact, Flag, Number, Rows, Words


class Business(Description):
    """The business."""

    __tablename__ = "business"

    name: Mapped[Words | None]
    currency: Mapped[Choice | None]
    cash_rounding: Mapped[Count | None]
    denominations: Mapped[Rows | None]
    card_fee: Mapped[Number | None]


class Person(Description):
    """Somebody who sells, counts or signs."""

    __tablename__ = "person"

    name: Mapped[Words | None]
    archived: Mapped[Flag | None]


class DeviceName(Description):
    """What a phone is called."""

    __tablename__ = "device_name"

    name: Mapped[Words | None]


class ChecklistSignature(Fact):
    """A safe-working checklist signed for the day."""

    __tablename__ = "checklist_signature"

    tool: Mapped[Choice]
    cloth: Mapped[Choice]
    person: Mapped[Words]
    day: Mapped[Day]
    ticked: Mapped[Rows]
    skipped: Mapped[Words]
