"""One batch coming in: what is said of it, what the columns take of it, what it asks of the database, and what waits for its build."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from record import intake, services
from record.models import Build, Event, Quarantine
from record.services import adopt_waiting, ingest
from record.shape import Draft, read
from shop.models import Device, Person
from tests.record.unguarded import unguarded
from tests.record.world import BUILD, V8, Phone

pytestmark = pytest.mark.django_db


def test_who_may_not_open_a_build_hears_it_and_who_has_none_hears_that(tern):
    apprentice = Phone("apprentice-tern-hollow")
    said = apprentice.sync(apprentice.opening(), apprentice.event()).json()["verdicts"]
    assert [v["why"] for v in said] == [
        "Only an owner or a builder may open a build. Ask one of them to open it.",
        "There is no such build here. Open the build on this phone first.",
    ]
    assert [q.why for q in Quarantine.objects.order_by("pk")] == [v["why"] for v in said]


def test_every_sentence_fits_its_column():
    room = Quarantine._meta.get_field("why").max_length
    assert all(len(why) <= room for why in (intake.NO_BUILD, intake.NOT_YOURS, intake.FORK, intake.FOREIGN))


def opened(phone: Phone, key: str, **body: object) -> Build:
    assert phone.verdicts(phone.event("build.opened", V8 | body, build=key)) == ["stored"]
    return Build.objects.get(key=key)


@pytest.mark.parametrize("name", ["name", "procedure", "duty"])
def test_what_an_opening_says_is_cut_to_the_length_of_its_column(builder, name):
    room = Build._meta.get_field(name).max_length
    assert getattr(opened(builder, "b-full", **{name: "x" * room}), name) == "x" * room
    assert getattr(opened(builder, "b-over", **{name: "x" * room + "y"}), name) == "x" * room


@pytest.mark.parametrize(("said", "kept"), [(1, 1), (0, 0), (-1, 0), (2**31 - 1, 2**31 - 1), (2**31, 0), (True, 0), ("3", 0), (None, 0)])
def test_a_revision_is_a_count_that_its_column_holds(builder, said, kept):
    assert opened(builder, "b-one", revision=said).revision == kept


def test_a_build_without_a_name_is_called_by_its_id(builder):
    assert opened(builder, "b-nameless", name="\x00").name == "b-nameless"


def drafts(phone: Phone, *numbers: int) -> list[Draft]:
    return [read(phone.event(n=n)) for n in numbers]


def test_only_numbers_up_to_the_highest_stored_are_asked_after(builder, tern, django_assert_num_queries):
    """One question a phone, as long as nothing is sent again."""
    other = Phone("owner-tern-hollow")
    with django_assert_num_queries(1):
        assert intake._known(drafts(builder, 1, 2)) == {}
    builder.sync(builder.opening(n=1), builder.event(n=2))
    with django_assert_num_queries(2):
        assert intake._known(drafts(builder, 3, 4) + drafts(other, 1, 2)) == {}
    with django_assert_num_queries(2):
        assert set(intake._known(drafts(builder, 2, 3))) == {(builder.dev, 2)}


def test_a_push_is_one_transaction_and_makes_none_inside_it(builder):
    builder.sync(builder.opening())
    device, person = Device.objects.get(dev=builder.dev), Person.objects.get(slug="builder")
    with CaptureQueriesContext(connection) as asked:
        ingest(device=device, person=person, things=drafts(builder, 2))
    assert Event.objects.count() == 2 and not [q for q in asked if "SAVEPOINT" in q["sql"]]


@pytest.fixture
def waiting(tern) -> Phone:
    """An apprentice's phone with two events for a build that nobody has opened, and one for another such."""
    apprentice = Phone("apprentice-tern-hollow")
    assert apprentice.verdicts(apprentice.event(), apprentice.event(), apprentice.event(build="b-second")) == ["quarantined"] * 3
    return apprentice


def test_opening_a_build_takes_in_what_other_phones_have_waiting(waiting, owner, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        owner.sync(owner.opening())
    assert [e.who for e in Event.objects.order_by("seq")] == ["owner", "apprentice", "apprentice"]


def test_nothing_else_looks_for_what_waits(builder, monkeypatch, django_capture_on_commit_callbacks):
    looked = []
    monkeypatch.setattr(services, "adopt_waiting", looked.append)
    for event, looks in ((builder.opening(), 1), (builder.event(), 1), (builder.opening(), 1), (builder.opening(build="b-second"), 2)):
        with django_capture_on_commit_callbacks(execute=True):
            assert builder.verdicts(event) == ["stored"]
        assert len(looked) == looks


def test_what_fails_there_does_not_fail_the_opening(builder, monkeypatch, django_capture_on_commit_callbacks):
    def fails(shop):
        raise RuntimeError

    monkeypatch.setattr(services, "adopt_waiting", fails)
    with django_capture_on_commit_callbacks(execute=True):
        assert builder.verdicts(builder.opening()) == ["stored"]


def test_how_many_were_taken_in_is_said(waiting, owner):
    assert adopt_waiting() == 0
    owner.sync(owner.opening())
    assert adopt_waiting() == 2 and adopt_waiting() == 0
    owner.sync(owner.opening(build="b-second"))
    assert adopt_waiting(Device.objects.get(dev=owner.dev).shop) == 1


def test_what_came_home_does_not_come_again_while_more_waits(waiting, owner):
    owner.sync(owner.opening())
    assert [v["n"] for v in waiting.sync().json()["verdicts"]] == [1, 2]
    assert Device.objects.get(dev=waiting.dev).homeless
    assert waiting.sync().json()["verdicts"] == [] and Event.objects.count() == 3
    owner.sync(owner.opening(build="b-second"))
    assert [v["n"] for v in waiting.sync().json()["verdicts"]] == [3]
    assert not Device.objects.get(dev=waiting.dev).homeless


def test_the_role_is_that_of_when_it_came(waiting, owner):
    Person.objects.filter(slug="apprentice").update(role="builder")
    owner.sync(owner.opening())
    waiting.sync()
    assert {e.role for e in Event.objects.filter(who="apprentice")} == {"apprentice"}


def test_where_none_was_noted_it_is_the_persons_own(waiting, owner):
    """As in records begun before roles were noted with what is put aside."""
    with unguarded():
        Quarantine.objects.update(role="")
    owner.sync(owner.opening())
    waiting.sync()
    assert {e.role for e in Event.objects.filter(who="apprentice")} == {"apprentice"} and BUILD in owner.sync().json()["builds"]
