"""The local authority vouches for this machine on its own network, and for nothing else."""

import ipaddress
from datetime import UTC, datetime, timedelta

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.x509 import verification

from backend.shell import certificates

HOME = "192.168.1.20"


def load(path):
    return x509.load_pem_x509_certificate(path.read_bytes())


def verify(certificate, authority, subject):
    """Check a certificate as a browser does (RFC 5280 and the web's profile)."""
    store = verification.Store([authority])
    verification.PolicyBuilder().store(store).build_server_verifier(subject).verify(certificate, [])


@pytest.mark.parametrize(
    "subject",
    [
        x509.DNSName("localhost"),
        x509.IPAddress(ipaddress.ip_address("127.0.0.1")),
        x509.IPAddress(ipaddress.ip_address("::1")),
        x509.IPAddress(ipaddress.ip_address(HOME)),
    ],
)
def test_the_server_is_trusted_by_whoever_trusts_the_authority(tmp_path, subject):
    made = certificates.prepare(tmp_path, HOME)
    verify(load(made.server), load(made.authority), subject)


def test_the_authority_stays_the_same_and_the_server_certificate_is_new(tmp_path):
    first = certificates.prepare(tmp_path, HOME)
    authority, server = first.authority.read_bytes(), first.server.read_bytes()
    again = certificates.prepare(tmp_path, "10.0.0.7")
    assert again.authority.read_bytes() == authority
    assert again.server.read_bytes() != server
    verify(load(again.server), load(again.authority), x509.IPAddress(ipaddress.ip_address("10.0.0.7")))


def test_phones_take_a_certificate_for_little_more_than_a_year(tmp_path):
    # Source: from memory: phones refuse server certificates valid for over 398 days
    server = load(certificates.prepare(tmp_path, HOME).server)
    assert server.not_valid_after_utc - server.not_valid_before_utc < timedelta(days=398)
    assert server.not_valid_before_utc < datetime.now(UTC) < server.not_valid_after_utc


@pytest.mark.parametrize(
    "stolen_for", [x509.DNSName("example.com"), x509.IPAddress(ipaddress.ip_address("8.8.8.8"))]
)
def test_a_stolen_key_opens_no_place_on_the_internet(tmp_path, stolen_for):
    made = certificates.prepare(tmp_path, HOME)
    server, authority = load(made.server), load(made.authority)
    key = serialization.load_pem_private_key(made.authority_key.read_bytes(), None)
    builder = (
        x509.CertificateBuilder()
        .subject_name(server.subject)
        .issuer_name(authority.subject)
        .public_key(server.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(server.not_valid_before_utc)
        .not_valid_after(server.not_valid_after_utc)
        .add_extension(x509.SubjectAlternativeName([stolen_for]), critical=False)
    )
    for extension in server.extensions:
        if not isinstance(extension.value, x509.SubjectAlternativeName):
            builder = builder.add_extension(extension.value, extension.critical)
    with pytest.raises(verification.VerificationError, match="name constraint|permitted"):
        verify(builder.sign(key, hashes.SHA256()), authority, stolen_for)


def test_an_address_that_is_not_private_is_vouched_for_only_from_the_start(tmp_path):
    # 198.51.100.0/24 is for documentation (RFC 5737)
    made = certificates.prepare(tmp_path / "there", "198.51.100.7")
    verify(load(made.server), load(made.authority), x509.IPAddress(ipaddress.ip_address("198.51.100.7")))
    certificates.prepare(tmp_path / "home", HOME)
    with pytest.raises(OSError, match=r"198\.51\.100\.7 is not private"):
        certificates.prepare(tmp_path / "home", "198.51.100.7")


def test_keys_are_readable_by_their_owner_only(tmp_path):
    made = certificates.prepare(tmp_path, HOME)
    for path, mode in ((made.authority_key, 0o600), (made.server_key, 0o600), (made.server.parent, 0o700)):
        assert path.stat().st_mode & 0o777 == mode


def test_the_fingerprint_is_of_the_authority_offered(tmp_path):
    made = certificates.prepare(tmp_path, HOME)
    offered = x509.load_der_x509_certificate(made.authority_der())
    assert offered == load(made.authority)
    assert bytes.fromhex(made.fingerprint().replace(":", "")) == offered.fingerprint(hashes.SHA256())
