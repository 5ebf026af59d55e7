"""Plays a schedule: phones in one Node process, the real server in this one, and between them a network that misbehaves.

Simulated time is moved on here; nothing waits for real time, so a schedule plays the same way each time.
"""

from __future__ import annotations

import hashlib
import json

from kernel.canon import canon

from .phone_box import PhoneBox
from .shop_server import ROLES, ShopServer

PATIENCE_MS = 15_000
JSON = "application/json"
PAGE = "<html><body>Welcome to the paddock network. Log in to go on.</body></html>"
WRITTEN = ("dev", "n", "build", "type", "v", "at", "seen", "body")


def said_part(event: dict) -> bytes:
    """The phone's part of an event as the bytes the server keeps; of one it cannot keep, bytes all the same."""
    written = {name: event[name] for name in WRITTEN}
    try:
        return canon(written).encode()
    except TypeError:
        return json.dumps(written, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()


class World:
    def __init__(self, seed: str, box: PhoneBox, server: ShopServer):
        self.seed, self.box, self.server = seed, box, server
        self.phones: dict[int, dict] = {}
        self.now = self.tell("reset")
        self.count = 0
        self.modes: dict[int, str] = {}
        self.late: list[tuple[dict, dict | None]] = []  # requests on their way, and replies on theirs
        self.next_db: tuple[int, bool] = (0, False)
        self.strip = False
        self.modern = True  # no old client or server has taken part
        self.ticked: dict[bytes, int] = {}  # what a person was shown as kept -> phone
        self.gone: set[bytes] = set()  # lost with a phone's own memory, or with a server that was put back
        self.healing = False

    # Talking to the phones

    def tell(self, do: str, **more):
        said, asks = self.box.tell(do, **more)
        for ask in asks:
            self.asked(ask)
        return said

    def phone(self, number: int, people: list[str], locks: bool, code: str) -> None:
        self.modern = self.modern and code == "now"
        self.phones[number] = {"people": people, "lives": 0, "code": code}
        self.tell("phone", phone=number, dev=self._dev(number), locks=locks, code=code)
        self._log_in_all(number)
        self.tell("open", phone=number, tab=0)

    def _dev(self, number: int) -> str:
        return hashlib.md5(f"{self.seed}/{number}/{self.phones[number]['lives']}".encode()).hexdigest()

    def _log_in_all(self, number: int) -> None:
        phone = self.phones[number]
        phone["rows"] = [
            {"id": who, "name": who.title(), "role": ROLES[who], "token": self.server.log_in(who, self._dev(number)), "expires": None, "used": 0}
            for who in phone["people"]
        ]
        self.tell("people", phone=number, people=phone["rows"])

    def log_in(self, number: int, who: str) -> None:
        phone = self.phones[number]
        token = self.server.log_in(who, self._dev(number))
        if token is None:
            return
        for row in phone["rows"]:
            if row["id"] == who:
                row["token"] = token
        phone["rows"].sort(key=lambda row: row["id"] != who)
        self.tell("people", phone=number, people=phone["rows"])
        for tab in self.tell("tabs", phone=number):
            self.tell("login", phone=number, tab=tab, who=who)

    # Events

    def append(self, number: int, tab: int, build: str, what: str, who: str) -> None:
        self.count += 1
        said = self.tell("append", phone=number, tab=tab, build=build, who=who, role=ROLES[who], draft=self._draft(what, build, number))
        if said and "value" in said:
            self.ticked[said_part(said["value"])] = number

    def _draft(self, what: str, build: str, number: int) -> dict:
        text = f"2.4{self.count:04d}"
        reading = {"point": "main_journal", "station": str(self.count % 5 + 1), "text": text, "unit": "in"}
        return {
            "reading": {"type": "reading", "body": reading},
            "open": {"type": "build.opened", "body": {"name": f"{build} {self.count}", "procedure": "pushrod-v8", "revision": 1, "duty": "race", "note": ""}},
            "strike": {"type": "strike", "body": {"event": f"{self._dev(number)}:{self.count}", "why": f"misread {text}"}},
            "unknown": {"type": "sound.recorded", "body": {"text": text}},
            "broken": {"type": "reading", "body": reading | {"depth": 0.5}},
            "big": {"type": "reading", "body": reading | {"note": "x" * 70_000}},
            "huge": {"type": "reading", "body": reading | {"note": "x" * 300_000}},
        }[what]

    # The network

    def asked(self, ask: dict) -> None:
        mode = "ok" if self.healing else self.modes.get(ask["phone"], "ok")
        if self.phones[ask["phone"]]["code"] == "old" and "413" in mode:
            mode = "s502"  # the first version set a small entry aside on any 413; that is why it is not the newest any more
        getattr(self, f"_net_{mode}", self._net_status)(ask, mode)

    def _serve(self, ask: dict, body: str | None = None) -> dict | None:
        (at, kill), self.next_db = self.next_db, (0, False)
        reply = self.server.post(ask, self._older(body or ask["body"]), at, kill)
        return self._stripped(reply) if reply else None

    def _older(self, body: str) -> str:
        if not self.strip:
            return body
        try:
            asked = json.loads(body)
        except ValueError:
            return body
        return json.dumps({name: asked[name] for name in ("dev", "epoch", "events", "follow") if name in asked})

    def _stripped(self, reply: dict) -> dict:
        """As a server of the first version would have said it."""
        if not self.strip or reply["status"] != 200:
            return reply
        said = json.loads(reply["body"])
        said.pop("device", None)
        for build in said["builds"].values():
            build.pop("head_hash", None)
            for event in build["events"]:
                event.pop("mark", None)
        return reply | {"body": json.dumps(said)}

    def _reply(self, ask: dict, reply: dict | None) -> None:
        self.tell("answer", id=ask["id"], reply=reply)

    def _net_ok(self, ask, _):
        self._reply(ask, self._serve(ask))

    def _net_lost(self, ask, _):
        pass

    def _net_refused(self, ask, _):
        self._reply(ask, None)

    def _net_reply_lost(self, ask, _):
        self._serve(ask)

    def _net_reply_refused(self, ask, _):
        self._serve(ask)
        self._reply(ask, None)

    def _net_twice(self, ask, _):
        self._serve(ask)
        self._reply(ask, self._serve(ask))

    def _net_late(self, ask, _):
        self.late.append((ask, None))

    def _net_late_reply(self, ask, _):
        self.late.append((ask, self._serve(ask)))

    def _net_truncated(self, ask, _):
        self._reply(ask, self._serve(ask, ask["body"][: len(ask["body"]) // 2] or "{"))

    def _net_reply_truncated(self, ask, _):
        reply = self._serve(ask)
        self._reply(ask, reply and reply | {"body": reply["body"][: len(reply["body"]) // 2]})

    def _net_stall(self, ask, _):
        reply = self._serve(ask)
        self._reply(ask, reply and reply | {"body": None})

    def _net_page(self, ask, _):
        self._reply(ask, {"status": 200, "type": "text/html", "body": PAGE})

    def _net_page_401(self, ask, _):
        self._reply(ask, {"status": 401, "type": "text/html", "body": PAGE})

    def _net_page_413(self, ask, _):
        self._reply(ask, {"status": 413, "type": "text/html", "body": PAGE})

    def _net_status(self, ask, mode):
        self._reply(ask, {"status": int(mode[1:]), "type": JSON, "body": json.dumps({"error": "Not now."})})

    def deliver_late(self) -> None:
        """What was under way arrives, in an order nobody promised."""
        late, self.late = self.late, []
        for ask, reply in reversed(late):
            self._reply(ask, reply or self._serve(ask))

    # Time

    def tick(self, ms: int) -> None:
        to = self.now + ms
        while self.now < to:
            self.now = self.tell("advance", to=to)

    # What exists, and where

    def present(self) -> set[bytes]:
        """Every event that some phone or the server holds."""
        held = self.server.bodies()
        for number in self.phones:
            held |= {said_part(row) for row in self.tell("dump", phone=number)["events"]}
        return held

    def lossy(self, act) -> None:
        """Something that destroys memory by its nature; what exists nowhere after it is not the sync's loss."""
        before = self.present()
        act()
        self.gone |= before - self.present()
