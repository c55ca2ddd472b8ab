"""What she cuts from: her elastic, and of the last cutting days the remnants and strips that are left."""


class CuttingTable:
    """What is cut from which cloth; the fixtures tell days by how many weeks before the last one they are."""

    def __init__(self, fixtures, things, began):
        self.things = things
        self.told = fixtures["cutting"]
        self.remnants = {}
        self.elastic = things.imke.describe("elastic", began, fixtures["elastic"])

    def cut(self, number, day, weeks_ago):
        """Cut what is cut on a day, after what turned up by then is measured."""
        morning, noon = [self.things.clock(number, clock) for clock in ("11:00", "12:00")]
        for remnant in self._of(weeks_ago, "remnants"):
            told = dict(remnant)
            told["cloth"] = self.things.cloth_ids[remnant["cloth"]]
            self.remnants[remnant["name"]] = self.things.imke.describe("remnant", morning, told)
        for left in self._of(weeks_ago, "elastic"):
            self.things.imke.describe("elastic", morning, left, self.elastic)
        for cut in self._of(weeks_ago, "cuts"):
            self._cut(noon, day, cut)

    def _of(self, weeks_ago, part):
        rows = [row for row in self.told[part] if row["weeks_ago"] == weeks_ago]
        return [{name: row[name] for name in row if name != "weeks_ago"} for row in rows]

    def _cut(self, noon, day, cut):
        lines = [
            {"size": self.things.sizes[strips["size"]], "quantity": strips["quantity"]}
            for strips in cut["strips"]
        ]
        made = {"cloth": self.things.cloth_ids[cut["cloth"]], "length": cut["length"], "lines": lines}
        used = self.remnants.get(cut.get("remnant"))
        if used:
            made["remnant"] = used
        self.things.imke.fact("cut", noon, day, made)
        if used:
            self.things.imke.describe("remnant", noon, {"archived": True}, used)
