"""The one table that words problems and notes, in the unit shown.

Every rule named anywhere in the core has its template here; `{given}` and
`{limit}` are written in the unit of the screen or, for the API, in the base
unit.
"""

from .errors import refuse
from .money import show_money
from .numerals import decimal, parse
from .reading import LARGEST, is_number
from .rounding import ceil, floor, half_up
from .units import BASE, show_length

TEMPLATES = {
    # shape of the input
    "json": "the body is not JSON",
    "depth": "JSON may be nested at most {limit} deep",
    "object": "must be an object with named fields",
    "required": "is needed",
    "unknown": "is not a field here",
    "change": "is not a change: it needs a kind, a record, a stamp and fields",
    "held": "is not what was held: let it be made again from what is kept",
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
    "date": "must be a date written YYYY-MM-DD",
    "time": "must be a time of day written HH:MM",
    "id": "must be a UUID in small letters",
    "recurrence": "must be a recurrence rule of RFC 5545, such as FREQ=WEEKLY;BYDAY=SA",
    "unreadable": "has a character that cannot be kept",
    "rows": "may have at most {limit} rows; {given} given",
    "too_few": "needs at least {limit} row",
    "not_long": "{given} is worked out at once, not by steps",
    "nothing_begun": "nothing was begun that could be worked on",
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
    "no_size_fits": "no strip of any size fits this remnant",
    # cutting
    "too_many_to_cut": "come to {given} pieces; at most {limit} can be planned at once",
    "cloth_unknown": "names {given}, which is none of the cloths",
    "fits_no_cloth": "fits none of the cloths it may be cut from",
    "cloth_too_short": "the cloth does not reach: some strips are left out",
    "tear_print": "tearing follows the yarn, not the print",
    "rolls_too_few": "the rolls do not reach: some pieces are left out",
    # selling
    "too_many_in_basket": "has {given} pieces; at most {limit} can be added up at once",
    "group_or_groups": "needs one group or several groups, and not both",
    "price_or_percent": "needs pieces and their price, or a share off, and not both",
    "offers_of_a_group": "is one offer too many for {given}; a group may be in {limit}",
    "off_too_much": "{given} is more than the {limit} there is to take off",
    "change_short": "the box cannot make it up: {given} is still owed",
    "change_not_proven": "fewer pieces may do: there were too many ways to try them all",
    "less_than_nothing": "{given} more was taken out than came in",
    "not_proven": "so many offers overlap that a cheaper use of them may exist",
    # counting
    "without_price": "{given} lines that differ have no price and are not in it",
    # records
    "product_or_size": "needs a product, or a size alone, and not both",
    "same_place": "is the place it comes from",
    "adds_up": "is {given}, but the notes and coins come to {limit}",
    "role": "may not be written by a helper here: {given}",
    "owner_only": "is for owners only",
    # safety
    "too_many_layers": "more than the usual {limit} at once: take {given} passes",
    "layer_too_thick": "one layer of {given} is more than this tool usually takes, {limit}",
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


def word(item, unit="", currency=None):
    """Word a problem or note in the unit shown for its field.

    Example: word(problem("loop", "lowest", 5.0, 10, "length")) ==
    "must be at least 10 mm; 5 mm given"
    """
    text = TEMPLATES[item["rule"]]
    # the limit first: what is given may be a person's own text, braces and all
    for key in ("limit", "given"):
        mark = "{" + key + "}"
        if mark in text:
            rounded = ROUNDED.get((item["rule"], key), half_up)
            text = text.replace(mark, amount(item[key], item["quantity"], unit, currency, rounded))
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
    """Write a value of a quantity with its unit; a length's last digit as `rounded` says."""
    if isinstance(value, str) or value is None:
        return value or "nothing"
    if quantity == "length":
        unit = unit or BASE["length"]
        return show_length(value, unit, rounded) + " " + unit
    if quantity in ("money", "money_each"):
        return _money(value, quantity, currency)
    tail = {"percent": " %", "minutes": " min", "ratio": " ×"}.get(quantity, "")
    return decimal(value, 2) + tail


def _money(value, quantity, currency):
    if currency is None:
        return decimal(value, 2) + " " + BASE[quantity]
    return show_money(value, currency, 2 if quantity == "money_each" else 0) + " " + currency
