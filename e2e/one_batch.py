"""A batch of eighteen on a phone: what was bought for it, cut, sewn and timed, by the phone's own actions."""

from .shop import act, ask

DAY = "2026-05-02"
SIZE = {"name": "Everyday", "loop": 165, "fullness": 2.8, "tube_width": 45}
LAWN = {"name": "Seagrass lawn", "bolt_width": 1400, "shrink_length": 3, "shrink_width": 2}
LINE = {"name": "Seagrass lawn", "for_what": "Everyday", "length_to_buy": 2600, "cost": 2314}
# 2600 × 0.97 × (1400 × 0.98 − 20) = 3,409,744 mm² for 2314; the cut took 1000 × 1352 less 388 × 1000:
# 654.22; elastic 18 × (165 + 31 + 2 × 20) mm of 50 m for 790: 67.12; thread 18 × 2 × ((482 + 110) × 1.25
# + 2 × 100) × 1.15 mm of 1000 m for 420: 16.34; 17 bags of 100 for 300: 51; 37 minutes at 15.00 an hour: 925
TOTAL = 654 + 67 + 16 + 51 + 925
# 18 less 5 % carry it: 1713 ÷ 17.1
COST_EACH = 100.18


class OneBatch:
    """The ids of its records; the cloth comes as a line of the shopping list, bought with `buy_cloth`."""

    def __init__(self, phone):
        self.phone = phone
        phone.screen.open("/settings")
        self.elastic = self._new("elastic", {"name": "Braided", "roll_length": 50000, "knot_takeup": 31})
        self.size = self._new("piece", {**SIZE, "elastic": self.elastic})
        self.cloth = self._new("cloth", LAWN)
        self.line = self._new("list-line", {**LINE, "cloth": self.cloth, "size": self.size, "quantity": 18})
        self.thread = self._new("thread", {"name": "Sea green", "length": 1000000, "price": 420})
        self.bags = self._new("supply", {"name": "Bags", "use": "packaging", "lasts": 100})
        price = {"price": 600, "group": "Everyday"}
        self.product = self._new("product", {"size": self.size, "cloth": self.cloth, **price})
        self.place = self._new("place", {"name": "Home shelf", "use": "home"})

    def _new(self, kind, fields):
        return act(self.phone, "describeNew", kind, fields)

    def _state(self, kind, fields):
        return act(self.phone, "state", kind, {"day": DAY, **fields})

    def buy_cloth(self):
        """Tick the cloth's line, as in the shop."""
        page = self.phone.screen.open("/buy/list").page
        page.locator(f"#line-{self.line}").tap()
        self.phone.screen.said("Seagrass lawn is in the bag")

    def buy_the_rest(self):
        """Record what was bought beside the cloth."""
        self._state("purchase", {"elastic": self.elastic, "quantity": 1, "amount": 790})
        self._state("purchase", {"thread": self.thread, "quantity": 1, "amount": 420})
        self._state("purchase", {"supply": self.bags, "quantity": 1, "amount": 400, "tax": 100})

    def make(self):
        """Cut and sew eighteen, of which one is spoilt."""
        rest = {"name": "Rest of the lawn", "cloth": self.cloth, "width": 388, "length": 1000}
        offcut = self._new("remnant", rest)
        strips = [{"size": self.size, "quantity": 18}]
        self.cut = self._state(
            "cut", {"cloth": self.cloth, "length": 1000, "lines": strips, "offcuts": [offcut]}
        )
        sewn = [{"size": self.size, "cloth": self.cloth, "product": self.product, "quantity": 18}]
        self.batch = self._new("batch", {"number": "126", "needle": self.thread, "lines": sewn})
        for step, laps in (("Tube", [(18, 27, False)]), ("Knot", [(9, 5, False), (9, 12, True)])):
            rows = [
                {"pieces": pieces, "took_ms": minutes * 60000, "disturbed": disturbed}
                for pieces, minutes, disturbed in laps
            ]
            self._state("batch-step", {"batch": self.batch, "step": step, "laps": rows})
        made = [{"product": self.product, "made": 18, "good": 17}]
        self._state("batch-result", {"batch": self.batch, "place": self.place, "lines": made})


def purchases(phone):
    """List the purchases that stand, as a phone knows them: [(amount, line)]."""
    return [(fact["amount"], fact.get("line")) for fact in ask(phone, "purchases", "notVoided", "purchase")]
