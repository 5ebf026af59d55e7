"""A server of the built app alone, from a copy of it, so that a test can put a new version in place. Its log-in takes anybody."""

from __future__ import annotations

import json
import shutil
import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

DIST = Path(__file__).parents[2] / "frontend" / "dist"
KINDS = {".js": "text/javascript", ".css": "text/css", ".wasm": "application/wasm", ".json": "application/json", ".html": "text/html",
         ".png": "image/png"}  # fmt: skip
SHOP = {"id": "tern-hollow", "name": "Tern Hollow Engines"}
LOGIN = {"token": "t", "expires": 0, "person": {"id": "marek", "name": "Marek", "role": "builder"}, "shop": SHOP}
NO_NEWS = {"epoch": "e", "time": 0, "verdicts": [], "builds": {}, "people": {}, "shop": SHOP}
API = {"/api/login": LOGIN, "/api/sync": NO_NEWS, "/api/procedures": []}


class ShellServer:
    def __init__(self, folder: Path) -> None:
        self.folder = folder / "dist"
        shutil.copytree(DIST, self.folder)
        self.asked: list[str] = []
        self.http = ThreadingHTTPServer(("127.0.0.1", 0), self.handler())
        self.url = f"http://127.0.0.1:{self.http.server_port}"
        threading.Thread(target=self.http.serve_forever, daemon=True).start()

    def handler(self) -> type[BaseHTTPRequestHandler]:
        server = self

        class Handler(BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                server.asked.append(self.path)
                if self.path in API:
                    return self.send("application/json", json.dumps(API[self.path]).encode())
                path = server.file(self.path.split("?")[0])
                if path is None or not path.is_file():
                    return self.send_error(404)
                return self.send(KINDS[path.suffix], path.read_bytes())

            def do_POST(self) -> None:
                self.rfile.read(int(self.headers.get("Content-Length") or 0))
                self.do_GET()

            def send(self, kind: str, body: bytes) -> None:
                self.send_response(200)
                self.send_header("Content-Type", kind)
                self.send_header("Cache-Control", "no-store")
                self.end_headers()
                self.wfile.write(body)

            def log_message(self, *_said: object) -> None:
                pass

        return Handler

    def file(self, address: str) -> Path | None:
        if address == "/":
            return self.folder / "index.html"
        if address == "/serviceworker.js":
            return self.folder / "sw.js"
        return self.folder / address.removeprefix("/static/") if address.startswith("/static/") else None

    def new_version(self, title: str) -> None:
        """The same app with another title: the page and the worker's note of it change, as in a real release."""
        page, worker = self.folder / "index.html", self.folder / "sw.js"
        page.write_text(page.read_text().replace("<title>Halfthou</title>", f"<title>{title}</title>"))
        code = worker.read_text()
        start = code.index('{url:"/",revision:"') + len('{url:"/",revision:"')
        worker.write_text(code[:start] + "ffffffffffffffff" + code[start + 16 :])

    def stop(self) -> None:
        self.http.shutdown()
        self.http.server_close()
