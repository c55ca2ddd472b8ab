"""What she cuts from: her elastic, and of the last cutting days the remnants and strips that are left."""

from random import Random

from .days import at
from .phones import Ids


class CuttingTable:
    """What is cut from which cloth, by a chance of its own."""

    def __init__(self, fixtures, things, began):
        self.things = things
        self.told = fixtures.cutting
        self.ids = Ids(Random(fixtures.year["seed"] + 1))
        self.remnants = {}
        with things.imke.drawing_from(self.ids):
            self.elastic = things.imke.describe("elastic", began, **fixtures.elastic)

    def cut(self, day):
        """Cut what is cut on a day, after what turned up by then is measured."""
        with self.things.imke.drawing_from(self.ids):
            for remnant in self._of(day, "remnants"):
                self._measure(day, **remnant)
            for left in self._of(day, "elastic"):
                self.things.imke.describe("elastic", at(day, "11:00"), self.elastic, **left)
            for cut in self._of(day, "cuts"):
                self._cut(day, **cut)

    def _of(self, day, part):
        rows = [row for row in self.told[part] if row["day"] == day.isoformat()]
        return [{name: row[name] for name in row if name != "day"} for row in rows]

    def _measure(self, day, name, cloth, **size):
        self.remnants[name] = self.things.imke.describe(
            "remnant", at(day, "11:00"), name=name, cloth=self.things.cloth_ids[cloth], **size
        )

    def _cut(self, day, cloth, length, strips, remnant=None):
        lines = [{"size": self.things.sizes[size], "quantity": quantity} for size, quantity in strips.items()]
        used = self.remnants.get(remnant)
        self.things.imke.fact(
            "cut", at(day, "12:00"), day, cloth=self.things.cloth_ids[cloth], length=length, lines=lines,
            **({"remnant": used} if used else {}),
        )  # fmt: skip
        if used:
            self.things.imke.describe("remnant", at(day, "12:00"), used, archived=True)
