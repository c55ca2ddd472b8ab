"""thread: how much sewing thread so many pieces take, by colour, and what of it to buy."""

import math

from ..declaring.errors import Problems, note, problem, refuse
from ..declaring.spec import Calculator, Field
from ..numbers.money import add_up
from ..numbers.rounding import at_most, ceil, floor

# needle or bobbin thread for each length of seam, where neither a sample nor the cloth's thickness is known
USUAL_RATIO = {"301": 1.25, "304": 2.75}
MM_PER_KM = 1000000
LONGEST = 100000000  # mm: a hundred cones of a kilometre
LEAST = 0.001  # mm: of less a piece no thread is used
MOST_PRICE = 100000000
MOST_COST = 1000000000000  # minor units; whole numbers stay exact on both runtimes

SAMPLE = [
    Field("length", "length", "Length of the seam that was unpicked", lowest=10, highest=10000, example=500),
    Field("needle", "length", "Needle thread in it", example=640),
    Field("bobbin", "length", "Bobbin thread in it", example=620),
]

SEAM = [
    Field("name", "text", "What you call the seam", most=60, example="Side seam"),
    Field("length", "length", "Its length", lowest=1, highest=10000, example=482),
    Field("count", "count", "How many of it are in a piece", 1, highest=100),
    Field("stitch", "choice", "Stitch: 301 is lockstitch, 304 zigzag lockstitch (ISO 4915)", "301",
          choices=("301", "304", "other"), choice_words=("straight", "zigzag", "another")),
    Field("stitch_length", "length", "Length of a stitch", 2.5, lowest=0.5, highest=20),
    Field("thickness", "length", "Thickness of all plies that are sewn", None, highest=50),
    Field("width", "length", "Width of a zigzag", 3, highest=50),
    Field("sample", "object", "Threads of a seam that was unpicked", None, fields=SAMPLE),
]  # fmt: skip

COLOURS = [
    Field("needle", "text", "Colour of the needle thread", most=60, example="Seagrass"),
    Field("bobbin", "text", "Colour of the bobbin thread; the needle's if left out", None, most=60),
    Field("quantity", "count", "Pieces in it", lowest=1, example=48),
]

WEIGHED = [
    Field("grams", "number", "What the opened spool weighs, in grams", highest=10000, example=34),
    Field("empty", "number", "What an empty one weighs, in grams", highest=10000, example=10),
    Field("tex", "number", "Grams in a kilometre of it", lowest=1, highest=1000, example=40),
]

SPOOL = [
    Field("colour", "text", "Its colour", most=60, example="Seagrass"),
    Field("length", "length", "Thread on a new spool", lowest=1000, highest=LONGEST, unit="m",
          example=1000000),
    Field("at_home", "length", "Thread of it that is at home, or what its spool weighs", 0,
          highest=LONGEST, unit="m", instead=WEIGHED),
    Field("price", "money", "Price of a new spool", None, highest=MOST_PRICE),
]  # fmt: skip

INPUTS = [
    Field("seams", "list", "The seams of one piece", fields=SEAM, most=12, fewest=1),
    Field("tail", "length", "Thread cut off at the ends of each seam, of each thread", 100, highest=2000),
    Field("waste", "percent", "Thread lost to breaks and trials", 15),
    Field("bobbin_length", "length", "Thread that a bobbin holds", None, lowest=100, highest=LONGEST,
          unit="m", example=30000),
    Field("colours", "list", "The pieces, colour by colour", fields=COLOURS, most=20, fewest=1),
    Field("spools", "list", "The spools, by colour", fields=SPOOL, most=20),
]  # fmt: skip

EACH = [
    Field("needle", "length", "Needle thread"),
    Field("bobbin", "length", "Bobbin thread"),
    Field("total", "length", "Both"),
]

TOLD_COLOUR = [
    Field("colour", "text", "The colour"),
    Field("length", "length", "What the pieces take of it", unit="m", rounded=ceil),
    Field("from_home", "length", "What of that is at home", unit="m", rounded=floor),
    Field("spools", "count", "Spools to buy"),
    Field("spool", "count", "Which of the spools given, its row from 0"),
    Field("cost", "money", "What they cost", None),
]

OUTPUTS = [
    Field("each", "object", "Thread in one piece, waste included", fields=EACH),
    Field("colours", "list", "By colour, as they are first named", fields=TOLD_COLOUR, most=40),
    Field("pieces_per_bobbin", "count", "Pieces that a full bobbin sews", None,
          formula="{bobbin_length} ÷ the bobbin thread in a piece, rounded down"),
    Field("bobbins", "count", "Full bobbins, each colour with its own", None,
          formula="the pieces of each bobbin colour ÷ {pieces_per_bobbin}, each rounded up"),
    Field("refills", "count", "Times a bobbin runs out before its colour is done", None,
          formula="{bobbins} less one of each bobbin colour"),
    Field("cost", "money", "What all the spools cost", None,
          formula="the spools to buy of each colour × their price"),
]  # fmt: skip


def work(given):
    """Work out the thread in a piece, what colours of it take, and the spools to buy.

    Thread for each length of seam is what an unpicked sample shows; else, where the
    thickness is known, by the geometry of the stitch; else the usual ratio. A piece
    takes (length × ratio + tail) × count of each seam, and the waste.
    What is at home of a colour is used first. Of several spools of one colour that is
    bought which costs least for what is missing, then the one listed first; one
    without a price only where none has one.
    Returns: lengths in mm; cost None where a spool to buy has no price; the figures
    of bobbins None without `bobbin_length`.
    Raises: Problems naming each seam of another stitch without a sample, each colour
    without a spool, each spool that weighs less than an empty one, and a bobbin that
    does not hold the thread of one piece.
    Source: stitch types of ISO 4915; geometry of a lockstitch that meets in the middle
    of the plies: 1 + thickness ÷ stitch; tex is grams a kilometre (ISO 1144); usual
    ratios 2.5 and 5.5 for both threads together, from thread makers' guides.
    """
    _refuse_what_is_not_known(given)
    needle, bobbin = _each(given, "needle"), _each(given, "bobbin")
    per_bobbin, bobbins, refills = _bobbins(given, bobbin)
    colours, notes = [], []
    for name in _colour_names(given):
        length = 0.0
        for row in given["colours"]:
            length += needle * row["quantity"] if row["needle"] == name else 0.0
            length += bobbin * row["quantity"] if _bobbin_colour(row) == name else 0.0
        told = spools_for(name, length, given["spools"])
        if told["cost"] is None:
            notes.append(note("cost", "spool_without_price", name))
        colours.append(told)
    costs = [row["cost"] for row in colours]
    result = {
        "each": {"needle": needle, "bobbin": bobbin, "total": needle + bobbin},
        "colours": colours,
        "pieces_per_bobbin": per_bobbin,
        "bobbins": bobbins,
        "refills": refills,
        "cost": None if None in costs else add_up(costs),
    }
    return result, notes


def _refuse_what_is_not_known(given):
    problems = []
    for number, seam in enumerate(given["seams"]):
        if seam["stitch"] == "other" and seam["sample"] is None:
            problems.append(problem("seams." + str(number) + ".sample", "required", quantity="object"))
    known = [spool["colour"] for spool in given["spools"]]
    for number, row in enumerate(given["colours"]):
        for thread in ("needle", "bobbin"):
            if row[thread] is not None and row[thread] not in known:
                problems.append(problem("colours." + str(number) + "." + thread, "no_spool", row[thread]))
    for number, spool in enumerate(given["spools"]):
        weighed = spool["at_home"]
        if isinstance(weighed, dict) and weighed["grams"] < weighed["empty"]:
            field = "spools." + str(number) + ".at_home.grams"
            problems.append(problem(field, "lowest", weighed["grams"], weighed["empty"], "number"))
    if problems:
        raise Problems(problems)


def _each(given, thread):
    # mm of one thread in a piece
    length = 0.0
    for seam in given["seams"]:
        length += (seam["length"] * _ratio(seam, thread) + given["tail"]) * seam["count"]
    return length * (1 + given["waste"] / 100)


def _ratio(seam, thread):
    # thread for each length of seam, by the first that is known
    if seam["sample"] is not None:
        return seam["sample"][thread] / seam["sample"]["length"]
    stitch, thickness = seam["stitch_length"], seam["thickness"]
    if thickness is None:
        return USUAL_RATIO[seam["stitch"]]
    if seam["stitch"] == "301":
        return 1 + thickness / stitch
    return (math.sqrt(stitch * stitch + seam["width"] * seam["width"]) + thickness) / stitch


def _bobbin_colour(row):
    return row["needle"] if row["bobbin"] is None else row["bobbin"]


def _colour_names(given):
    names = []
    for row in given["colours"]:
        for name in (row["needle"], _bobbin_colour(row)):
            if name not in names:
                names.append(name)
    return names


def at_home(name, spools):
    """Tell how much of one colour is at home in mm, its opened spool by length or by weight."""
    home = 0.0
    for spool in spools:
        home += _at_home(spool) if spool["colour"] == name else 0.0
    return home


def _at_home(spool):
    held = spool["at_home"]
    if isinstance(held, dict):
        return (held["grams"] - held["empty"]) / held["tex"] * MM_PER_KM
    return held


def spools_for(name, length, spools):
    """Take what is at home of one colour, and say how many spools of which to buy for the rest.

    Takes: length, mm that are needed; spools, rows as the calculator takes them.
    Returns: {"colour", "length", "from_home", "spools", "spool": which row, "cost"}; cost None where
    the spool has no price.
    """
    home, best = at_home(name, spools), None
    missing = 0.0 if at_most(length, home) else length - home
    for number, spool in enumerate(spools):
        if spool["colour"] == name:
            count = ceil(missing / spool["length"])
            cost = None if spool["price"] is None else count * spool["price"]
            if best is None or cost is not None and (best[1] is None or cost < best[1]):
                best = (count, cost, number)
    count, cost, number = best
    if cost is not None and cost > MOST_COST:
        refuse("spools." + str(number) + ".price", "cost_too_high", cost, MOST_COST, "money")
    return {
        "colour": name,
        "length": length,
        "from_home": min(length, home),
        "spools": count,
        "spool": number,
        "cost": cost if count else 0,
    }


def _bobbins(given, each):
    # pieces a bobbin, bobbins, refills: each colour begins with a full one
    if given["bobbin_length"] is None or each < LEAST:
        return None, None, None
    pieces = floor(given["bobbin_length"] / each)
    if not pieces:
        refuse("bobbin_length", "bobbin_short", given["bobbin_length"], each, "length")
    wanted = {}
    for row in given["colours"]:
        name = _bobbin_colour(row)
        wanted[name] = wanted.get(name, 0) + row["quantity"]
    names = [name for name in _colour_names(given) if name in wanted]
    bobbins = add_up([-(-wanted[name] // pieces) for name in names])
    return pieces, bobbins, bobbins - len(names)


CALCULATOR = Calculator(
    "thread",
    "Thread",
    "How much sewing thread so many pieces take, colour by colour, and what of it to buy.",
    INPUTS,
    OUTPUTS,
    work,
    main=("each", "colours", "refills"),
)
