"""Builds put on the server as another phone would: the kernel tests' bench writes the events, the sync takes them in."""

from __future__ import annotations

import json
import secrets
import urllib.request

from tests.kernel.bench import Bench

BATCH = 400


def ask(url: str, body: dict, token: str = "") -> dict:
    headers = {"Content-Type": "application/json"} | ({"Authorization": f"Device {token}"} if token else {})
    request = urllib.request.Request(url, json.dumps(body).encode(), headers)
    with urllib.request.urlopen(request, timeout=30) as answer:
        return json.loads(answer.read())


def put(server: str, bench: Bench, build: str, name: str, who: str = "marek") -> None:
    """All events of Marek's at this bench, as one phone's, under the name of somebody else of the shop."""
    dev = secrets.token_hex(16)
    token = ask(f"{server}/api/login", {"name": who, "password": f"{who}-bench", "dev": dev, "label": "seed"})["token"]
    events = [_restamped(event, dev, n, build, name) for n, event in enumerate(bench.events, 1)]
    for at in range(0, len(events), BATCH):
        answer = ask(f"{server}/api/sync", {"dev": dev, "epoch": "", "events": events[at : at + BATCH], "follow": {}}, token)
        refused = [v for v in answer["verdicts"] if v["verdict"] != "stored"]
        assert not refused, refused


def _restamped(event: dict, dev: str, n: int, build: str, name: str) -> dict:
    body = event["body"] | ({"name": name} if event["type"] == "build.opened" else {})
    return {"dev": dev, "n": n, "build": build, "type": event["type"], "v": 1, "at": event["at"], "seen": 0, "body": body}
