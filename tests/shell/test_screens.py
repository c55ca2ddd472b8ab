"""Every screen has its own address, and all of them are the one page."""

import pytest

from backend.shell.core_sources import without_prose


@pytest.mark.parametrize(
    "path",
    ["/", "/index.html", "/buy", "/buy/", "/buy/strip-length", "/make/a/b/c", "/apiary", "/healthz-x", "/ö"],
)
def test_an_address_without_a_file_opens_the_page(visit, path):
    client = visit()
    reply = client.get(path)
    assert reply.status_code == 200
    assert reply.data == client.get("/").data


@pytest.mark.parametrize("path", ["/api", "/api/", "/api/v1", "/api/v1/none", "/healthz/", "/healthz/x"])
def test_an_address_of_the_api_never_opens_the_page(visit, path):
    reply = visit().get(path)
    assert reply.status_code == 404
    assert reply.content_type == "application/problem+json"


def test_an_address_with_more_slashes_leads_nowhere_else(visit):
    for path in ("//example", "//example.com/x", "/buy//x"):
        reply = visit().get("/", environ_overrides={"PATH_INFO": path})
        assert reply.status_code == 200
        assert "Location" not in reply.headers


def test_the_page_carries_the_version_the_worker_and_the_core_have(visit, told):
    client = visit()
    version = told(client)["version"]
    page = client.get("/").get_data(as_text=True)
    assert f'data-version="{version}"' in page
    assert "{{" not in page
    assert client.get("/core.json").get_json()["version"] == version


def test_the_core_is_sent_as_the_very_files_but_for_their_prose(real):
    import backend.core

    folder = backend.core.__path__[0]
    files = real.get("/core.json").get_json()["files"]
    assert {"core/__init__.py", "core/declaring/spec.py", "core/sizing/strip_length.py"} <= files.keys()
    for path, text in files.items():
        assert path.startswith("core/") and path.endswith(".py")
        with open(folder + path.removeprefix("core"), encoding="utf-8") as file:
            assert without_prose(file.read()) == text
