"""The server's side of a schedule: the real application, called in this process, on whatever database Django was given.

Each schedule has a shop of its own, so that none waits for the clearing of a database. A restore from a stale backup
puts this shop's rows back as they were and leaves the other shops alone.
"""

from __future__ import annotations

import json
from contextlib import contextmanager

from django.db import OperationalError, connection, transaction
from django.test import Client

from record import rows
from record.models import Build, BuildStatus, Event, Quarantine, Reading
from record.services import adopt_waiting
from review import tasks
from review.claim import waiting
from shop.models import Device, DeviceToken, Person, Shop, new_epoch
from shop.tokens import issue
from tests.record.unguarded import unguarded

ROLES = {"ines": "owner", "marek": "builder", "juno": "apprentice"}
# In the order in which rows may be put back; taken away in reverse.
TABLES = (Device, DeviceToken, Build, Build.people.through, Event, Quarantine, BuildStatus, Reading)


class Killed(BaseException):
    """The process ended here: nothing catches it and nothing tidies up."""


class ShopServer:
    def __init__(self, seed: str):
        self.shop = Shop.objects.create(slug=f"s-{seed}", name="Tern Hollow Engines")
        self.people = {slug: self._person(slug, role, seed) for slug, role in ROLES.items()}
        self.jobs: list[int] = []
        self.kept: dict | None = None
        self.client = Client(raise_request_exception=False)

    def _person(self, slug: str, role: str, seed: str) -> Person:
        person = Person(username=f"{slug}-{seed}", shop=self.shop, slug=slug, name=slug.title(), role=role)
        person.set_unusable_password()
        person.save()
        return person

    def log_in(self, who: str, dev: str) -> str | None:
        """A token, as the log-in page would give; None where it would be refused."""
        person = Person.objects.get(pk=self.people[who].pk)
        if not person.is_active:
            return None
        device, _ = Device.objects.get_or_create(dev=dev, defaults={"shop": self.shop, "label": "bench phone"})
        return issue(device=device, person=person)[0]

    def post(self, ask: dict, body: str | None = None, fail_at: int = 0, kill: bool = False) -> dict | None:
        """The reply to a request; None when the process died. `fail_at`: the database statement that fails."""
        headers = {"Authorization": f"Device {ask['token']}", "Halfthou-Waiting": ask["waiting"]}
        answer = None
        with failing(fail_at, Killed if kill else OperationalError) as fault:
            answer = self.client.post(ask["path"], (body or ask["body"]).encode(), content_type="application/json", headers=headers)
        if answer is None or fault.died:
            return None
        return {"status": answer.status_code, "type": answer.headers.get("Content-Type", ""), "body": answer.content.decode()}

    # Jobs

    def run_job(self, pk: int, fail_at: int = 0) -> None:
        with failing(fail_at, Killed):
            tasks.review_build(pk)

    def sweep(self) -> None:
        """What beat does, with the claims of killed jobs grown old; jobs go on until there are none."""
        Build.objects.filter(shop=self.shop).exclude(claimed=None).update(claimed="2020-01-01T00:00:00Z")
        adopt_waiting(self.shop)
        for pk in waiting().filter(shop=self.shop).values_list("pk", flat=True):
            tasks.send(build_pk=pk)
        while self.jobs:
            self.run_job(self.jobs.pop())

    # People and phones

    def set_active(self, who: str, active: bool) -> None:
        Person.objects.filter(pk=self.people[who].pk).update(is_active=active)

    def set_role(self, who: str, role: str) -> None:
        Person.objects.filter(pk=self.people[who].pk).update(role=role)

    def expire(self, who: str) -> None:
        DeviceToken.objects.filter(person=self.people[who]).delete()

    def give(self, build: str, who: str) -> None:
        for row in Build.objects.filter(shop=self.shop, key=build):
            row.people.add(self.people[who])

    # Backup and restore

    def _rows(self) -> dict:
        builds, devices = Build.objects.filter(shop=self.shop), Device.objects.filter(shop=self.shop)
        return {
            Device: devices, DeviceToken: DeviceToken.objects.filter(device__in=devices), Build: builds,
            Build.people.through: Build.people.through.objects.filter(build__in=builds),
            Event: Event.objects.filter(build__in=builds), Quarantine: Quarantine.objects.filter(shop=self.shop),
            BuildStatus: BuildStatus.objects.filter(build__in=builds), Reading: Reading.objects.filter(build__in=builds),
        }  # fmt: skip

    def backup(self) -> None:
        rows = {model: list(query.order_by("pk")) for model, query in self._rows().items()}
        self.kept = {"rows": rows, "epoch": Shop.objects.get(pk=self.shop.pk).epoch}

    def restore(self, *, said: bool) -> None:
        """Back to the kept copy. `said`: whether the operator's command told the shop, or somebody copied files in silence."""
        if self.kept is None:
            return
        with unguarded():
            rows = self._rows()
            for model in reversed(TABLES):
                rows[model].all()._raw_delete(using="default")
            for model in TABLES:
                model.objects.bulk_create(self.kept["rows"][model])
            Shop.objects.filter(pk=self.shop.pk).update(epoch=new_epoch() if said else self.kept["epoch"])
        self.jobs.clear()

    # What is there

    def builds(self) -> dict[str, Build]:
        return {b.key: b for b in Build.objects.filter(shop=self.shop)}

    def events(self, build: Build) -> list[Event]:
        return list(Event.objects.filter(build=build).order_by("seq"))

    def wanted(self) -> set[str]:
        """Builds that something was put aside for want of."""
        rows = Quarantine.objects.filter(shop=self.shop, kind="no_build").values_list("raw", flat=True)
        return {json.loads(bytes(raw))["build"] for raw in rows}

    def bodies(self) -> set[bytes]:
        """Every event this server holds, put aside ones included, as its bytes."""
        held = {bytes(raw) for raw in Event.objects.filter(build__shop=self.shop).values_list("raw", flat=True)}
        return held | {_canonical(bytes(raw)) for raw in Quarantine.objects.filter(shop=self.shop).values_list("raw", flat=True)}


def _canonical(raw: bytes) -> bytes:
    return json.dumps(json.loads(raw), sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()


class Fault:
    """A database statement, or a commit, that fails when its turn comes."""

    def __init__(self, at: int, kind: type[BaseException], for_good: bool):
        self.at, self.kind, self.for_good, self.seen, self.struck, self.first = at, kind, for_good, 0, False, ""

    @property
    def died(self) -> bool:
        return self.struck and self.kind is Killed

    def tick(self, what: str) -> None:
        """`first`: what failed first."""
        self.seen += 1
        if self.seen == self.at or self.for_good and self.seen > self.at:
            self.struck, self.first = True, self.first or what
            raise self.kind("injected")

    def statement(self, execute, sql, params, many, context):
        self.tick(sql)
        return execute(sql, params, many, context)


@contextmanager
def failing(at: int, kind: type[BaseException], *, for_good: bool = False):
    """The database statement number `at` fails, and `for_good` all after it; 0: none. A commit counts as a statement.

    A process that died leaves nothing behind but its broken connection, whatever it would have said while unwinding.
    """
    fault = Fault(at, kind, for_good)
    commit = connection._commit

    def committing():
        fault.tick("COMMIT")
        return commit()

    copy = rows._copy

    def copying(events):
        fault.tick("INSERT INTO record_event")  # by COPY, which passes by the wrappers
        copy(events)

    connection._commit, rows._copy = committing, copying
    try:
        with connection.execute_wrapper(fault.statement):
            yield fault
    except BaseException:
        if not fault.died:
            raise
    finally:
        del connection._commit
        rows._copy = copy
        if fault.died:
            connection.close()


@contextmanager
def collecting_jobs(current: dict):
    """Reviews are queued with the server of the running schedule instead of being run."""
    really = tasks.review_build.delay

    def delay(pk: int) -> None:
        if not transaction.get_connection().in_atomic_block and current.get("server"):
            current["server"].jobs.append(pk)

    tasks.review_build.delay = delay
    try:
        yield
    finally:
        tasks.review_build.delay = really
