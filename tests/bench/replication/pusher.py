"""Pushes alone: the requests that a phone would send, worded beforehand and sent one after the other on one connection."""

import http.client
import json
import time
import uuid

BATCH, BUILD = 500, "b-pushed"
PLACE = {"point": "main_bore", "text": "2.4507", "unit": "in"}


def words(body: object) -> str:
    return json.dumps(body, separators=(",", ":"))


class Pusher:
    def __init__(self, address: str, name: str, password: str):
        self.door = http.client.HTTPConnection(address.removeprefix("http://"), timeout=60)
        self.dev, self.n, self.bytes = uuid.uuid4().hex, 0, 0
        login = self.ask("/api/login", words({"name": name, "password": password, "dev": self.dev, "label": "bench"}))
        self.token = login["token"]
        self.state: dict = {"epoch": "", "follow": {}, "heads": {}, "receipt": None, "brief": True}
        opened = {"name": "Bench", "procedure": "pushrod-v8", "revision": 1, "duty": "race", "note": ""}
        self.push(words([self.entry("build.opened", opened)]))

    def entry(self, kind: str, body: dict) -> list:
        self.n += 1
        return [self.n, BUILD, kind, 1, 1_764_068_400_000 + self.n, 0, body]

    def ask(self, path: str, text: str) -> dict:
        self.bytes += len(text)
        headers = {"Content-Type": "application/json"} | ({"Authorization": f"Device {self.token}"} if hasattr(self, "token") else {})
        try:
            self.door.request("POST", path, text, headers)
            answer = self.door.getresponse()
        except (http.client.RemoteDisconnected, ConnectionError):  # a kept connection that the server has meanwhile closed
            self.door.close()
            self.door.request("POST", path, text, headers)
            answer = self.door.getresponse()
        said = json.loads(answer.read())
        assert answer.status == 200, said
        return said

    def push(self, entries: str) -> None:
        said = self.ask("/api/sync", f'{words({"dev": self.dev, "events": []} | self.state)[:-1]},"entries":{entries}}}')
        assert {v["verdict"] for v in said["verdicts"]} == {"stored"}
        builds = said["builds"].items()
        self.state = {"epoch": said["epoch"], "follow": {key: b["head"] for key, b in builds},
                      "heads": {key: b["head_hash"] for key, b in builds}, "receipt": said["device"], "brief": True}  # fmt: skip

    def move(self, many: int) -> dict:
        batches = [words([self.entry("reading", PLACE | {"station": str(i % 5 + 1)}) for i in range(BATCH)]) for _ in range(many // BATCH)]
        self.bytes, began = 0, time.perf_counter()
        for batch in batches:
            self.push(batch)
        return {"seconds": time.perf_counter() - began, "requests": len(batches), "bytes": self.bytes}
