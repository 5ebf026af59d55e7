"""Two invented shops and phones that speak to the server, for the suites of the server's parts."""

import itertools
import json
import uuid

from django.test import Client

from shop.models import Person, Role, Shop

PASSWORD = "a-plain-password"
V8 = {"name": "Trial V8", "procedure": "pushrod-v8", "revision": 1, "duty": "race", "note": ""}
BUILD = "b-trial"


def shop(slug: str) -> Shop:
    """A shop with one person of every role; names are `<role>-<slug>`, public ids the roles."""
    made = Shop.objects.create(slug=slug, name=slug.replace("-", " ").title())
    for role in Role.values:
        person = Person(username=f"{role}-{slug}", shop=made, slug=role, name=role.title(), role=role)
        person.set_password(PASSWORD)
        person.save()
    return made


class Phone:
    """One phone database: it mints its number, counts its events and logs in as someone."""

    def __init__(self, login: str = ""):
        self.dev, self.token, self.epoch = uuid.uuid4().hex, "", ""
        self.count, self.client = itertools.count(1), Client(raise_request_exception=True)
        if login:
            self.log_in(login)

    def log_in(self, login: str, password: str = PASSWORD):
        answer = self.post("/api/login", {"name": login, "password": password, "dev": self.dev, "label": "Bench phone"})
        self.token = answer.json().get("token", "")
        return answer

    def headers(self, **more: str) -> dict[str, str]:
        return ({"Authorization": f"Device {self.token}"} if self.token else {}) | more

    def get(self, path: str, **headers: str):
        return self.client.get(path, headers=self.headers(**headers))

    def post(self, path: str, data: object, **headers: str):
        raw = data if isinstance(data, bytes) else json.dumps(data).encode()
        return self.client.post(path, raw, content_type="application/json", headers=self.headers(**headers))

    def event(self, type: str = "reading", body: dict | None = None, **more) -> dict:
        body = body if body is not None else {"point": "main_journal", "station": "1", "text": "2.4480", "unit": "in"}
        return {"dev": self.dev, "n": next(self.count), "build": BUILD, "type": type, "v": 1, "at": 1_764_068_400_000, "seen": 0, "body": body} | more

    def opening(self, **more) -> dict:
        return self.event("build.opened", V8, **more)

    def sync(self, *events: object, follow: dict | None = None, **headers: str):
        asked = {"dev": self.dev, "epoch": self.epoch, "events": list(events), "follow": follow or {}}
        return self.post("/api/sync", asked, **headers)

    def verdicts(self, *events: object) -> list[str]:
        answer = self.sync(*events)
        assert answer.status_code == 200, answer.content
        return [v["verdict"] for v in answer.json()["verdicts"]]
