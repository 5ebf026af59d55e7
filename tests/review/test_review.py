"""Reviews: the kernel's words stored whole, once, whatever happens to the message or the worker."""

import json
from datetime import timedelta

import pytest
from django.utils import timezone

from kernel import door
from record import procedures
from record.models import Build, BuildStatus, Event, Reading
from review import ask, claim, tasks
from tests.record.world import BUILD

pytestmark = pytest.mark.django_db


def _reading(phone, station, text, point="main_journal", **more):
    return phone.event("reading", {"point": point, "station": station, "text": text, "unit": "in"}, **more)


@pytest.fixture
def pushed(builder):
    """A build with readings whose job was lost: dirty, not reviewed."""
    first = _reading(builder, "1", "2.4480")
    builder.sync(
        builder.opening(),
        first,
        _reading(builder, "1", "2.4485"),
        _reading(builder, "2", "2.4481"),
        builder.event("strike", {"event": f"{builder.dev}:{first['n']}", "why": "read at the fillet"}),
    )
    return Build.objects.get()


def _projections():
    return (
        list(BuildStatus.objects.values("seq", "head_hash", "answer")),
        list(Reading.objects.order_by("seq").values_list("seq", "spot", "value", "text", "counts", "struck")),
    )


def test_readings_become_rows(pushed, builder):
    assert tasks.review_build(pushed.pk) is True
    rows = list(Reading.objects.order_by("seq").values_list("seq", "spot", "value", "text", "unit", "who", "counts", "struck"))
    assert rows == [
        (2, "main_journal@1", 62_179_200, "2.4480", "in", "builder", False, True),
        (3, "main_journal@1", 62_191_900, "2.4485", "in", "builder", True, False),
        (4, "main_journal@2", 62_181_740, "2.4481", "in", "builder", True, False),
    ]
    pushed.refresh_from_db()
    assert (pushed.dirty, pushed.claimed, pushed.status.seq, pushed.status.head_hash) == (False, None, 5, pushed.head_hash)


def test_the_server_says_what_the_kernel_says(pushed):
    tasks.review_build(pushed.pk)
    pushed.refresh_from_db()
    said = door.answer(
        {
            "op": "status",
            "procedure": procedures.procedure("pushrod-v8", 1),
            "people": {"builder": "Builder"},
            "events": [e.wire() for e in Event.objects.order_by("seq")],
            "units": ask.UNITS,
            "now": int(pushed.last_event.timestamp() * 1000),
        }
    )
    for part in ("overview", "findings", "fits"):
        assert pushed.status.said[part] == json.loads(json.dumps(said[part]))


def test_a_second_review_changes_nothing(pushed):
    tasks.review_build(pushed.pk)
    before = _projections()
    assert tasks.review_build(pushed.pk) is False
    Build.objects.update(dirty=True)
    assert tasks.review_build(pushed.pk) is True
    assert _projections() == before


def test_projections_can_be_thrown_away(pushed):
    tasks.review_build(pushed.pk)
    before = _projections()
    BuildStatus.objects.all().delete()
    Reading.objects.all().delete()
    Build.objects.update(dirty=True)
    tasks.sweep()
    assert _projections() == before


def test_the_sweep_finds_a_lost_message(pushed):
    assert pushed.dirty and not BuildStatus.objects.exists()
    assert tasks.sweep() == 1 and tasks.sweep() == 0
    assert BuildStatus.objects.get().seq == 5


def test_two_runs_do_not_review_at_once(pushed):
    assert claim.claim(pushed.pk) is not None
    assert claim.claim(pushed.pk) is None and tasks.review_build(pushed.pk) is False


def test_a_killed_review_is_taken_over(pushed):
    claim.claim(pushed.pk)
    assert tasks.sweep() == 0
    Build.objects.update(claimed=timezone.now() - claim.ABANDONED - timedelta(seconds=1))
    assert tasks.sweep() == 1
    assert BuildStatus.objects.get().seq == 5


def test_a_late_run_does_not_cover_a_newer_one(pushed, builder):
    from review.project import project

    old = claim.claim(pushed.pk)
    late = ask.ask(old)
    builder.sync(_reading(builder, "3", "2.4482"))
    Build.objects.update(claimed=None)
    tasks.review_build(pushed.pk)
    before = _projections()
    assert project(build=old, answer=late) is False
    assert _projections() == before


def test_events_that_come_during_a_review_are_reviewed_next(pushed, builder, monkeypatch):
    really, came = ask.ask, []

    def slow(build):
        if not came:
            came.append(builder.sync(_reading(builder, "3", "2.4482")))
        return really(build)

    monkeypatch.setattr(tasks, "ask", slow)
    tasks.review_build(pushed.pk)
    assert BuildStatus.objects.get().seq == 6
    assert not Build.objects.get().dirty


def test_a_review_that_fails_waits_for_the_sweep(pushed, monkeypatch):
    def broken(**_):
        raise RuntimeError("disk full")

    monkeypatch.setattr(tasks, "project", broken)
    with pytest.raises(RuntimeError):
        tasks.review_build(pushed.pk)
    monkeypatch.undo()
    assert Build.objects.get().dirty and tasks.sweep() == 1
    assert BuildStatus.objects.get().seq == 5


def test_a_kernel_that_fails_is_said(pushed, monkeypatch):
    def broken(request):
        raise ZeroDivisionError

    monkeypatch.setattr(ask.door, "answer", broken)
    tasks.review_build(pushed.pk)
    assert [f["check"] for f in BuildStatus.objects.get().said["findings"]] == ["not_checked"]


def test_the_push_itself_sends_the_review(builder, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        builder.sync(builder.opening(), _reading(builder, "1", "2.4480"))
    assert builder.sync().json()["builds"][BUILD]["reviewed"] == 2


def test_a_fork_is_shown_as_a_finding(builder, django_capture_on_commit_callbacks):
    event = _reading(builder, "1", "2.4480")
    with django_capture_on_commit_callbacks(execute=True):
        builder.sync(builder.opening(), event)
    with django_capture_on_commit_callbacks(execute=True):
        builder.sync(event | {"at": 5})
    findings = builder.sync().json()["builds"][BUILD]["findings"]
    assert [f["says"] for f in findings if f["check"] == "fork"] == [f"Event {builder.dev}:{event['n']} came twice with different contents."]
