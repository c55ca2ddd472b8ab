"""JSON as it leaves: in the order the core gives, and never NaN or Infinity."""

from flask.json.provider import DefaultJSONProvider


class StrictJSON(DefaultJSONProvider):
    """Flask's JSON, held to RFC 8259: a number that is none is an error here."""

    sort_keys = False

    def dumps(self, obj, **options):
        """Write JSON text. Raises: ValueError for NaN and infinities."""
        return super().dumps(obj, allow_nan=False, **options)
