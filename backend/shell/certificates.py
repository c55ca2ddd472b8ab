"""A certificate authority of one's own, for phones on the same network.

A phone keeps things offline only for a secure address, and no public authority
vouches for one such as 192.168.1.20. So this machine becomes an authority that
the phone is told to trust; what it can vouch for is limited to local names,
private addresses and the address it was made for, so that its key, if stolen,
opens no place on the internet.
"""

import ipaddress
import os
import socket
from datetime import UTC, datetime, timedelta

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

AUTHORITY_DAYS = 3650
# phones refuse longer ones; a new one is made at each start
SERVER_DAYS = 397
# Source: RFC 1918, 4193 (private), 6598 (shared), 3927, 4291 (link-local, loopback)
LOCAL_NETWORKS = ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "100.64.0.0/10", "169.254.0.0/16",
                  "127.0.0.0/8", "fc00::/7", "fe80::/10", "::1/128")  # fmt: skip
LOCAL_DOMAINS = ("localhost", "local")


class Certificates:
    """The files of an authority and of this server, in a folder of their own."""

    def __init__(self, folder):
        self.authority = folder / "authority.pem"
        self.authority_key = folder / "authority.key"
        self.server = folder / "server.pem"
        self.server_key = folder / "server.key"

    def authority_der(self):
        """Return the authority's certificate as phones take it."""
        return _load(self.authority).public_bytes(serialization.Encoding.DER)

    def fingerprint(self):
        """Return the authority's SHA-256 fingerprint as people compare it."""
        return _load(self.authority).fingerprint(hashes.SHA256()).hex(":").upper()


def local_address():
    """Find this machine's address on its network; None if it has none."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            # sends nothing: it only asks which address would be used (RFC 5737 test network)
            probe.connect(("192.0.2.1", 9))
        except OSError:
            return None
        return probe.getsockname()[0]


def prepare(folder, address):
    """Make a server certificate, and the authority first if there is none yet.

    Takes: folder, the data folder; address, the IP address phones use.
    Returns: Certificates.
    Raises: OSError if an authority made elsewhere cannot vouch for the address.
    """
    place = folder / "certificates"
    place.mkdir(parents=True, exist_ok=True, mode=0o700)
    files = Certificates(place)
    if not files.authority.exists():
        _make_authority(files, address)
    authority = _load(files.authority)
    if not _may_vouch_for(authority, address):
        raise OSError(f"{address} is not private, and {files.authority} was made for another address; "
                      "without that folder a new one is made, to be trusted anew")  # fmt: skip
    _make_server(files, authority, address)
    return files


def _make_authority(files, address):
    key = ec.generate_private_key(ec.SECP256R1())
    name = _named(f"Boltfair on {socket.gethostname()}")
    networks = [ipaddress.ip_network(network) for network in (*LOCAL_NETWORKS, address)]
    limits = [x509.DNSName(domain) for domain in LOCAL_DOMAINS]
    limits += [x509.IPAddress(network) for network in networks]
    builder = (
        _builder(name, name, key, AUTHORITY_DAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_key_usage(key_cert_sign=True, crl_sign=True), critical=True)
        .add_extension(x509.NameConstraints(limits, None), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )
    # the key first: a certificate without its key could not be used again
    _write_key(files.authority_key, key)
    _write(files.authority, builder.sign(key, hashes.SHA256()))


def _may_vouch_for(authority, address):
    limits = authority.extensions.get_extension_for_class(x509.NameConstraints).value.permitted_subtrees
    networks = [limit.value for limit in limits if isinstance(limit, x509.IPAddress)]
    return any(ipaddress.ip_address(address) in network for network in networks)


def _make_server(files, authority, address):
    authority_key = serialization.load_pem_private_key(files.authority_key.read_bytes(), None)
    key = ec.generate_private_key(ec.SECP256R1())
    vouching = authority.extensions.get_extension_for_class(x509.SubjectKeyIdentifier).value
    vouched_by = x509.AuthorityKeyIdentifier.from_issuer_subject_key_identifier(vouching)
    builder = (
        _builder(_named("Boltfair"), authority.subject, key, SERVER_DAYS)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_key_usage(digital_signature=True), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(_own_names(address)), critical=False)
        .add_extension(vouched_by, critical=False)
    )
    _write_key(files.server_key, key)
    _write(files.server, builder.sign(authority_key, hashes.SHA256()))


def _own_names(address):
    names = [x509.DNSName("localhost")]
    host = socket.gethostname().partition(".")[0]
    if host.isascii() and host.replace("-", "").isalnum():
        names.append(x509.DNSName(f"{host.lower()}.local"))
    addresses = dict.fromkeys(["127.0.0.1", "::1", address])
    return names + [x509.IPAddress(ipaddress.ip_address(item)) for item in addresses]


def _builder(subject, issuer, key, days):
    # a day early, for a phone whose clock is behind
    start = datetime.now(UTC) - timedelta(days=1)
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(start)
        .not_valid_after(start + timedelta(days=days))
    )


def _key_usage(**used):
    flags = dict.fromkeys(("digital_signature", "content_commitment", "key_encipherment", "data_encipherment",
                           "key_agreement", "key_cert_sign", "crl_sign", "encipher_only", "decipher_only"),
                          False)  # fmt: skip
    return x509.KeyUsage(**{**flags, **used})


def _named(text):
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, text[:64])])


def _load(path):
    return x509.load_pem_x509_certificate(path.read_bytes())


def _write(path, certificate):
    path.write_bytes(certificate.public_bytes(serialization.Encoding.PEM))


def _write_key(path, key):
    text = key.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.NoEncryption(),
    )
    # readable by its owner from the first moment on
    with os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
        file.write(text)
