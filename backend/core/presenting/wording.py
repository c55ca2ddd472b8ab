"""The one table that words problems and notes, in the unit shown.

Every rule named anywhere in the core has its template here; `{given}` and
`{limit}` are written in the unit of the screen or, for the API, in the base
unit.
"""

from ..declaring.errors import refuse
from ..declaring.reading import LARGEST, is_number
from ..numbers.money import show_each, show_money
from ..numbers.numerals import decimal, parse
from ..numbers.rounding import ceil, floor, half_up
from ..numbers.units import BASE, read_length, show_length

TEMPLATES = {
    # shape of the input
    "json": "the body is not JSON",
    "depth": "JSON may be nested at most {limit} deep",
    "object": "must be an object with named fields",
    "required": "is needed",
    "unknown": "is not a field here",
    "change": "is not a change: it needs a kind, a record, a stamp and fields",
    "held": "is not what was held: let it be made again from what is saved",
    "fields": "has {given} fields that are not known here; {limit} are",
    "number": "must be a number",
    "decimals": "may have at most {limit} decimals in this currency",
    "huge": "is too large a number",
    "whole": "must be a whole number; {given} given",
    "flag": "must be true or false",
    "text": "must be text",
    "list": "must be a list",
    "choice": "must be one of: {limit}; {given} given",
    "lowest": "must be at least {limit}; {given} given",
    "highest": "must be at most {limit}; {given} given",
    "characters": "may be at most {limit} characters long",
    "date": "must be a date written YYYY-MM-DD, from 2000 to 2199",
    "time": "must be a time of day written HH:MM",
    "id": "must be a UUID in small letters",
    "recurrence": "must be a recurrence rule of RFC 5545, such as FREQ=WEEKLY;BYDAY=SA",
    "unreadable": "has a character that cannot be kept",
    "rows": "may have at most {limit} rows; {given} given",
    "too_few": "needs {limit} or more rows",
    "not_long": "{given} is worked out at once, not by steps",
    "nothing_begun": "nothing was begun that could be worked on",
    "out_of_time": "the {limit} seconds for this were up: it is the best found so far, and its bound holds",
    # sizing
    "limits_crossed": "must not be above the highest fullness, {limit}; {given} given",
    "no_fit": "no whole number of strips across {given} keeps the fullness within its limits",
    "tie_three": "estimated: tie and measure three test knots, and put them in as samples",
    "sample_short": "the loop and tails of this sample are longer than its elastic, by {given}",
    "sample_spread": "the test knots differ by more than a quarter of their mean: tie some more",
    "roll_short": "the roll of {limit} is shorter than one piece of {given}",
    "wraps_alone": "is needed with the other: wraps and bundle diameter go together",
    # buying
    "no_cloth_left": "nothing is left between the selvedges: they and the shrinkage take {given}",
    "no_length_left": "nothing is left: the shrinkage and two straight ends take {given}",
    "fits_neither": "the strip is {given} too long for the usable width of {limit}, both ways",
    "fits_not_across": "across, the strip is {given} longer than the usable width of {limit}",
    "fits_not_along": "along, the strip is {given} wider than the usable width of {limit}",
    "cost_too_high": "would come to {given}; at most {limit} can be worked out",
    "one_increment_more": "only {given} to spare: one increment of {limit} more?",
    "cheapest_metre": "{given} is the cheapest cloth a metre, but not the cheapest a piece",
    "order_shrinkage": "if no cloth shrank, {given} would come first: shrinkage changes the order",
    "order_width": "if all were as wide as {limit}, {given} would come first: width changes the order",
    "order_increment": "cut to the millimetre, {given} would come first: the increment changes the order",
    "order_sewn": "if every piece the cloth gives is sewn, {given} costs least each",
    "too_many_pieces": "would give {given} pieces; at most {limit} are laid out",
    "none_fit": "no strip fits: it is {given} too long for this remnant",
    "no_price": "{given} has no price, so what all of it costs is not known",
    "roll_without_price": "a roll of {given} has no price, so what all of it costs is not known",
    "not_cut_apart": "cannot be freed by straight cuts, each right through its piece",
    "no_size_fits": "no strip of any size fits this remnant",
    # cutting
    "too_many_to_cut": "come to {given} pieces; at most {limit} can be planned at once",
    "cloth_unknown": "names {given}, which is none of the cloths",
    "fits_no_cloth": "fits none of the cloths it may be cut from",
    "cloth_too_short": "the cloth does not reach: some strips are left out",
    "tear_print": "tearing follows the yarn, not the print",
    "rolls_too_few": "the rolls do not reach: some pieces are left out",
    # making
    "minutes_or_observed": "needs minutes or laps, and not both",
    "no_laps": "has no lap left that counts",
    "too_many_left_out": "more than one lap in four is far from the rest: all were counted, so look at them",
    "learning_or_history": "needs a rate or earlier batches, and not both",
    "too_many_turns": "makes {given} trays at all steps; at most {limit} can be worked out: larger trays?",
    "window_ends_first": "must be later than where it begins",
    "windows_cross": "must not be before the end of the one above it",
    "materials_without_wage": "without an hour's wage minutes are compared, and materials left out",
    "too_many_set_ups": "need {given} different set-ups; at most {limit} can be put in order at once",
    "name_twice": "{given} is there twice: with listed set-ups each batch needs a name of its own",
    "batch_unknown": "names {given}, which is none of the batches",
    "set_up_twice": "is listed twice",
    "set_up_missing": "have no minutes for {given} after {limit}",
    "no_spool": "{given} is the colour of none of the spools",
    "spool_without_price": "a spool of {given} has no price, so what all of it costs is not known",
    "bobbin_short": "{given} is less than one piece takes, {limit}",
    "no_sample_does": "{given} bad pieces are the limit: a sample that lets as many pass never finds them",
    # selling
    "too_many_in_basket": "has {given} pieces; at most {limit} can be added up at once",
    "group_or_groups": "needs one group or several groups, and not both",
    "price_or_percent": "needs pieces and their price, or a share off, and not both",
    "offers_of_a_group": "is one offer too many for {given}; a group may be in {limit}",
    "off_too_much": "{given} is more than the {limit} there is",
    "change_short": "the box cannot make it up: {given} is still owed",
    "change_not_proven": "fewer pieces may do: there were too many ways to try them all",
    "less_than_nothing": "{given} more was taken out than came in",
    "not_proven": "so many offers overlap that a cheaper use of them may exist",
    # costing
    "used_before_bought": "more was used than was bought by then: {given} of it at the price before or after",
    "never_bought": "no purchase of {given} is recorded, so what was used of it costs nothing here",
    "one_of_three": "needs a margin, a markup or a price, and one of them only",
    "no_point": "none of them reaches {given}; the highest is {limit}",
    "never_pays": "however many more are sold, it never leaves as much as the full price",
    "never": "a piece of this mix leaves nothing: no number of them pays for the day",
    "no_share": "needs a share above 0 of one product at least",
    "offer_never_pays": "even if all its pieces were extra, the offer left less than full prices",
    "differs": "{given} differs between days with the offer and days without",
    # deciding
    "one_day": "one day tells nothing of the next: there is no verdict yet",
    "markets_as_one": "no market has a second day yet: all are taken as one",
    "rows_of_others": "{given} rows are of products that are not among those that could come: left out",
    "new_market": "no day of this market is known: it is taken to be like the others, and less sure",
    "from_a_guess": "no sale is known: your guess is shared evenly, and the box is only as good as it is",
    "guess_needed": "is needed: no day with sales is known, nor how many will be wanted of each product",
    "mean_capped": "more than {limit} of {given} would be wanted: it is worked out for {limit}",
    "box_too_small": "the box is too small: {given} of the pieces that were to come in any case stay behind",
    # what to sew next
    "named_twice": "{given} is there twice: each needs a name of its own",
    "colour_unknown": "names {given}, which is none of the colours",
    "demand_each": "needs a row for each of the {limit} bookings; {given} given",
    "demand_too_large": "comes to {given} pieces in all; at most {limit} can be worked out",
    # what a piece costs, from the records
    "made_without_cut": "no cut is recorded for {given} of the pieces: their strips count, without waste",
    "cloth_not_measured": "{given} is not measured, so what was bought of it cannot be shared out",
    "elastic_not_named": "no elastic is named for {given} of the pieces: theirs costs nothing here",
    "thread_not_named": "no thread is named for {given} of the pieces: theirs costs nothing here",
    "lasts_not_said": "how many pieces a pack of {given} is for is not said: it costs nothing",
    "made_without_laps": "nobody timed {given} of the {limit} pieces: they count like those that were",
    "never_timed": "nobody timed these pieces: their time costs nothing here",
    "no_wage": "no pay for an hour is set: that time costs nothing here",
    "used_beyond_bought": "more of {given} was used than was bought: the rest is at the price near it",
    # what markets and years came to
    "hours_not_said": "opening hours are not said of {given} of the {limit} bookings that are over: "
    "what an hour earned there is not known",
    "sold_without_cost": "no batch tells what {given} of the pieces sold cost: they cost nothing here",
    "year": "must be a year written YYYY, from 2000 to 2199",
    "no_wage_wanted": "what an hour of your time should earn is not set: say it under Costs",
    # counting
    "without_price": "{given} lines that differ have no price and are not in it",
    # records
    "product_or_size": "needs a product, or a size alone, and not both",
    "same_place": "is the place it comes from",
    "good_above_made": "must not be more than the {limit} made; {given} given",
    "one_material": "needs one of cloth, elastic, thread or another supply, and not several",
    "length_or_quantity": "needs a length for cloth or elastic, else a number of rolls, spools or packs",
    "adds_up": "is {given}, but the notes and coins come to {limit}",
    "role": "may not be written by a helper here: {given}",
    "owner_only": "is for owners only",
    # safety
    "too_many_layers": "not so many at once: {limit} is usual, so take {given} passes",
    "layer_too_thick": "one ply of {given} is more than this tool usually takes, {limit}",
    "blade_due": "{given} cuts made: change or sharpen the blade, usual after about {limit}",
}

PROBLEM = ("field", "rule", "given", "limit", "quantity")

# which way a length's last digit goes, so that what is said holds in any unit
ROUNDED = {
    ("lowest", "limit"): ceil,
    ("highest", "limit"): floor,
    ("sample_short", "given"): ceil,
    ("fits_neither", "given"): ceil,
    ("fits_not_across", "given"): ceil,
    ("fits_not_along", "given"): ceil,
    ("none_fit", "given"): ceil,
}


def word_as_read(item, unit, currency):
    """Word a note about an answer, its numbers as they can be read off."""
    return _worded(item, unit, currency, read_amount)


def word(item, unit="", currency=None):
    """Word a problem or note in the unit shown for its field.

    Example: word(problem("loop", "lowest", 5.0, 10, "length")) ==
    "must be at least 10 mm; 5 mm given"
    """
    return _worded(item, unit, currency, amount)


def _worded(item, unit, currency, write):
    text = TEMPLATES[item["rule"]]
    # the limit first: what is given may be a person's own text, braces and all
    for key in ("limit", "given"):
        mark = "{" + key + "}"
        if mark in text:
            rounded = ROUNDED.get((item["rule"], key), half_up)
            text = text.replace(mark, write(item[key], item["quantity"], unit, currency, rounded))
    return text


def problems_in_words(problems, unit, currency):
    """Word what a call refused, each with its field: "strips come to 2160 pieces; at most …".

    Raises: Problems if that is not what a call tells.
    """
    words = []
    for item in problems:
        if not _is_problem(item):
            refuse("problems", "object")
        field = " ".join([_part_in_words(part) for part in item["field"].split(".")])
        words.append((field + " " + word(item, unit, currency)).strip(" "))
    return "; ".join(words)


def _part_in_words(part):
    number = parse(part)
    if number is None:
        return part.replace("_", " ")
    # rows are counted from one on the screen
    return decimal(number + 1, 0)


def _is_problem(item):
    if not isinstance(item, dict) or [name for name in PROBLEM if name not in item]:
        return False
    texts = isinstance(item["field"], str) and isinstance(item["rule"], str) and item["rule"] in TEMPLATES
    return texts and _can_be_worded(item["given"]) and _can_be_worded(item["limit"])


def _can_be_worded(value):
    return value is None or isinstance(value, str) or (is_number(value) and abs(value) <= LARGEST)


def amount(value, quantity, unit="", currency=None, rounded=half_up):
    """Write a value of a quantity with its unit, exactly; a length's last digit as `rounded` says."""
    if isinstance(value, str) or value is None:
        return value or "nothing"
    if quantity == "length":
        unit = unit or BASE["length"]
        return show_length(value, unit, rounded) + " " + unit
    if quantity in ("money", "money_each"):
        return _money(value, quantity, currency)
    tail = {"percent": " %", "minutes": " min", "ratio": " ×"}.get(quantity, "")
    return decimal(value, 2) + tail


def read_amount(value, quantity, unit, currency, rounded=half_up):
    """Write a value of a quantity as a ruler shows it or coins pay it."""
    if quantity == "length" and is_number(value):
        return read_length(value, unit or BASE["length"], rounded)
    if quantity == "money_each" and is_number(value):
        return show_each(value, currency)
    return amount(value, quantity, unit, currency, rounded)


def _money(value, quantity, currency):
    if currency is None:
        return decimal(value, 2) + " " + BASE[quantity]
    return show_money(value, currency, 2 if quantity == "money_each" else 0) + " " + currency
