"""What a batch of a product takes, from the records: pieces, minutes, thread, cloth and elastic."""

from ..catalogue import answer_of_facts
from ..costing.cloth_used import EXACT, area_of_strip
from ..costing.material_used import elastic_of
from ..declaring.errors import Problems
from ..declaring.spec import by_name
from ..making.batch_time import TRAY
from ..making.batch_timing import GUESS, time_given
from ..making.thread_of_plan import thread_for
from ..making.usual_steps import guessed_minutes
from ..planning.strips import strip_of
from ..records.descriptions import CLOTH_NAMES
from .make_next import MADE

DOZEN = 12
MOST_PIECES = by_name(MADE)["batch"].highest
# laps of batches before that times are worked out from: the latest facts
MOST_BEFORE = 200
LAPS, GUESSED, TYPED = "laps", "guess", "typed"
# done anew for each colour, not for each batch
OF_A_COLOUR = ("colour", "thread")


class Taken:
    """What batches take, of each product.

    Takes: recorded, with batches, methods, laps and what is sewn; choices, {"pieces", "minutes_each",
    "threads"} as `next_sewing` reads them.
    """

    def __init__(self, recorded, choices):
        self.recorded, self.choices = recorded, choices
        self.before = recorded.of("batch-step")[-MOST_BEFORE:]
        self.times, self.threads, self.elastics = {}, {}, {}

    def of(self, product):
        """Tell what a batch of a product takes.

        Takes: product, its record, with size and cloth known.
        Returns: {"pieces", "minutes" at the bench, without getting ready for a colour, which takes
        "change"; "minutes_from" laps|guess|typed, "thread" (None where nobody said), "cloth", "area" in mm²
        of washed cloth, "elastic", its id or None, "elastic_length" in mm}.
        """
        size, cloth = product["size"], product["cloth"]
        batch, pieces = self._batch_of(size, cloth)
        pieces = min(self.choices["pieces"] or pieces, MOST_PIECES)
        minutes, change, source = self._minutes(batch["method"] if batch else None, pieces)
        elastic, length = self._elastic(size)
        return {
            "pieces": pieces,
            "minutes": minutes,
            "change": change,
            "minutes_from": source,
            "thread": self._thread(cloth),
            "cloth": cloth,
            "area": self._area(size, cloth, pieces),
            "elastic": elastic,
            "elastic_length": length * pieces,
        }

    def _batch_of(self, size, cloth):
        # the last batch with such strips, else of such a size, else at all: (it, its pieces of the kind)
        for some_size, some_cloth in ((size, cloth), (size, None), (None, None)):
            batch = self._last_of(some_size, some_cloth)
            if batch:
                return batch, _pieces_of(batch, some_size, some_cloth)
        return None, DOZEN

    def _last_of(self, size, cloth):
        return self.recorded.last("batch", lambda batch: _pieces_of(batch, size, cloth))

    def _thread(self, cloth):
        if cloth not in self.threads:
            self.threads[cloth] = thread_for(self.recorded, cloth, self.choices["threads"])
        return self.threads[cloth]

    def _elastic(self, size):
        if size not in self.elastics:
            self.elastics[size] = elastic_of(self.recorded, self.recorded.record("piece", size))
        return self.elastics[size]

    def _minutes(self, method, pieces):
        # (of the batch, of a change of colour, what that is known from)
        key = (method, pieces)
        if key not in self.times:
            self.times[key] = self._timed(self.recorded.record("method", method), pieces)
        minutes, change, source = self.times[key]
        if source == GUESSED and self.choices["minutes_each"] is not None:
            return self.choices["minutes_each"] * pieces, change, TYPED
        return minutes, change, source

    def _timed(self, method, pieces):
        steps = method["steps"] if method else []
        told = time_given({"lines": [{"quantity": pieces}]}, steps, [], self.before, TRAY)
        rows = told["given"]["steps"]
        found = answer_of_facts("batch-time", told["given"])["result"]["steps"]
        minutes = change = 0.0
        for row, step in zip(rows, found):
            if row["per"] in OF_A_COLOUR:
                change += step["standard"]
            else:
                minutes += step["standard"] * (pieces if row["per"] == "piece" else 1)
        if not [row for row in rows if row["per"] in OF_A_COLOUR]:
            change = guessed_minutes({"name": "", "per": "colour"})
        return minutes, change, GUESSED if GUESS in told["sources"] else LAPS

    def _area(self, size, cloth, pieces):
        # rows on the bolt, across its usable width; the strips alone where it is not measured
        piece, bolt = self.recorded.record("piece", size), self.recorded.record("cloth", cloth)
        if piece is None or bolt is None:
            return area_of_strip(self.recorded, size) * pieces
        try:
            length, width = strip_of(piece, EXACT)
            asked = {name: bolt[name] for name in CLOTH_NAMES if bolt[name] is not None}
            asked.update({"strip_length": length, "strip_width": width, "quantity": pieces})
            rows = answer_of_facts("fabric-per-dozen", asked)["result"]
            return rows["washed_length"] * rows["usable_width"]
        except Problems:
            return area_of_strip(self.recorded, size) * pieces


def _pieces_of(batch, size, cloth):
    # of a size, of a cloth, None for any
    pieces = 0
    for line in batch["lines"]:
        if size in (None, line["size"]) and cloth in (None, line["cloth"]):
            pieces += line["quantity"]
    return pieces
