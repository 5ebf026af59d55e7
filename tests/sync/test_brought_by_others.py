"""What another phone brings back, whose word counts, and how a server notices that it was put back."""

import pytest

from record.carry import signed
from record.chain import mark
from record.models import Build, Event, Quarantine
from record.shape import read
from record.verify import flaws
from shop.models import Device, DeviceToken, Person, Shop
from tests.record.unguarded import unguarded
from tests.record.world import BUILD, Phone

from .test_files import lines

pytestmark = pytest.mark.django_db


def forget(*events: Event) -> None:
    """The server goes back to before these, which are the last of their build and device; it keeps its epoch."""
    with unguarded():
        for event in events:
            Event.objects.filter(pk=event.pk).delete()
            before = Event.objects.filter(build=event.build_id).order_by("-seq").first()
            Build.objects.filter(pk=event.build_id).update(head=event.seq - 1, head_hash=before.chain)
            last = Event.objects.filter(dev=event.dev).order_by("-place").first()
            Device.objects.filter(dev=event.dev).update(count=event.place - 1, link=last.link if last else "")


def told(phone: Phone, **more) -> dict:
    asked = {"dev": phone.dev, "epoch": phone.epoch, "events": [], "follow": {}} | more
    return phone.post("/api/sync", asked).json()


@pytest.fixture
def lost(builder, owner):
    """A build, and the builder's last event as the owner's phone had read it before the server lost it."""
    builder.sync(builder.opening(), builder.event())
    kept = told(owner)["builds"][BUILD]["events"]
    forget(Event.objects.get(seq=2))
    return kept[1]


def test_a_signed_event_comes_back_as_it_was_whoever_brings_it(lost, tern):
    Person.objects.filter(slug="builder").update(role="apprentice")  # what counts is what was stamped then
    chief = Phone("crew_chief-tern-hollow")
    assert chief.verdicts(lost, lost) == ["stored", "duplicate"]
    row = Event.objects.get(seq=2)
    assert (row.who, row.role, row.carried, row.dev) == ("builder", "builder", "", lost["dev"])
    assert list(flaws()) == []


def test_also_of_a_phone_this_copy_never_heard_of(builder, owner, tern):
    builder.sync(builder.opening())
    kept = told(owner)["builds"][BUILD]["events"]
    forget_all(builder)
    assert owner.verdicts(*kept) == ["stored"]
    assert Device.objects.get(dev=builder.dev).count == 1 and list(flaws()) == []


def forget_all(phone: Phone) -> None:
    with unguarded():
        Event.objects.all().delete()
        Build.objects.all().delete()
        DeviceToken.objects.filter(device__dev=phone.dev).delete()
        Device.objects.filter(dev=phone.dev).delete()


@pytest.mark.parametrize("change", [{"mark": "0" * 32}, {"who": "owner"}, {"role": "owner"}, {"carried": "x"}, {"at": 1}, {"mark": None}, {"mark": 7}])
def test_a_changed_one_is_put_aside(lost, tern, change):
    apprentice = Phone("apprentice-tern-hollow")
    assert apprentice.verdicts(lost | change) == ["quarantined"]
    assert Quarantine.objects.get().kind == "foreign" and Event.objects.count() == 1


def test_an_owner_vouches_and_is_named(lost, owner):
    assert owner.verdicts(lost | {"mark": "0" * 32}) == ["stored"]
    assert (Event.objects.get(seq=2).who, Event.objects.get(seq=2).carried) == ("builder", "owner")
    assert told(owner)["builds"][BUILD]["events"][1]["carried"] == "owner"


def test_nobody_vouches_for_somebody_unknown(lost, owner):
    assert owner.verdicts(lost | {"who": "nobody"}) == ["quarantined"]
    assert not signed(read({k: v for k, v in lost.items() if k != "mark"}), Shop.objects.get())


def test_an_event_of_an_unknown_phone_is_nobodys(builder, owner):
    builder.sync(builder.opening())
    assert owner.verdicts(owner.event(dev="e" * 32) | {"who": "owner", "role": "owner"}) == ["quarantined"]
    assert not Device.objects.filter(dev="e" * 32).exists()  # what is put aside makes no phone known


def test_a_signed_event_without_its_build_makes_no_phone_known(builder, owner):
    signed_one = told(builder, events=[builder.opening()])["builds"][BUILD]["events"][0] | {"type": "reading"}
    key, draft = Shop.objects.get().mark_key, read({k: v for k, v in signed_one.items() if k != "mark"})
    signed_one["mark"] = mark(key, dev=draft.dev, n=draft.n, who="builder", role="builder", carried="", hash=draft.hash)
    forget_all(builder)
    assert owner.verdicts(signed_one) == ["quarantined"]
    assert not Device.objects.filter(dev=builder.dev).exists()


def test_a_receipt_that_is_not_borne_out_begins_a_new_generation(builder):
    said = told(builder, events=[builder.opening(), builder.event(), builder.event()])
    builder.epoch, receipt, head = said["epoch"], said["device"], said["builds"][BUILD]["head_hash"]
    same = {"follow": {BUILD: 3}, "heads": {BUILD: head}, "receipt": receipt}
    assert told(builder, **same)["epoch"] == builder.epoch
    early = Event.objects.get(seq=2).chain
    assert told(builder, follow={BUILD: 2}, heads={BUILD: early})["epoch"] == builder.epoch
    for wrong in ({"heads": {BUILD: "0" * 64}}, {"follow": {BUILD: 2}}, {"receipt": receipt | {"place": 4}}, {"receipt": receipt | {"link": "x"}}):
        said = told(builder, **same | wrong)
        assert said["epoch"] != builder.epoch and len(said["builds"][BUILD]["events"]) == 3, wrong
        builder.epoch = said["epoch"]


def test_a_server_that_forgot_what_was_put_aside_begins_a_new_generation(builder):
    said = told(builder, events=[builder.event(), builder.event()])
    builder.epoch, receipt = said["epoch"], said["device"]
    assert receipt == {"place": 0, "link": "", "aside": 2}
    assert told(builder, receipt=receipt)["epoch"] == builder.epoch
    with unguarded():
        Quarantine.objects.filter(event=f"{builder.dev}:2").delete()
    said = told(builder, receipt=receipt)
    assert said["epoch"] != builder.epoch and said["device"]["aside"] == 1


def test_a_server_put_back_in_silence_and_filled_anew_is_noticed(builder, owner):
    said = told(builder, events=[builder.opening(), builder.event()])
    builder.epoch = said["epoch"]
    told(owner)
    forget(Event.objects.get(seq=2))
    assert owner.verdicts(owner.event()) == ["stored"]  # the same position, another event
    again = told(builder, follow={BUILD: 2}, heads={BUILD: said["builds"][BUILD]["head_hash"]})
    assert again["epoch"] != builder.epoch


@pytest.mark.parametrize("odd", [{"heads": 7}, {"heads": {BUILD: 7}}, {"receipt": []}, {"receipt": {"place": True, "link": "x"}}, {"receipt": {"place": 1, "link": 7}},
                                 {"receipt": {"place": 1, "link": "\x00"}}, {"receipt": {"place": 0, "link": ""}},
                                 {"receipt": {"place": 0, "link": "", "aside": "9"}}, {"receipt": {"place": 0, "link": "", "aside": True}}, {"heads": {"b-x": "y"}}, {"receipt": None}])  # fmt: skip
def test_odd_receipts_are_ignored(builder, odd):
    builder.epoch = told(builder, events=[builder.opening()])["epoch"]
    assert told(builder, follow={BUILD: 1}, **odd)["epoch"] == builder.epoch


def test_signed_by_file_too(lost, builder, tern):
    chief = Phone("crew_chief-tern-hollow")
    assert chief.post("/api/import", lines(lost, who="builder")).json()["stored"] == 1


def test_what_waited_is_found_by_the_sweep(tern):
    from review.tasks import sweep

    apprentice, owner = Phone("apprentice-tern-hollow"), Phone("owner-tern-hollow")
    assert apprentice.verdicts(apprentice.event(), apprentice.opening()) == ["quarantined"] * 2
    sweep()
    assert Event.objects.count() == 0 and Device.objects.get(dev=apprentice.dev).homeless
    owner.sync(owner.opening())
    sweep()
    assert list(Event.objects.order_by("seq").values_list("who", "role", "n")) == [("owner", "owner", 1), ("apprentice", "apprentice", 1), ("apprentice", "apprentice", 2)]
    assert not Device.objects.get(dev=apprentice.dev).homeless
    assert list(flaws()) == []


def test_the_phone_itself_hears_of_it(tern):
    apprentice, owner = Phone("apprentice-tern-hollow"), Phone("owner-tern-hollow")
    apprentice.sync(apprentice.event())
    owner.sync(owner.opening())
    assert told(apprentice)["verdicts"] == [{"n": 1, "verdict": "stored", "seq": 2}]


def test_nobody_is_there_to_take_it_in(tern):
    from record.services import adopt_waiting

    apprentice = Phone("apprentice-tern-hollow")
    apprentice.sync(apprentice.event())
    empty = Shop.objects.create(slug="empty", name="Empty")
    Device.objects.create(shop=empty, dev="9" * 32, homeless=True)
    assert adopt_waiting() == 0
