"""The sewing room: what is cut on a week's Monday, sewn by Friday, looked at, and put on the shelf."""

from ..catalogue import answer
from ..numbers.calendar import MINUTE_MS, day_of
from ..numbers.numerals import decimal
from .bench import NOT_ASKED

# batches of a day are sewn by one person each, after lunch; on Fridays what was spoilt is told before
BEGINS = "12:30"
# a lap differs by so much either way, and now and then something comes between
LEAST, MOST_MORE = 0.88, 0.24
DISTURBED, DISTURBED_BY = 0.02, 2
# a new method takes a third longer at first, and half of that is gone after so many batches
NEW, LEARNT = 0.33, 4


class SewingRoom:
    """What is sewn and by whom: batches are numbered through, those of one day shared between two people.

    Takes: chance, of its own, so that the stall's stays as it is; began, UTC ms.
    """

    def __init__(self, fixtures, things, chance, began):
        self.things, self.chance = things, chance
        self.told, self.pieces = fixtures["making"], fixtures["year"]["pieces_of_a_batch"]
        self.batches = fixtures["year"]["batches"]
        self.people = (things.imke, things.joss)
        self.methods = [self._describe_method(began, method) for method in self.told["methods"]]
        self.threads = [things.imke.describe("thread", began, thread) for thread in self.told["threads"]]
        self.lengths = {}
        self.waiting, self.sewn = [], 0

    def _describe_method(self, at, method):
        steps = [{name: step[name] for name in step if name != "seconds"} for step in method["steps"]]
        told = {"name": method["name"], "steps": steps}
        return {"id": self.things.imke.describe("method", at, told), "steps": method["steps"], "sewn": 0}

    def cut(self, number, friday, products):
        """Cut a week's batches, a product each; they are sewn from the next day to Friday."""
        for row, product in enumerate(products):
            line = {"size": self.things.sizes[product.size], "quantity": self.pieces}
            made = {"cloth": self.things.cloth_ids[product.cloth], "lines": [line]}
            made["length"] = self._length_of(product)
            at = self.things.clock(number, BEGINS, 900 * row)
            self.things.imke.fact("cut", at, day_of(number), made)
            # Tuesday to Friday, as evenly as there are batches
            self.waiting.append((friday - 3 + 4 * row // len(products), self.people[row % 2], product))

    def _length_of(self, product):
        # what the rows of a batch take of the cloth, washed
        if product.id not in self.lengths:
            [size] = [one for one in self.things.strips if one["name"] == product.size]
            [cloth] = [one for one in self.things.cloths if one["name"] == product.cloth]
            strip = answer("strip-length", {name: size[name] for name in size if name != "name"})["result"]
            asked = {name: cloth[name] for name in cloth if name not in NOT_ASKED}
            asked.update({name: strip[name] for name in ("strip_length", "strip_width")})
            asked["quantity"] = self.pieces
            self.lengths[product.id] = answer("fabric-per-dozen", asked)["result"]["washed_length"]
        return self.lengths[product.id]

    def sew(self, number, shelf):
        """Sew what is due on a day, and put what is good of it on the shelf."""
        for due, phone, product in self.waiting:
            if due == number:
                self._sew(phone, number, product, shelf)
        self.waiting = [row for row in self.waiting if row[0] != number]

    def in_work(self):
        """List the products that are being sewn."""
        return [product.id for _, _, product in self.waiting]

    def _sew(self, phone, number, product, shelf):
        self.sewn += 1
        at, day = self.things.clock(number, BEGINS), day_of(number)
        method = self._method()
        batch = phone.describe("batch", at, self._described(number, product, method))
        for step in method["steps"]:
            laps = self._laps(step, method["sewn"])
            for lap in laps:
                at += lap["took_ms"]
            told = {"batch": batch, "step": step["name"], "laps": laps}
            told["person"] = self.things.people[self.people.index(phone)]
            phone.fact("batch-step", at, day, told)
        method["sewn"] += 1
        bad = self.chance.by_weight(self.told["bad_pieces"], self.told["bad_shares"])
        if self.sewn % self.told["sampled"]["every"] == 0:
            phone.fact("sample-result", at + MINUTE_MS, day, self._sampled(batch, bad))
        line = {"product": product.id, "made": self.pieces, "good": self.pieces - bad}
        result = {"batch": batch, "place": self.things.home, "lines": [line]}
        phone.fact("batch-result", at + 120000, day, result)
        phone.describe("batch", at + 120000, {"state": "finished"}, batch)
        shelf[product.id] += line["good"]

    def _method(self):
        # the new one is tried in the second half of the year, every third batch
        old, new = self.methods
        return new if 2 * self.sewn > self.batches and self.sewn % 3 == 0 else old

    def _described(self, number, product, method):
        thread = self.threads[(self.sewn - 1) % len(self.threads)]
        line = {"size": self.things.sizes[product.size], "cloth": self.things.cloth_ids[product.cloth]}
        line.update({"product": product.id, "quantity": self.pieces})
        told = {"number": decimal(self.sewn, 0), "method": method["id"], "needle": thread, "bobbin": thread}
        told["lines"] = [line]
        coming = [one.day for one in self.things.days if one.number > number]
        if coming:
            told["needed"] = coming[0]
        return told

    def _laps(self, step, sewn):
        slow = 1 + NEW * LEARNT / (LEARNT + sewn)
        if step.get("per") == "thread":
            return [{"pieces": 1, "took_ms": self._took(step["seconds"])}]
        laps, tray = [], self.told["tray"]
        for _ in range(self.pieces // tray):
            lap = {"pieces": tray, "took_ms": self._took(tray * step["seconds"] * slow)}
            if self.chance.draw() < DISTURBED:
                lap.update({"took_ms": DISTURBED_BY * lap["took_ms"], "disturbed": True})
            laps.append(lap)
        return laps

    def _took(self, seconds):
        # told in tenths of a second
        return 100 * int(10 * seconds * (LEAST + MOST_MORE * self.chance.draw()))

    def _sampled(self, batch, bad):
        sampled, found = self.told["sampled"], []
        if self.chance.draw() * self.pieces < bad * sampled["sample"]:
            found.append({"fault": self.chance.one_of(sampled["faults"]), "quantity": 1})
        told = {name: sampled[name] for name in ("sample", "accept", "limit")}
        told.update({"batch": batch, "found": found, "verdict": "reject" if found else "accept"})
        return told
