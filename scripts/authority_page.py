"""A plain page on its own port that hands out the authority's certificate (never its key) and says how to install it."""

import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from places import say

ANDROID = ("Open the address above in the browser and download authority.crt.",
           "Settings, Security, Encryption and credentials, Install a certificate, CA certificate; choose the file.")  # fmt: skip
IOS = ("Open the address above in Safari and allow the profile to download.",
       "Settings, Profile downloaded, Install.",
       "Settings, General, About, Certificate Trust Settings: switch on full trust for it.")  # fmt: skip


def explain(url: str) -> None:
    say(f"\n  A phone must first trust this computer, once. On the phone open  {url}")
    for title, lines in (("Android", ANDROID), ("iPhone and iPad", IOS)):
        say(f"    {title}:")
        for number, line in enumerate(lines, 1):
            say(f"      {number}. {line}")
    say("  It can vouch only for addresses inside a local network. Remove it in the same place when it is no longer needed.\n")


def page(app: str) -> bytes:
    def steps(lines):
        return "<ol>" + "".join(f"<li>{line}</li>" for line in lines) + "</ol>"

    return (
        "<!doctype html><html lang=en><meta charset=utf-8><meta name=viewport content='width=device-width'>"
        "<title>Trust the shop's computer</title><body style='font:18px/1.5 sans-serif;max-width:32em;margin:1.5em auto;padding:0 1em'>"
        "<h1>Trust the shop's computer</h1><p><a href='/authority.crt'>Download authority.crt</a></p>"
        f"<h2>Android</h2>{steps(ANDROID)}<h2>iPhone and iPad</h2>{steps(IOS)}<p>Then open <a href='{app}'>{app}</a></p>"
    ).encode()


def serve(certificate: Path, port: int, app: str) -> ThreadingHTTPServer:
    """Start serving in the background; the thread ends with the process."""

    class Door(BaseHTTPRequestHandler):
        def do_GET(self):
            wanted = self.path.split("?")[0]
            if wanted == "/authority.crt":
                return self.answer(200, "application/x-x509-ca-cert", certificate.read_bytes())
            if wanted == "/":
                return self.answer(200, "text/html; charset=utf-8", page(app))
            self.answer(404, "text/plain", b"Nothing here. The certificate is at /authority.crt")

        def answer(self, code, kind, body):
            self.send_response(code)
            self.send_header("Content-Type", kind)
            self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, *_):
            pass

    server = ThreadingHTTPServer(("0.0.0.0", port), Door)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return server
