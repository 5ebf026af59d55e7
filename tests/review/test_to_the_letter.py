"""Where the bounds of a review lie: when it is taken over, whose word covers whose, and what fits the rows."""

from datetime import timedelta

import pytest
from django.utils import timezone

from record.models import Build, BuildStatus, Reading
from review import claim
from review.project import project

pytestmark = pytest.mark.django_db


@pytest.fixture
def build(builder):
    builder.sync(builder.opening(), builder.event())
    return Build.objects.get()


def answer(**more) -> dict:
    return {"overview": {}, "findings": [], "fits": [], "holds": [], "readings": []} | more


def reading(build: Build, **more) -> dict:
    event = build.events.get(seq=2)
    row = {"event": f"{event.dev}:{event.n}", "spot": "a@1", "point": "a", "station": "1", "value": 7, "text": "7", "unit": "mm"}
    return row | {"who": "builder", "at": 1, "counts": True, "struck": False} | more


@pytest.mark.parametrize(("ago", "taken"), [(29, False), (30.5, True)])
def test_a_review_that_says_nothing_for_half_a_minute_is_taken_over(build, ago, taken):
    Build.objects.update(claimed=timezone.now() - timedelta(seconds=ago), dirty=False)
    assert (claim.claim(build.pk) is not None) == taken


def test_the_same_position_reviewed_again_is_replaced(build):
    assert project(build=build, answer=answer(fits=[1])) is True
    assert project(build=build, answer=answer(fits=[2])) is True
    assert BuildStatus.objects.get().said["fits"] == [2]


@pytest.mark.parametrize(("value", "kept"), [(2**63 - 1, 2**63 - 1), (1 - 2**63, 1 - 2**63), (2**63, None), (-(2**63), None), (None, None), (0, 0)])
def test_a_value_no_column_can_hold_is_left_to_the_entry(build, value, kept):
    project(build=build, answer=answer(readings=[reading(build, value=value)]))
    assert (Reading.objects.get().value, Reading.objects.get().seq) == (kept, 2)


def test_words_are_cut_to_their_columns(build):
    long = dict.fromkeys(("spot", "point", "station", "text", "unit", "who"), "\x00" + "w" * 200)
    project(build=build, answer=answer(readings=[reading(build, **long)]))
    row = Reading.objects.values().get()
    assert {name: len(row[name]) for name in long} == {"spot": 120, "point": 80, "station": 40, "text": 80, "unit": 20, "who": 40}
    assert {name: Reading._meta.get_field(name).max_length for name in long} == {name: len(row[name]) for name in long}
    assert "\x00" not in "".join(row[name] for name in long)


def test_a_hold_is_as_old_as_the_review_that_first_saw_it(build):
    def since(*holds: str) -> dict[str, int]:
        project(build=build, answer=answer(holds=[{"step": step, "title": "t"} for step in holds]))
        return {h["step"]: h["since"] for h in BuildStatus.objects.get().said["holds"]}

    first = int(build.last_event.timestamp() * 1000)
    assert since("a") == {"a": first}
    build.last_event += timedelta(seconds=5)
    assert since("a", "b") == {"a": first, "b": first + 5_000}


def test_a_build_without_an_entry_of_its_own_holds_since_the_beginning_of_time(build):
    build.last_event = None
    project(build=build, answer=answer(holds=[{"step": "a", "title": "t"}]))
    assert BuildStatus.objects.get().said["holds"] == [{"step": "a", "title": "t", "since": 0}]
