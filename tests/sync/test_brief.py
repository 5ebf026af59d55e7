"""A phone that asks briefly is not told its own entries again: their positions and marks are enough."""

import pytest

from record.models import Build, Event
from record.selectors import events_after
from tests.record.world import BUILD, Phone

pytestmark = pytest.mark.django_db


def brief(phone: Phone, *events: object, follow: dict | None = None, said: object = True) -> dict:
    """The answer to a brief request; `said`: what the phone sends for that."""
    asked = {"dev": phone.dev, "epoch": phone.epoch, "events": list(events), "follow": follow or {}, "brief": said}
    answer = phone.post("/api/sync", asked).json()
    phone.epoch = answer["epoch"]
    return answer


def told(answer: dict) -> list[int]:
    return [event["seq"] for event in answer["builds"][BUILD]["events"]]


def test_own_entries_come_as_position_and_mark(builder):
    answer = brief(builder, builder.opening(), builder.event())
    assert told(answer) == [] and answer["builds"][BUILD]["head"] == 2 and not answer["builds"][BUILD]["more"]
    assert answer["you"] == {"who": "builder", "role": "builder"}
    full = builder.sync().json()["builds"][BUILD]["events"]
    assert [(v["n"], v["verdict"], v["seq"], v["mark"]) for v in answer["verdicts"]] == [(e["n"], "stored", e["seq"], e["mark"]) for e in full]
    assert all((e["who"], e["role"]) == tuple(answer["you"].values()) for e in full)


@pytest.mark.parametrize("said", [False, 1, "yes", None])
def test_who_does_not_ask_for_it_is_told_everything(builder, said):
    answer = brief(builder, builder.opening(), builder.event(), said=said)
    assert told(answer) == [1, 2] and all("mark" not in v for v in answer["verdicts"])


def test_what_others_recorded_is_told(builder):
    brief(builder, builder.opening())
    owner = Phone("owner-tern-hollow")
    owner.sync(owner.event(), owner.event())
    answer = brief(builder, builder.event(), builder.event(), follow={BUILD: 1})
    assert told(answer) == [2, 3] and [v["seq"] for v in answer["verdicts"]] == [4, 5]
    assert told(brief(builder, builder.event(), follow={BUILD: 5})) == []


def test_what_was_stored_before_is_told_again(builder):
    opening, first = builder.opening(), builder.event()
    brief(builder, opening)
    brief(builder, first, follow={BUILD: 1})  # suppose that its answer was lost
    answer = brief(builder, first, builder.event(), follow={BUILD: 1})
    assert told(answer) == [2] and [(v["verdict"], v.get("mark", "") != "") for v in answer["verdicts"]] == [("duplicate", False), ("stored", True)]


def test_entries_brought_of_another_phone_are_told_with_all_of_their_build(builder):
    other = Phone("builder-tern-hollow")
    brief(builder, builder.opening())
    brought = other.event() | {"who": "builder", "role": "builder"}
    answer = brief(builder, builder.event(), brought, follow={BUILD: 1})
    assert told(answer) == [2, 3] and all("mark" not in v for v in answer["verdicts"])
    assert {e.dev for e in Event.objects.all()} == {builder.dev, other.dev}


def test_entries_that_come_home_with_another_author_are_told(builder, tern):
    """Two people on one phone: what the apprentice recorded waited for the opening."""
    builders = builder.token
    builder.log_in("apprentice-tern-hollow")
    brief(builder, builder.event())
    builder.token = builders
    answer = brief(builder, builder.opening())
    assert told(answer) == [1, 2] and {e["who"] for e in answer["builds"][BUILD]["events"]} == {"apprentice", "builder"}


def test_positions_held_are_left_out(builder):
    builder.sync(builder.opening(), *[builder.event() for _ in range(4)])
    build = Build.objects.get()

    def seqs(after: int, held: range) -> list[int]:
        return [seq for seq, _ in events_after(build, after, 10, "", held)]

    assert seqs(0, range(0)) == [1, 2, 3, 4, 5] and seqs(0, range(1, 6)) == [] and seqs(2, range(3, 6)) == []
    assert seqs(0, range(1, 4)) == [4, 5] and seqs(0, range(3, 6)) == [1, 2] and seqs(1, range(3, 4)) == [2, 4, 5]


def test_who_lacks_nothing_costs_no_question(builder, django_assert_num_queries):
    builder.sync(builder.opening(), builder.event(), builder.event())
    build = Build.objects.select_related("shop").get()
    with django_assert_num_queries(0):
        for after, held in ((3, ()), (9, ()), (0, range(1, 4)), (1, range(2, 4)), (2, range(3, 4))):
            assert events_after(build, after, 10, "", held) == []
    for after, held, due in ((0, range(2, 4), [1]), (0, range(1, 3), [3]), (2, (), [3]), (1, range(3, 4), [2])):
        with django_assert_num_queries(1):
            assert [seq for seq, _ in events_after(build, after, 10, "", held)] == due
