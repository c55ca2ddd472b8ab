"""From a request to JSON values: type, size, packing, text, then JSON."""

import gzip
import io
import zlib

from webargs.flaskparser import FlaskParser
from werkzeug.exceptions import BadRequest, RequestEntityTooLarge, UnsupportedMediaType

from ..core.declaring.errors import Problems
from ..core.declaring.reading import MOST_BYTES, load
from ..core.presenting.wording import word

# of an exchange, which has many records
MOST_EXCHANGED_BYTES = 4 * MOST_BYTES
# what is sent may be a little larger than what it holds: gzip has a frame of its own
MOST_RAW_BYTES = MOST_EXCHANGED_BYTES + 4096
# strangers ask calculators, none of which reads more than MOST_BYTES
MOST_RAW_BYTES_OF_STRANGERS = MOST_BYTES + 4096


class BodyParser(FlaskParser):
    """Reads bodies with the core's bounds and reports bad fields as the core does."""

    def load_json(self, req, schema):
        """Read the JSON body of a request."""
        return read_body(req)

    def handle_error(self, error, req, schema, *, error_status_code, error_headers):
        """Pass on the problems found by a schema made in schemas.py."""
        raise Problems(error.problems)


def read_body(request, load=load, most=MOST_BYTES):
    """Read a request's body as JSON values.

    Takes: load, what parses the text; it raises Problems for what it refuses;
    most, bytes.

    Raises: UnsupportedMediaType, RequestEntityTooLarge, and BadRequest for what
    is not UTF-8, not JSON, nested too deep or a number without end.
    """
    if request.mimetype != "application/json":
        raise UnsupportedMediaType("send the body as application/json")
    try:
        return load(_unpacked(request, most).decode())
    except UnicodeDecodeError:
        raise BadRequest("the body is not UTF-8") from None
    except Problems as error:
        raise BadRequest(word(error.problems[0])) from None


def _unpacked(request, most):
    encoding = request.headers.get("Content-Encoding", "identity").strip().lower()
    if encoding not in ("identity", "gzip"):
        raise UnsupportedMediaType("send the body as it is, or packed with gzip")
    body = request.get_data(cache=False)
    if encoding == "gzip":
        body = _inflate(body, most)
    if len(body) > most:
        raise RequestEntityTooLarge(f"a body may be at most {most} bytes, unpacked")
    return body


def _inflate(packed, most):
    try:
        # one byte more than allowed is enough to know, whatever it would grow to
        return gzip.GzipFile(fileobj=io.BytesIO(packed)).read(most + 1)
    except (OSError, EOFError, zlib.error):
        raise BadRequest("the body is not gzip") from None
