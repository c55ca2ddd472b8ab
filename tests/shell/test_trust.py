"""The page that says how a phone comes to trust this machine."""

import pytest

from backend.shell import certificates
from backend.shell.trust import CERTIFICATE, create_trust_app


@pytest.fixture
def made(tmp_path):
    return certificates.prepare(tmp_path, "192.168.1.20")


@pytest.fixture
def client(made):
    return create_trust_app(made, "https://192.168.1.20:8080/").test_client()


def test_the_page_offers_the_certificate_and_says_what_to_compare_and_where_to_go(client, made):
    page = client.get("/").get_data(as_text=True)
    assert f'href="{CERTIFICATE}"' in page
    assert made.fingerprint() in page
    assert 'href="https://192.168.1.20:8080/"' in page
    assert "$" not in page


def test_the_certificate_comes_as_phones_take_it(client, made):
    reply = client.get(CERTIFICATE)
    assert reply.content_type == "application/x-x509-ca-cert"
    assert reply.data == client.get(CERTIFICATE).data == made.authority_der()


@pytest.mark.parametrize(
    "path", ["/certificates/authority.key", "/authority.key", "/server.pem", "/../authority.key"]
)
def test_nothing_else_of_the_folder_is_given_out(client, path):
    assert client.get(path).status_code == 404


def test_the_page_may_run_no_script(client):
    policy = client.get("/").headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "<script" not in client.get("/").get_data(as_text=True)
