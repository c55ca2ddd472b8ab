"""What is described of markets: those that recur, attending one, and the plan for it."""

from ..declaring.errors import problem
from ..declaring.spec import NEEDED, Field
from .kinds import ARCHIVED, MOST_LINES, Kind, link, money, quantity, words

DAY_OF_IT = Field("day", "day", "A day it is held on")
# there and back
TRIPS = 2

# what a market costs and when it is open; a booking may differ from its market, which stands for what
# the booking does not say
MARKET_TERMS = [
    link("place", "The place its stock stands at"),
    words("pitch", "Where the stall stands", 40),
    money("fee", "Fee for the pitch", default=None),
    Field("fee_percent", "percent", "Share of takings paid as fee", None, label="share of takings"),
    money("other", "What else it costs each time, beside the fee, the way and expenses you record",
          default=None, label="other costs"),
    Field("opens", "text", "When it opens", None, most=5, shape="time"),
    Field("closes", "text", "When it closes", None, most=5, shape="time"),
    Field("distance_km", "count", "Distance from home, in km", None, label="distance", highest=20000),
    Field("trips", "count", "How often that way is gone each time; 2, there and back, where nothing is said",
          None, highest=100),
    Field("travel_minutes", "minutes", "How long the way takes, one way", None, label="time one way",
          highest=2880),
    Field("set_up_minutes", "minutes", "How long both take together", None,
          label="time to set up and pack up", highest=2880),
    words("note", "More about it"),
]  # fmt: skip
FEES = ("fee", "fee_percent", "other")

PLAN_USES = ("sew", "pack")
PLANNED = [
    link("product", "The product", NEEDED),
    quantity("Pieces of it"),
    Field("batches", "count", "Batches they are sewn in", None, lowest=1, highest=1000),
]


def _packed_for_a_booking(fields):
    if fields["use"] == "pack" and fields["booking"] is None:
        return [problem("booking", "required")]
    return []


DESCRIPTIONS_OF_MARKETS = [
    Kind("market", False, "A market that recurs", [
        Field("name", "text", "What the market is called", most=60, example="Sandholt Quay Saturday"),
        Field("recurrence", "text", "When it recurs, as RFC 5545 writes it", None, shape="recurrence",
              example="FREQ=WEEKLY;BYDAY=SA", most=120),
        Field("first_day", "day", "A day it is held on, to recur from", None),
    ] + MARKET_TERMS + [ARCHIVED], owner_only=FEES),
    Kind("booking", False, "One attendance at a market", [
        link("market", "The market"),
        words("name", "What it is called, where it is no market that recurs", 60),
        Field("days", "list", "The days of it", item=DAY_OF_IT, most=31, fewest=1),
    ] + MARKET_TERMS + [ARCHIVED], helper="make", owner_only=FEES),
    Kind("plan", False, "What an owner decided to sew or to pack", [
        Field("use", "choice", "What it is for", choices=PLAN_USES),
        link("booking", "The booking it is for; a sewing plan may be for none"),
        Field("lines", "list", "How much, by product", fields=PLANNED, most=MOST_LINES, fewest=1),
        ARCHIVED,
    ], also=_packed_for_a_booking),
]  # fmt: skip


def terms_of(booking, market):
    """Put a market's terms where its booking says nothing.

    Takes: booking and market, their fields as `Kind.completed` fills them in, as far as one's role knows
    them; market None where there is none.
    Returns: {field: value} of MARKET_TERMS; trips 2 where neither says any, all else may be None or "".
    """
    terms = {}
    for field in MARKET_TERMS:
        value = booking.get(field.name)
        if (value is None or value == "") and market:
            value = market.get(field.name)
        terms[field.name] = TRIPS if field.name == "trips" and value is None else value
    return terms


def plan_name(use, booking):
    """Write the name whose UUIDv5 within the business is a plan's id: one of each use and booking.

    Takes: use, one of PLAN_USES; booking, its id, None for no booking.
    Source: RFC 9562, section 5.5.
    Example: plan_name("pack", "saturday") == "plan pack saturday"
    """
    return "plan " + use + (" " + booking if booking else "")
