"""The envelope of a change: what each says beside the fields of its kind."""

from ..declaring.spec import NEEDED, Field

# the version of the records that are made now
SCHEMA = 1

ENVELOPE = [
    Field("id", "id", "Its name"),
    Field("kind", "text", "Its kind"),
    Field("fields", "object", "What it says"),
    Field("record", "id", "The record described; a fact has none", None),
    Field("at", "instant", "When it happened, UTC ms"),
    Field("stamp", "text", "{ms}-{counter}-{device}", shape="stamp"),
    Field("schema", "count", "The version of the records it is of", lowest=1, highest=SCHEMA),
    Field("replaces", "id", "The rejected change this corrects", None),
]
# a phone whose clock is wrong is believed so far beyond the time at which its change arrives
MOST_AHEAD_MS = 48 * 3600 * 1000
NAMES = tuple([field.name for field in ENVELOPE])
ALWAYS = tuple([field.name for field in ENVELOPE if field.default == NEEDED])
