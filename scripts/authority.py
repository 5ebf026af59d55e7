"""A certificate authority of this computer's own, so that phones in the shop can use https without anybody else.

The authority is made once, is kept in `.run/authority/`, and may only vouch for private addresses and local names: a phone
that trusts it cannot be fooled about a bank. Leaf certificates last 90 days, because phones refuse long ones, and are
renewed at the next start when 14 days or fewer are left or the address has changed.
"""

import datetime
import ipaddress
import socket
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

AUTHORITY_YEARS = 10
LEAF_DAYS = 90
RENEW_AT_DAYS = 14
PRIVATE = ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "127.0.0.0/8", "169.254.0.0/16", "fc00::/7", "::1/128")


def now() -> datetime.datetime:
    return datetime.datetime.now(datetime.UTC)


def named(text: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, text), x509.NameAttribute(NameOID.ORGANIZATION_NAME, "Halfthou")])


def write_private(path: Path, key: ec.EllipticCurvePrivateKey) -> None:
    path.touch(mode=0o600)
    path.write_bytes(key.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()))


def write_public(path: Path, certificate: x509.Certificate) -> None:
    path.write_bytes(certificate.public_bytes(serialization.Encoding.PEM))


def allowed_names(address: str) -> x509.NameConstraints:
    ranges = [ipaddress.ip_network(text) for text in PRIVATE]
    own = ipaddress.ip_address(address)
    if not any(own in r for r in ranges if r.version == own.version):
        ranges.append(ipaddress.ip_network(address))
    names = ["localhost", "local", socket.gethostname().lower()]
    return x509.NameConstraints([x509.IPAddress(r) for r in ranges] + [x509.DNSName(n) for n in names], None)


def make_authority(folder: Path, address: str) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    key = ec.generate_private_key(ec.SECP256R1())
    name = named(f"Halfthou on {socket.gethostname()}"[:64])
    usage = x509.KeyUsage(False, False, False, False, False, True, True, False, False)
    certificate = (
        x509.CertificateBuilder().subject_name(name).issuer_name(name).public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now() - datetime.timedelta(days=1))
        .not_valid_after(now() + datetime.timedelta(days=365 * AUTHORITY_YEARS))
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(usage, critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .add_extension(allowed_names(address), critical=True)
        .sign(key, hashes.SHA256())
    )  # fmt: skip
    write_private(folder / "authority.key", key)
    write_public(folder / "authority.crt", certificate)


def leaf_names(address: str) -> list[x509.GeneralName]:
    host = socket.gethostname().lower()
    names: list[x509.GeneralName] = [x509.DNSName(n) for n in dict.fromkeys(("localhost", host, host.split(".")[0] + ".local"))]
    return names + [x509.IPAddress(ipaddress.ip_address(a)) for a in dict.fromkeys(("127.0.0.1", address))]


def make_leaf(folder: Path, address: str) -> None:
    signer = serialization.load_pem_private_key((folder / "authority.key").read_bytes(), None)
    authority = x509.load_pem_x509_certificate((folder / "authority.crt").read_bytes())
    key = ec.generate_private_key(ec.SECP256R1())
    certificate = (
        x509.CertificateBuilder().subject_name(named(address)).issuer_name(authority.subject).public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now() - datetime.timedelta(days=1))
        .not_valid_after(now() + datetime.timedelta(days=LEAF_DAYS))
        .add_extension(x509.SubjectAlternativeName(leaf_names(address)), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.public_key()), critical=False)
        .sign(signer, hashes.SHA256())  # type: ignore[arg-type]
    )  # fmt: skip
    write_private(folder / "leaf.key", key)
    write_public(folder / "leaf.crt", certificate)


def leaf_still_good(folder: Path, address: str) -> bool:
    path = folder / "leaf.crt"
    if not path.exists() or not (folder / "leaf.key").exists():
        return False
    leaf = x509.load_pem_x509_certificate(path.read_bytes())
    names = leaf.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    covered = ipaddress.ip_address(address) in names.get_values_for_type(x509.IPAddress)
    return covered and leaf.not_valid_after_utc - now() > datetime.timedelta(days=RENEW_AT_DAYS)


def certificate_for(folder: Path, address: str) -> tuple[Path, Path]:
    """The key and certificate files for this address; whatever is missing or about to expire is made."""
    if not (folder / "authority.key").exists() or not (folder / "authority.crt").exists():
        make_authority(folder, address)
        make_leaf(folder, address)
    elif not leaf_still_good(folder, address):
        make_leaf(folder, address)
    return folder / "leaf.key", folder / "leaf.crt"
