"""The business, who works in it, with which phones, what they signed and what owners leave out."""

from sqlalchemy.orm import Mapped

from .columns import Choice, Count, Day, Description, Fact, Flag, Id, Money, Number, Rows, Words


class Business(Description):
    """The business."""

    __tablename__ = "business"

    name: Mapped[Words | None]
    currency: Mapped[Choice | None]
    cash_rounding: Mapped[Count | None]
    denominations: Mapped[Rows | None]
    card_fee: Mapped[Number | None]
    tax_percent: Mapped[Number | None]
    points: Mapped[Rows | None]
    per_km: Mapped[Money | None]
    address: Mapped[Words | None]
    bench_monday: Mapped[Number | None]
    bench_tuesday: Mapped[Number | None]
    bench_wednesday: Mapped[Number | None]
    bench_thursday: Mapped[Number | None]
    bench_friday: Mapped[Number | None]
    bench_saturday: Mapped[Number | None]
    bench_sunday: Mapped[Number | None]


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


class FoundRight(Fact):
    """What a helper undid or gave back, that an owner found right."""

    __tablename__ = "found_right"

    day: Mapped[Day]
    fact: Mapped[Id]


class LeftOut(Fact):
    """A fact that an owner leaves out: it counts for nothing."""

    __tablename__ = "left_out"

    day: Mapped[Day]
    fact: Mapped[Id]
    reason: Mapped[Words]
