"""What is cut, and what is sewn of it."""

from sqlalchemy.orm import Mapped

from .columns import Choice, Count, Day, Description, Fact, Flag, Id, Number, Rows, Words


class Method(Description):
    """A way to sew a piece, step by step."""

    __tablename__ = "method"

    name: Mapped[Words | None]
    steps: Mapped[Rows | None]
    archived: Mapped[Flag | None]


class Batch(Description):
    """Strips sewn together, and how."""

    __tablename__ = "batch"

    number: Mapped[Words | None]
    method: Mapped[Id | None]
    needle: Mapped[Id | None]
    bobbin: Mapped[Id | None]
    people: Mapped[Count | None]
    lines: Mapped[Rows | None]
    needed: Mapped[Day | None]
    state: Mapped[Choice | None]
    archived: Mapped[Flag | None]


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
    """A cut that is void."""

    __tablename__ = "cut_void"

    day: Mapped[Day]
    cut: Mapped[Id]
    reason: Mapped[Words]


class BatchStep(Fact):
    """Laps of a step of a batch."""

    __tablename__ = "batch_step"

    day: Mapped[Day]
    batch: Mapped[Id]
    step: Mapped[Words]
    person: Mapped[Id | None]
    laps: Mapped[Rows]


class BatchStepVoid(Fact):
    """Laps that are void."""

    __tablename__ = "batch_step_void"

    day: Mapped[Day]
    batch_step: Mapped[Id]
    reason: Mapped[Words]


class BatchResult(Fact):
    """What came of a batch."""

    __tablename__ = "batch_result"

    day: Mapped[Day]
    batch: Mapped[Id]
    place: Mapped[Id]
    lines: Mapped[Rows]


class BatchVoid(Fact):
    """A batch's result that is void."""

    __tablename__ = "batch_void"

    day: Mapped[Day]
    result: Mapped[Id]
    reason: Mapped[Words]


class SampleResult(Fact):
    """What was found in a sample of a batch."""

    __tablename__ = "sample_result"

    day: Mapped[Day]
    batch: Mapped[Id]
    sample: Mapped[Count]
    accept: Mapped[Count]
    limit: Mapped[Number | None]
    found: Mapped[Rows]
    verdict: Mapped[Choice]


class WorkTime(Fact):
    """Time somebody worked, beside the laps of a batch."""

    __tablename__ = "work_time"

    day: Mapped[Day]
    person: Mapped[Id | None]
    what: Mapped[Choice]
    minutes: Mapped[Number]
    booking: Mapped[Id | None]
    batch: Mapped[Id | None]
