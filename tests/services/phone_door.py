"""A phone as far as the server can tell: logs in, numbers its events, syncs. No browser, only HTTP."""

import json
import time
import urllib.error
import urllib.request
import uuid


def call(url: str, body: dict | None = None, **headers: str) -> tuple[int, dict]:
    """Status and JSON answer of one request; an error answer is an answer."""
    data = None if body is None else json.dumps(body).encode()
    request = urllib.request.Request(url, data, {"Content-Type": "application/json"} | headers)
    try:
        with urllib.request.urlopen(request, timeout=30) as answer:
            return answer.status, json.loads(answer.read() or b"{}")
    except urllib.error.HTTPError as refusal:
        text = refusal.read()
        return refusal.code, json.loads(text) if text[:1] in (b"{", b"[") else {}


class PhoneDoor:
    def __init__(self, server: str, name: str, password: str):
        self.server, self.dev, self.n, self.epoch, self.sent = str(server), uuid.uuid4().hex, 0, "", 0
        login = {"name": name, "password": password, "dev": self.dev, "label": f"{name}'s phone"}
        status, answer = call(f"{self.server}/api/login", login)
        if status != 200:
            raise RuntimeError(f"{name} could not log in: {status} {answer}")
        self.token, self.person = answer["token"], answer["person"]

    def event(self, build: str, kind: str, body: dict, seen: int = 0) -> dict:
        self.n += 1
        return {"dev": self.dev, "n": self.n, "build": build, "type": kind, "v": 1, "at": int(time.time() * 1000), "seen": seen, "body": body}

    def ask(self, path: str) -> tuple[int, dict]:
        return call(f"{self.server}/api/{path}", None, Authorization=f"Device {self.token}")

    def sync(self, events: list[dict] = (), follow: dict | None = None) -> dict:
        body = {"dev": self.dev, "epoch": self.epoch, "events": list(events), "follow": follow or {}}
        status, answer = call(f"{self.server}/api/sync", body, Authorization=f"Device {self.token}")
        if status != 200:
            raise RuntimeError(f"sync was answered {status}: {answer}")
        self.epoch = answer["epoch"]
        return answer

    def send(self, events: list[dict], follow: dict) -> dict:
        """As the phone's own code sends its entries: short rows. `sent` is the size of the request in bytes."""
        rows = [[e[name] for name in ("n", "build", "type", "v", "at", "seen", "body")] for e in events]
        body = {"dev": self.dev, "epoch": self.epoch, "events": [], "entries": rows, "follow": follow}
        self.sent = len(json.dumps(body, separators=(",", ":")))
        status, answer = call(f"{self.server}/api/sync", body, Authorization=f"Device {self.token}")
        if status != 200:
            raise RuntimeError(f"sync was answered {status}: {answer}")
        self.epoch = answer["epoch"]
        return answer
