"""Whatever goes wrong leaves as problem details, and says nothing of the inside."""

import pytest

from backend.app import create_app


@pytest.mark.parametrize(
    "path",
    ["/api", "/api/", "/api/v1", "/api/v1/calculators/nope", "/api/v2/calculators", "/healthz/x", "/no.js",
     "/vendor/none.mjs", "/api/v1/calculators/strip-length/", "/api/v1//calculators"],
)  # fmt: skip
@pytest.mark.parametrize("method", ["GET", "POST", "DELETE"])
def test_what_is_not_there_is_not_found_whatever_the_method(client, is_problem, path, method):
    reply = client.open(path, method=method)
    if method != "GET" and not path.startswith(("/api", "/healthz")):
        is_problem(reply, 405)
    else:
        assert is_problem(reply, 404)["instance"] == path


@pytest.mark.parametrize("path", ["/", "/buy/strip-length", "/app.js", "/healthz", "/api/v1/calculators"])
def test_a_method_that_is_not_allowed_is_told_which_are(client, is_problem, path):
    reply = client.post(path)
    is_problem(reply, 405)
    assert set(reply.allow) == {"GET", "HEAD", "OPTIONS"}


def test_the_address_in_a_problem_is_written_as_a_uri(client, is_problem):
    told = is_problem(client.get("/api/v1/" + "b%C3%A4nd%20%22x%22"), 404)
    assert told["instance"] == "/api/v1/b%C3%A4nd%20%22x%22"


def test_a_failure_nobody_foresaw_leaks_nothing(is_problem):
    app = create_app()

    @app.get("/api/breaks")
    def breaks():
        raise RuntimeError("the secret path is /srv/keys")

    @app.get("/api/not-a-number")
    def not_a_number():
        return {"cost": float("nan")}

    app.logger.disabled = True
    for path in ("/api/breaks", "/api/not-a-number"):
        reply = app.test_client().get(path)
        is_problem(reply, 500)
        for leak in (b"secret", b"srv", b"Error:", b"Traceback", b"float", b"NaN"):
            assert leak not in reply.data
        assert reply.headers["Content-Security-Policy"]
