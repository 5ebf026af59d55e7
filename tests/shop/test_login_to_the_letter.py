"""Logging in and being kept out: where each bound lies, and what is said."""

import time
from datetime import timedelta

import pytest
from django.core.management import call_command
from django.utils import timezone

from shop import throttle, tokens
from shop.models import Device, DeviceToken, Person
from tests.record.world import PASSWORD, Phone

pytestmark = pytest.mark.django_db

NAME, ADDRESS = "marek", "10.0.0.7"


def failed(times: int, name: str = NAME, address: str = ADDRESS) -> None:
    for _ in range(times):
        throttle.failed(name=name, address=address)


def kept_out(name: str = NAME, address: str = ADDRESS) -> bool:
    return throttle.too_many(name=name, address=address)


def test_ten_wrong_passwords_for_a_name_are_too_many():
    failed(9)
    assert not kept_out()
    failed(1)
    assert kept_out() and not kept_out(name="ines") and not kept_out(address="10.0.0.8")


def test_sixty_from_one_address_keep_out_whoever_asks_there():
    for i in range(59):
        failed(1, name=f"name-{i}")
    assert not kept_out(name="ines")
    failed(1, name="name-59")
    assert kept_out(name="ines") and not kept_out(name="ines", address="10.0.0.8")


def holds_for_ten_minutes(monkeypatch) -> None:
    now = time.time()
    monkeypatch.setattr(time, "time", lambda: now + 598)
    assert kept_out()
    monkeypatch.setattr(time, "time", lambda: now + 600.5)
    assert not kept_out()


def test_a_wrong_password_is_forgotten_after_ten_minutes(monkeypatch):
    failed(10)
    holds_for_ten_minutes(monkeypatch)


def test_so_it_is_when_the_count_ran_out_meanwhile(monkeypatch):
    """The count begins again with this one, and ten minutes hold from then on."""

    def gone(key):
        raise ValueError

    with monkeypatch.context() as ran_out:
        ran_out.setattr(throttle.cache, "incr", gone)
        failed(1)
    failed(8)
    assert not kept_out()
    failed(1)
    holds_for_ten_minutes(monkeypatch)


def test_names_alike_in_their_first_sixty_bytes_are_counted_together():
    failed(10, name="x" * 60 + "a")
    assert kept_out(name="x" * 60 + "0")
    failed(10, name="y" * 59 + "a")
    assert not kept_out(name="y" * 59 + "0")


def test_a_cache_that_is_away_is_logged_with_its_reason(monkeypatch, caplog):
    class Away:
        def __getattr__(self, name):
            raise ConnectionError("nobody there")

    monkeypatch.setattr(throttle, "cache", Away())
    assert not kept_out()
    failed(1)
    assert ["nobody there" in r.exc_text for r in caplog.records] == [True, True]


def test_a_phone_keeps_the_label_it_was_given(tern):
    def label(said: str) -> str:
        assert phone.post("/api/login", {"name": "builder-tern-hollow", "password": PASSWORD, "dev": phone.dev, "label": said}).status_code == 200
        return Device.objects.get(dev=phone.dev).label

    phone = Phone()
    assert [label(said) for said in ("", "Bench two", "", "Bench three")] == ["Builder’s phone", "Bench two", "Bench two", "Bench three"]


def test_who_belongs_to_no_shop_has_no_phone_to_log_in(tern):
    Person.objects.create_superuser("keeper", password=PASSWORD)
    answer = Phone().log_in("keeper")
    assert (answer.status_code, answer.json()) == (400, {"error": "That name and password do not fit together. Check both and try again."})
    assert not Device.objects.exists()


def test_a_token_is_256_random_bits_and_lasts_as_long_as_was_set(builder, settings):
    assert len(builder.token) == 43  # base64 of 32 bytes
    left = DeviceToken.objects.get().expires - timezone.now()
    assert timedelta(0) <= timedelta(days=settings.TOKEN_DAYS) - left < timedelta(minutes=1)


def test_a_login_ends_at_its_very_moment(builder, monkeypatch):
    end = DeviceToken.objects.get().expires
    for early, status in ((timedelta(microseconds=1), 200), (timedelta(0), 401)):
        monkeypatch.setattr(tokens.timezone, "now", lambda early=early: end - early)
        assert builder.get("/api/board").status_code == status


def test_his_earlier_token_on_this_phone_ends_and_nobody_elses(builder):
    marek = builder.token
    builder.log_in("owner-tern-hollow")
    ines, again = builder.token, Phone("builder-tern-hollow")
    builder.log_in("builder-tern-hollow")
    for token, status in ((marek, 401), (ines, 200), (builder.token, 200), (again.token, 200)):
        builder.token = token
        assert builder.get("/api/board").status_code == status


NEVER = "This phone is not logged in. What you record is kept; log in at the next quiet moment."
ENDED = "This login is no longer valid. What you record is kept; log in again at the next quiet moment."


@pytest.mark.parametrize(("header", "says"), [("", NEVER), ("Bearer x", NEVER), ("Device", ENDED), ("Device x", ENDED), ("Device x y", ENDED)])
def test_no_login_and_one_that_ended_are_told_apart(tern, header, says):
    answer = Phone().get("/api/board", Authorization=header)
    assert (answer.status_code, answer.json(), answer.headers["WWW-Authenticate"]) == (401, {"error": says}, "Device")


def test_the_word_before_the_token_may_be_written_either_way(builder):
    assert Phone().get("/api/board", Authorization=f"dEVICE {builder.token}").status_code == 200


def test_the_schema_says_how_a_phone_shows_its_token(capsys):
    call_command("spectacular", "--format", "openapi-json")
    assert '"in": "header"' in capsys.readouterr().out
