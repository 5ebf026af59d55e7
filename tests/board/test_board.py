"""The board and the sheet: what others see from afar, cheap to ask for, whole to print."""

import pytest
from django.utils import timezone

from record.models import Build
from shop.models import Device, Person
from tests.record.world import BUILD, Phone

pytestmark = pytest.mark.django_db


@pytest.fixture
def push(builder, django_capture_on_commit_callbacks):
    def send(*events):
        with django_capture_on_commit_callbacks(execute=True):
            return builder.sync(*events)

    send(builder.opening())
    return send


@pytest.fixture
def chief(tern, push):
    Build.objects.get().people.add(Person.objects.get(username="crew_chief-tern-hollow"))
    return Phone("crew_chief-tern-hollow")


def _reading(phone, station, text, point):
    return phone.event("reading", {"point": point, "station": station, "text": text, "unit": "in"})


def test_the_crew_chief_sees_a_new_reading(builder, push, chief):
    push(_reading(builder, "1", "2.4480", "main_journal"), _reading(builder, "1", "2.4502", "main_bore"))
    build = chief.get("/api/board").json()["builds"][0]
    assert (build["id"], build["name"], build["head"], build["reviewed"]) == (BUILD, "Trial V8", 3, 3)
    clearance = next(f for f in build["fits"] if f["fit"] == "main_clearance")
    assert clearance["values"][0] == {"station": "1", "raw": 55_880, "shown": "2.2", "state": "in"}
    assert (clearance["low"], clearance["high"]) == (50_800, 76_200)
    assert build["working"]["who"] == "Builder" and build["working"]["at"] > 0
    assert build["devices"][0]["label"] == "Bench phone" and build["devices"][0]["last_sync"] > 0
    assert {p["id"] for p in build["phases"]} == {"block", "bottom", "timing"}


def test_an_unchanged_board_is_a_304(builder, push, chief):
    first = chief.get("/api/board")
    again = chief.get("/api/board", **{"If-None-Match": first.headers["ETag"]})
    assert (again.status_code, again.content) == (304, b"") and again.headers["Cache-Control"] == "no-store"
    assert chief.get("/api/board", **{"If-None-Match": f"W/{first.headers['ETag']}"}).status_code == 304
    push(builder.event())
    changed = chief.get("/api/board", **{"If-None-Match": first.headers["ETag"]})
    assert changed.status_code == 200 and changed.headers["ETag"] != first.headers["ETag"]


@pytest.mark.parametrize(
    "change",
    [
        lambda: Device.objects.update(last_sync=timezone.now()),
        lambda: Device.objects.update(waiting=4),
        lambda: Build.objects.update(name="Another name"),
        lambda: Person.objects.filter(slug="builder").update(name="Someone"),
        lambda: Build.objects.get().status.delete(),
    ],
)
def test_whatever_the_board_shows_changes_its_tag(push, chief, change):
    tag = chief.get("/api/board").headers["ETag"]
    change()
    assert chief.get("/api/board", **{"If-None-Match": tag}).status_code == 200


def test_the_tag_is_cheap(push, chief, django_assert_max_num_queries):
    tag = chief.get("/api/board").headers["ETag"]
    with django_assert_max_num_queries(4):
        assert chief.get("/api/board", **{"If-None-Match": tag}).status_code == 304


def test_one_persons_tag_is_not_anothers(push, chief, owner):
    assert chief.get("/api/board").headers["ETag"] != owner.get("/api/board").headers["ETag"]


def test_a_hold_says_since_when_and_keeps_it(builder, push, chief):
    for station in "12345":
        push(_reading(builder, station, "2.4480", "main_journal"), _reading(builder, station, "2.4490", "main_bore"))
    sheet = builder.get(f"/api/builds/{BUILD}/sheet").json()
    fits = {f["fit"]: f for f in sheet["fits"]}
    assert fits["main_clearance"]["values"][0]["state"] == "under"


def test_the_sheet_is_whole(builder, push):
    first, second = _reading(builder, "1", "2.4470", "main_journal"), _reading(builder, "1", "2.4480", "main_journal")
    push(
        first,
        second,
        builder.event("strike", {"event": f"{builder.dev}:{first['n']}", "why": "cold micrometer"}),
        builder.event(
            "limit.set",
            {"limit": "main_clearance", "authority": "shop", "low": "0.0021", "high": "0.0029", "aim": None, "unit": "in", "source": "race sheet"},
        ),
        builder.event("part.added", {"part": "s1", "kind": "cam_shim", "title": "shim", "size": None}),
    )
    sheet = builder.get(f"/api/builds/{BUILD}/sheet").json()
    assert [(r["text"], r["counts"], r["struck"]) for r in sheet["readings"]] == [("2.4470", False, True), ("2.4480", True, False)]
    assert {r["title"] for r in sheet["readings"]} == {"Main journal"}
    assert sheet["limits"]["build"][0]["source"] == "race sheet" and sheet["limits"]["build"][0]["who"] == "builder"
    assert sheet["limits"]["procedure"]["main_clearance"][0]["source"] == "common practice, no published source"
    assert {r["duty"] for rows in sheet["limits"]["procedure"].values() for r in rows} == {"race"}
    assert sheet["parts"][0]["part"] == "s1"
    assert sheet["build"]["procedure"] == "pushrod-v8" and len(sheet["build"]["digest"]) == 64
    assert sheet["head"] == 6 and sheet["head_hash"] == Build.objects.get().head_hash


def test_a_concession_nobody_reviewed_says_so(builder, push, owner):
    granted = builder.event("concession", {"fit": "main_clearance", "station": "1", "value": None, "reason": "spare engine", "granted_by": "Builder"})
    push(granted)
    concession = builder.get(f"/api/builds/{BUILD}/sheet").json()["concessions"][0]
    assert (concession["reason"], concession["review"]) == ("spare engine", "not independently reviewed")
    owner.sync(owner.event("concession.countersigned", {"event": f"{builder.dev}:{granted['n']}", "note": ""}, seen=2))
    push(builder.event())
    assert builder.get(f"/api/builds/{BUILD}/sheet").json()["concessions"][0]["review"] == "Owner"


def test_procedures(builder):
    lines = builder.get("/api/procedures").json()
    line = next(p for p in lines if p["id"] == "pushrod-v8")
    answer = builder.get(f"/api/procedures/{line['id']}/{line['revision']}")
    assert answer.json()["digest"] == line["digest"] and "immutable" in answer.headers["Cache-Control"]
    assert builder.get("/api/procedures/pushrod-v8/999").status_code == 404
    assert builder.get("/api/procedures/nobody-wrote-it/1").status_code == 404


def test_a_build_without_any_event_is_shown_as_one_nobody_works_on(builder, push):
    """Earlier versions left one where the event that was to open it was a fork."""
    push(builder.opening())
    person = Person.objects.get(slug="builder")
    Build.objects.create(shop=person.shop, key="b-empty", name="Empty", procedure="", revision=0, duty="").people.add(person)
    shown = {b["id"]: b for b in builder.get("/api/board").json()["builds"]}
    assert shown["b-empty"]["working"] is None and shown["b-empty"]["head"] == 0
