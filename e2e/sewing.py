"""What a person does at the sewing machine: a batch from strips that wait, lap by lap, into stock."""

from playwright.sync_api import expect

from .scenario import SIZES
from .shop import act, ask
from .stall import a_cloth

STEPS = ("Sew the tube", "Turn it right side out", "Thread and knot the elastic", "Close the gap")
TOOLS = ("sewing machine", "iron")


class Sewing:
    """The ids of what a phone sews: `size`, `cloth`, `product`, `place`, `person` by their names."""

    def __init__(self, phone):
        phone.screen.open("/make")
        self.place = act(phone, "describeNew", "place", {"name": "Home shelf", "use": "home"})
        self.cloth = act(phone, "describeNew", "cloth", a_cloth("Seagrass lawn"))
        self.size = {name: act(phone, "describeNew", "piece", SIZES[name]) for name in ("Petite", "Everyday")}
        self.product = act(
            phone,
            "describeNew",
            "product",
            {"size": self.size["Everyday"], "cloth": self.cloth, "price": 600, "group": "Everyday"},
        )
        self.person = {name: act(phone, "describeNew", "person", {"name": name}) for name in ("Imke", "Joss")}


def cut_strips(phone, sewing, **strips):
    """Record a cut of strips, by size."""
    lines = [{"size": sewing.size[name], "quantity": quantity} for name, quantity in strips.items()]
    day = ask(phone, "clock", "today")
    return act(phone, "state", "cut", {"day": day, "cloth": sewing.cloth, "length": 1000, "lines": lines})


def bench_with_strips(phone):
    """Cut 48 strips of Everyday, and sign for the day as Imke: the ground of many tests."""
    sewing = Sewing(phone)
    cut_strips(phone, sewing, Everyday=48)
    sign_for(phone, sewing, "Imke")
    return sewing


def start_batch(phone):
    """Start a batch of all strips that wait, by touch; returns its id."""
    page = phone.screen.open("/make").page
    page.locator("[data-start-batch]").tap()
    page.locator("[data-free]").first.wait_for()
    for tick in page.locator("[data-free] input[type=checkbox]").all():
        tick.check()
    page.locator("[data-start]").tap()
    page.locator("[data-unsigned], .make-clock").first.wait_for()
    return page.url.rsplit("/", 1)[1]


def sign_for(phone, sewing, name):
    """Sign both lists for the day as a person, who is at it from now on."""
    for tool in TOOLS:
        signed = {"tool": tool, "cloth": "lawn", "person": name, "day": ask(phone, "clock", "today")}
        act(phone, "state", "checklist-signature", {**signed, "ticked": [], "skipped": ""})
    ask(phone, "store/remembered", "remember", "batch-person", sewing.person[name])


def open_batch(phone, batch):
    page = phone.screen.open(f"/make/batches/{batch}").page
    page.locator(".make-clock").wait_for()
    return page


def begin(page):
    page.locator("[data-begin]").tap()
    page.locator("[data-lap=runs]").wait_for()


def end(page):
    """End the lap that runs, and wait until it is listed."""
    laps = page.locator("[data-laps]")
    before = int(laps.get_attribute("data-laps")) if laps.count() else 0
    page.locator("[data-end]").tap()
    expect(laps).to_have_attribute("data-laps", str(before + 1))


def done(page, step):
    """Find a step's row in the picture of where the batch stands."""
    return page.locator(f'[data-step-of="{step}"]')


def sew_the_rest(page, steps=STEPS):
    """Sew what is left of each step, a lap for all pieces."""
    for step in steps:
        page.locator(".make-clock .total", has_text=step).wait_for()
        if page.locator(".make-clock input").count():
            page.locator(".make-clock input").fill("48")
        begin(page)
        end(page)


def finish(phone, batch, good=None):
    """Record what came of a batch, by touch; `good` of its first line, else all."""
    page = phone.screen.open(f"/make/batches/{batch}/finished").page
    page.locator("[data-made]").first.wait_for()
    if good is not None:
        page.locator('[data-made] input[aria-label$=" good"]').first.fill(str(good))
    for box in page.locator("[data-after]").all():
        box.check()
    page.locator("[data-finish]").tap()
    phone.screen.wait_for_title("Make")


def stock_of(phone):
    return {row["product"]: row["quantity"] for row in ask(phone, "stock", "stock") if row["quantity"]}


def waiting_of(phone):
    return {row["size"]: row["quantity"] for row in ask(phone, "cuts", "stripsWaiting")}
