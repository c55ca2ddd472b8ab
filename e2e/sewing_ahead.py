"""A maker with two bookings ahead and one product: what to sew is planned from that, by touch."""

from datetime import date, timedelta

from .scenario import SIZES
from .shop import act, ask
from .stall import a_cloth

# two batches are ready for each of them
GUESS, HOURS = 60, 6
ELASTIC = {"name": "Braided, 6 mm", "roll_length": 50000, "price": 790, "knot_takeup": 31, "rolls": 1}


class Ahead:
    """The ids of what is planned for: `size`, `cloth`, `product`, `thread`, `quay`, `fair`, `home`."""

    def __init__(self, phone):
        phone.screen.open("/make")
        self.today = ask(phone, "clock", "today")

        def describe(kind, **fields):
            return act(phone, "describeNew", kind, fields)

        self.home = describe("place", name="Home shelf", use="home")
        self.stall = describe("place", name="Stall", use="stall")
        self.size = describe("piece", **SIZES["Everyday"])
        self.cloth = describe("cloth", **a_cloth("Seagrass lawn"))
        self.thread = describe("thread", name="Sea green", length=1000000)
        describe("elastic", **ELASTIC)
        self.product = describe("product", size=self.size, cloth=self.cloth, price=600, group="Everyday")
        lines = [{"size": self.size, "cloth": self.cloth, "quantity": 24}]
        describe("batch", number="1", needle=self.thread, lines=lines, state="finished")
        self.quay = describe("booking", name="Quay", days=[self.day(5)], place=self.stall)
        self.fair = describe("booking", name="Fair", days=[self.day(12), self.day(13)], place=self.stall)

    def day(self, ahead):
        """Tell the local day so many days on."""
        return str(date.fromisoformat(self.today) + timedelta(days=ahead))


def open_plan(phone, guess=GUESS, hours=HOURS):
    """Open what to sew, say what is guessed, and wait until the best is found; returns the page."""
    page = phone.screen.open("/review/sew").page
    for name, number in (("Hours at the bench in a week", hours), ("Pieces at a market", guess)):
        page.get_by_label(name, exact=True).fill(str(number))
    page.locator("[data-looking=false]").wait_for()
    return page


def make_plan(phone):
    """Make what is found the sewing plan; returns the page of Make."""
    page = open_plan(phone)
    page.locator("[data-make-plan]").tap()
    phone.screen.wait_for_title("Make")
    page.locator("[data-sewing-plans]").wait_for()
    return page
