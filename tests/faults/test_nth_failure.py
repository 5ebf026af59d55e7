"""The 1st, 2nd, 3rd … access to the store fails, once and for good, until a run comes through clean: on the server and on
the phone. Whatever fails, nothing is half stored, and the next try completes it.
"""

import itertools
import json

import pytest
from django.core.management import call_command
from django.db import OperationalError

from record.models import Build, Event
from record.verify import flaws
from tests.record.world import Phone, shop

from .shop_server import Killed, failing

MOST_RUNS = 80


@pytest.fixture
def marek(current):
    shop("tern-hollow")
    phone = Phone("builder-tern-hollow")
    phone.client.raise_request_exception = False
    return phone


def whole() -> None:
    assert list(flaws()) == []
    for build in Build.objects.all():
        assert list(build.events.order_by("seq").values_list("seq", flat=True)) == list(range(1, build.head + 1))


WAYS = pytest.mark.parametrize(("kind", "for_good"), [(OperationalError, False), (OperationalError, True), (Killed, False)], ids=["once", "for good", "killed"])


@WAYS
def test_the_nth_statement_of_a_push_fails(marek, kind, for_good):
    """A statement, or the commit, fails: a 5xx or no answer at all, and the same push again stores everything once."""
    failed = set()
    for nth in itertools.count(1):
        build = f"b-nth-{nth}"
        events = [marek.opening(build=build), marek.event(build=build), "not an event"]
        asked = {"dev": marek.dev, "epoch": "", "events": events, "follow": {}}
        with failing(nth, kind, for_good=for_good) as fault:
            marek.post("/api/sync", asked)
        whole()
        assert Event.objects.filter(build__key=build).count() in (0, 2)
        again = marek.post("/api/sync", asked).json()["verdicts"]
        assert [v["verdict"] for v in again] in (["stored", "stored", "quarantined"], ["duplicate", "duplicate", "quarantined"])
        assert Event.objects.filter(build__key=build).count() == 2
        Build.people.through.objects.all().delete()  # each run answers with one build, so that runs are alike
        if not fault.struck:
            break
        failed.add(fault.first.split(" VALUES")[0].split("(")[0].replace('"', "").strip())
        assert nth < MOST_RUNS
    assert {"INSERT INTO record_event", "COMMIT"} <= failed, "the sweep ended before it reached the storing"


@WAYS
def test_the_nth_statement_of_a_review_fails(marek, current, kind, for_good):
    """The claim stays behind at worst, and a sweep takes it over when it has grown old."""
    from review import tasks

    marek.sync(marek.opening(), marek.event())
    build = Build.objects.get()
    for nth in itertools.count(1):
        Build.objects.update(dirty=True, claimed=None)
        try:
            with failing(nth, kind, for_good=for_good) as fault:
                tasks.review_build(build.pk)
        except OperationalError:
            pass  # the job failed, and says so
        Build.objects.exclude(claimed=None).update(claimed="2020-01-01T00:00:00Z")
        tasks.review_build(build.pk)
        build.refresh_from_db()
        assert (build.dirty, build.claimed, build.status.seq) == (False, None, 2)
        if not fault.struck:
            break
    assert nth > 5


@WAYS
def test_the_nth_statement_of_an_import_fails(marek, kind, for_good):
    raw = "".join(json.dumps(e | {"who": "builder"}) + "\n" for e in (marek.opening(), marek.event(), marek.event())).encode()
    for nth in itertools.count(1):
        answer = None
        with failing(nth, kind, for_good=for_good):
            answer = marek.post("/api/import", raw)
        if Event.objects.count():
            break  # what fails after the commit is no business of the file any more
        assert answer is None or answer.status_code >= 500
    assert Event.objects.count() == 3 and nth > 5
    call_command("verify", verbosity=0, stdout=open("/dev/null", "w"))


# The phone


def scenario(box, fault: dict) -> tuple[list, dict, int]:
    """Opens a build, records, and syncs with a server that answers; the fault strikes the first tab. What was shown as kept."""
    asks: list = []

    def tell(do, **more):
        said, came = box.tell(do, phone=0, tab=0, **more)
        asks.extend(came)
        return said

    tell("reset")
    tell("phone", dev="d" * 32, locks=True, code="now")
    tell("people", people=[{"id": "marek", "name": "Marek", "role": "builder", "token": "t", "expires": None, "used": 0}])
    tell("open")
    tell("plan", plan=fault)
    kept = []
    for draft in ([{"type": "build.opened", "body": {"name": "b"}}] + [{"type": "reading", "body": {"text": f"2.{i}"}} for i in range(3)]):
        said = tell("append", build="b-boat", draft=draft, who="marek", role="builder")
        if said and "value" in said:
            kept.append(said["value"])
        answer_all(box, asks)
    waits = tell("waits")
    return kept, tell("dump"), waits if waits is not None else -1


def answer_all(box, asks: list) -> None:
    """A server in a few lines: every event is stored in the order in which it comes."""
    while asks:
        ask = asks.pop(0)
        asked = json.loads(ask["body"])
        rows = [dict(zip(("n", "build", "type", "v", "at", "seen", "body"), row)) | {"dev": asked["dev"]} for row in asked.get("entries", [])]
        events = [e | {"seq": e["n"], "who": "marek", "role": "builder", "mark": "m"} for e in asked["events"] + rows]
        after = asked["follow"].get("b-boat", 0)
        news = {"name": "b", "procedure": "p", "revision": 1, "head": max([after, *(e["seq"] for e in events)]), "head_hash": "h", "events": events,
                "more": False, "findings": [], "reviewed": 0}  # fmt: skip
        said = {"epoch": "e1", "time": 0, "device": {"place": 1, "link": "l"}, "people": {}, "shop": {"id": "s", "name": "S"},
                "verdicts": [{"n": e["n"], "verdict": "stored", "seq": e["n"]} for e in events], "builds": {"b-boat": news} if events or after else {}}  # fmt: skip
        _, came = box.tell("answer", id=ask["id"], reply={"status": 200, "type": "application/json", "body": json.dumps(said)})
        asks.extend(came)


@pytest.mark.parametrize("name", ["QuotaExceededError", "AbortError", "UnknownError"])
@pytest.mark.parametrize("times", [1, 10**6], ids=["once", "for good"])
def test_the_nth_access_of_the_phone_fails(box, name, times):
    check_phone(box, lambda nth: {"at": nth, "times": times, "name": name})


def test_the_phone_is_killed_at_the_nth_await(box):
    check_phone(box, lambda nth: {"kill": nth})


def check_phone(box, fault) -> None:
    clean, _, most = scenario(box, {})
    assert len(clean) == 4 and most > 40
    for nth in range(1, most + 1):
        kept, disk, _ = scenario(box, fault(nth))
        rows = {row["n"]: row for row in disk["events"]}
        assert sorted(rows) == list(range(1, len(rows) + 1)), f"at {nth}: numbers have a gap or a twin"
        assert all(rows[e["n"]]["body"] == e["body"] for e in kept), f"at {nth}: something shown as kept is not there"
        assert len(rows) - len(kept) <= 1, f"at {nth}: more was kept than shown"
        assert disk["device"][0]["next"] == len(rows) + 1
        assert all("waiting" in row or "seq" in row for row in rows.values()), f"at {nth}: an entry is neither sent nor waiting"
        for build in disk["builds"]:
            assert build["head"] <= max([row.get("seq") or 0 for row in rows.values()], default=0), f"at {nth}: a position without its events"
        assert settles(box), f"at {nth}: not everything was sent once the phone worked again"


def settles(box) -> bool:
    asks: list = []

    def tell(do, **more):
        said, came = box.tell(do, phone=0, tab=0, **more)
        asks.extend(came)
        return said

    if 0 in tell("tabs"):
        tell("plan", plan={})
    else:
        tell("open")
    start = tell("advance", to=0)
    for second in range(31):
        answer_all(box, asks)
        tell("advance", to=start + second * 1_000)
    answer_all(box, asks)
    return not [row for row in tell("dump")["events"] if "waiting" in row]
