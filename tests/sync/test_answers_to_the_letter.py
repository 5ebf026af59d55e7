"""What a phone is answered, to the letter and to the last position."""

import json

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from record.models import Build
from review.tasks import sweep
from shop.models import Device
from sync import answer as answering
from sync import views
from sync.request import MOST_EVENTS
from tests.record.world import BUILD, Phone

from .test_brought_by_others import told

pytestmark = pytest.mark.django_db


def fill(phone: Phone, more: int) -> None:
    """So many entries of its build, a push at a time."""
    for at in range(0, more, MOST_EVENTS):
        phone.sync(*[phone.event() for _ in range(min(MOST_EVENTS, more - at))], follow={BUILD: 9_999})


def up_to_date(phone: Phone, said: dict) -> dict:
    """How a phone asks that holds all it was told."""
    heads = {key: build["head_hash"] for key, build in said["builds"].items()}
    follow = {key: build["head"] for key, build in said["builds"].items()}
    return {"epoch": said["epoch"], "follow": follow, "heads": heads, "receipt": said["device"]}


def test_two_thousand_entries_of_a_build_come_at_once(builder):
    builder.sync(builder.opening())
    fill(builder, 2_000)
    first = told(builder)
    assert (len(first["builds"][BUILD]["events"]), first["builds"][BUILD]["more"]) == (2_000, True)
    rest = told(builder, epoch=first["epoch"], follow={BUILD: 2_000})["builds"][BUILD]
    assert ([e["seq"] for e in rest["events"]], rest["more"]) == ([2_001], False)


def test_a_piece_that_ends_at_the_head_is_the_last(builder, monkeypatch):
    monkeypatch.setattr(answering, "MOST_EVENTS", 3)
    builder.sync(builder.opening(), builder.event(), builder.event())
    build = told(builder)["builds"][BUILD]
    assert (len(build["events"]), build["head"], build["more"]) == (3, 3, False)


def test_what_is_put_aside_has_no_position_and_what_is_stored_no_reason(builder):
    aside, stored = builder.sync(builder.event(n=0), builder.opening()).json()["verdicts"]
    assert sorted(aside) == ["n", "verdict", "why"] and sorted(stored) == ["n", "seq", "verdict"]


def test_a_build_says_up_to_where_it_was_reviewed(builder):
    build = builder.sync(builder.opening()).json()["builds"][BUILD]
    assert (build["reviewed"], build["findings"]) == (0, [])
    sweep()
    assert builder.sync().json()["builds"][BUILD]["reviewed"] == 1


def test_what_another_stores_before_the_answer_is_put_together_is_told(builder, owner, monkeypatch):
    told(builder, events=[builder.opening()], brief=True)
    really = views.answer

    def later(**asked):
        monkeypatch.setattr(views, "answer", really)
        owner.sync(owner.event())
        return really(**asked)

    monkeypatch.setattr(views, "answer", later)
    said = told(builder, epoch="", events=[builder.event()], brief=True)
    assert [e["seq"] for e in said["builds"][BUILD]["events"]] == [1, 3]
    assert [v["seq"] for v in said["verdicts"]] == [2]


def test_who_has_everything_costs_no_look_at_the_entries(builder):
    asked = up_to_date(builder, told(builder, events=[builder.opening(), builder.event()]))
    with CaptureQueriesContext(connection) as seen:
        said = told(builder, **asked)
    assert said["epoch"] == asked["epoch"] and said["builds"][BUILD]["events"] == []
    assert [q["sql"] for q in seen if "record_event" in q["sql"]] == []


def test_earlier_positions_of_two_builds_are_borne_out(builder):
    other = "b-second"
    first = told(builder, events=[builder.opening(), builder.opening(build=other)])
    builder.sync(builder.event(), builder.event(build=other))
    asked = up_to_date(builder, first) | {"receipt": None}
    assert asked["follow"] == {BUILD: 1, other: 1}
    assert told(builder, **asked)["epoch"] == first["epoch"]
    for build in (BUILD, other):
        again = told(builder, **asked | {"heads": asked["heads"] | {build: "0" * 64}})
        assert again["epoch"] != asked["epoch"]
        asked["epoch"] = again["epoch"]


def test_a_receipt_for_the_very_first_entry_counts(builder, owner):
    owner.sync(owner.opening())
    said = told(builder)
    assert said["device"] == {"place": 0, "link": "", "aside": 0}
    assert told(builder, epoch=said["epoch"], receipt={"place": 1, "link": "x"})["epoch"] != said["epoch"]


def test_an_earlier_receipt_is_borne_out(builder):
    early = told(builder, events=[builder.opening()])
    builder.sync(builder.event())
    assert told(builder, epoch=early["epoch"], receipt=early["device"])["epoch"] == early["epoch"]


@pytest.mark.parametrize(("said", "sent", "held"), [("3", 2, 1), ("2", 2, 0), ("1", 2, 0), ("", 2, 0), ("5", 0, 5)])
def test_what_is_waiting_is_what_the_phone_said_less_what_it_sent(builder, said, sent, held):
    builder.sync(builder.opening())
    builder.sync(*[builder.event() for _ in range(sent)], **{"Halfthou-Waiting": said})
    assert Device.objects.get().waiting == held


def test_a_poll_stores_nothing_and_opens_no_review(builder):
    builder.sync(builder.opening())
    sweep()
    assert builder.sync().json()["verdicts"] == [] and not Build.objects.get().dirty


def test_the_answer_is_one_object_of_json(builder):
    raw = builder.sync(builder.opening(), builder.event()).content
    said = json.loads(raw)
    assert list(said) == ["epoch", "time", "device", "verdicts", "people", "shop", "you", "builds"]
    assert [e["seq"] for e in said["builds"][BUILD]["events"]] == [1, 2]
