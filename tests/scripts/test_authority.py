"""The shop's own certificate authority: trusted by who installed it, and good for nothing beyond the local network."""

import datetime
import ssl
import sys
import threading
import urllib.request
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path

import pytest
from cryptography import x509

SCRIPTS = Path(__file__).resolve().parents[2] / "scripts"


@pytest.fixture
def authority(monkeypatch):
    monkeypatch.syspath_prepend(str(SCRIPTS))
    import authority

    yield authority
    for name in ("authority", "authority_page", "places"):
        sys.modules.pop(name, None)


def fetch_over_tls(key: Path, leaf: Path, trusted: Path | None) -> int:
    """Status of one request to a TLS server with this leaf, by a client that trusts `trusted`."""

    class Door(BaseHTTPRequestHandler):
        def do_GET(self):
            self.send_response(204)
            self.end_headers()

        def log_message(self, *_):
            pass

    server = HTTPServer(("127.0.0.1", 0), Door)
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(leaf, key)
    server.socket = context.wrap_socket(server.socket, server_side=True)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        client = ssl.create_default_context(cafile=trusted)
        opener = urllib.request.build_opener(urllib.request.ProxyHandler({}), urllib.request.HTTPSHandler(context=client))
        return opener.open(f"https://127.0.0.1:{server.server_port}/", timeout=10).status
    finally:
        server.shutdown()
        server.server_close()


def test_a_client_that_trusts_it_connects(authority, tmp_path):
    key, leaf = authority.certificate_for(tmp_path, "192.168.1.20")
    assert fetch_over_tls(key, leaf, tmp_path / "authority.crt") == 204


def test_a_client_that_does_not_is_refused(authority, tmp_path):
    key, leaf = authority.certificate_for(tmp_path, "192.168.1.20")
    with pytest.raises(OSError, match="CERTIFICATE_VERIFY_FAILED"):
        fetch_over_tls(key, leaf, None)


def test_it_cannot_vouch_for_a_public_name(authority, tmp_path, monkeypatch):
    """With a stolen key a leaf can be made for any name; who trusts the authority must still refuse it."""
    authority.certificate_for(tmp_path, "192.168.1.20")
    honest = authority.leaf_names
    monkeypatch.setattr(authority, "leaf_names", lambda a: [*honest(a), x509.DNSName("bank.example")])
    authority.make_leaf(tmp_path, "192.168.1.20")
    with pytest.raises(OSError, match="permitted subtree violation"):
        fetch_over_tls(tmp_path / "leaf.key", tmp_path / "leaf.crt", tmp_path / "authority.crt")


def test_the_authority_is_made_once_and_the_leaf_follows_the_address(authority, tmp_path):
    authority.certificate_for(tmp_path, "192.168.1.20")
    first, leaf = (tmp_path / "authority.crt").read_bytes(), (tmp_path / "leaf.crt").read_bytes()
    authority.certificate_for(tmp_path, "192.168.1.20")
    assert (tmp_path / "leaf.crt").read_bytes() == leaf
    authority.certificate_for(tmp_path, "10.0.0.7")
    assert (tmp_path / "authority.crt").read_bytes() == first
    assert (tmp_path / "leaf.crt").read_bytes() != leaf


def test_the_leaf_is_short_lived_and_renewed_in_time(authority, tmp_path, monkeypatch):
    authority.certificate_for(tmp_path, "192.168.1.20")
    leaf = x509.load_pem_x509_certificate((tmp_path / "leaf.crt").read_bytes())
    assert leaf.not_valid_after_utc - leaf.not_valid_before_utc <= datetime.timedelta(days=91)
    now = authority.now()
    assert authority.leaf_still_good(tmp_path, "192.168.1.20")
    monkeypatch.setattr(authority, "now", lambda: now + datetime.timedelta(days=77))
    assert not authority.leaf_still_good(tmp_path, "192.168.1.20")


def test_private_keys_are_readable_by_their_owner_only(authority, tmp_path):
    authority.certificate_for(tmp_path, "192.168.1.20")
    assert {p.name: oct(p.stat().st_mode & 0o077) for p in tmp_path.glob("*.key")} == {"authority.key": "0o0", "leaf.key": "0o0"}


def test_the_page_hands_out_the_certificate_and_never_the_key(authority, tmp_path, monkeypatch):
    import authority_page

    authority.certificate_for(tmp_path, "192.168.1.20")
    server = authority_page.serve(tmp_path / "authority.crt", 0, "https://192.168.1.20:8443")
    home = f"http://127.0.0.1:{server.server_port}"
    with urllib.request.urlopen(home + "/authority.crt") as answer:
        assert answer.headers["Content-Type"] == "application/x-x509-ca-cert"
        assert answer.read() == (tmp_path / "authority.crt").read_bytes()
    assert b"/authority.crt" in urllib.request.urlopen(home + "/").read()
    with pytest.raises(OSError, match="404"):
        urllib.request.urlopen(home + "/authority.key")
    server.shutdown()
    server.server_close()
