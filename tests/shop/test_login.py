"""Logging in: a token for this phone, wrong words counted, other shops kept apart."""

from datetime import timedelta

import pytest
from django.utils import timezone

from shop import throttle
from shop.models import Device, DeviceToken, Shop
from tests.record.world import PASSWORD, Phone

pytestmark = pytest.mark.django_db


def test_login_says_who_and_where(tern):
    phone = Phone()
    answer = phone.log_in("Builder-Tern-Hollow")
    said = answer.json()
    assert answer.status_code == 200
    assert said["person"] == {"id": "builder", "name": "Builder", "role": "builder"}
    assert said["shop"] == {"id": "tern-hollow", "name": "Tern Hollow"}
    assert said["expires"] > timezone.now().timestamp() * 1000
    assert answer.headers["Cache-Control"] == "no-store"


def test_only_the_hash_of_a_token_is_kept(builder):
    row = DeviceToken.objects.get(device__dev=builder.dev)
    assert builder.token not in (row.digest, "") and len(row.digest) == 64


def test_wrong_password_is_a_sentence(tern):
    answer = Phone().log_in("builder-tern-hollow", "wrong")
    assert answer.status_code == 400 and answer.json()["error"].endswith("try again.")


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"{",
        b"[]",
        b"7",
        b'"x"',
        b"null",
        b'{"name":"x"}',
        b'{"name":"\\u0000","password":"x","dev":"y"}',
        b'{"name":"\\ud800","password":"x","dev":"00000000000000000000000000000000"}',
        b"\xff\xfe",
        b'{"name":["a"],"password":{},"dev":7}',
    ],
)
def test_no_body_breaks_the_login(tern, body):
    answer = Phone().post("/api/login", body)
    assert answer.status_code == 400 and answer.json()["error"]


def test_guessing_is_slowed_and_right_logins_are_not_counted(tern):
    for _ in range(throttle.BY_NAME + 2):
        assert Phone().log_in("owner-tern-hollow").status_code == 200
    for _ in range(throttle.BY_NAME):
        assert Phone().log_in("builder-tern-hollow", "wrong").status_code == 400
    assert Phone().log_in("builder-tern-hollow").status_code == 429
    assert Phone().log_in("owner-tern-hollow").status_code == 200


def test_a_phone_stays_in_the_shop_that_first_logged_it_in(builder, reed):
    answer = builder.log_in("builder-reed-bank")
    assert answer.status_code == 400
    assert Device.objects.get(dev=builder.dev).shop.slug == "tern-hollow"


def test_a_phone_of_a_demo_that_was_set_aside_is_told_so(builder, tern, reed):
    """The password is right, so nothing is counted against it; another shop in earnest stays another shop."""
    for demos in ((tern,), (reed,)):
        Shop.objects.update(demo=False)
        Shop.objects.filter(pk__in=[shop.pk for shop in demos]).update(demo=True)
        assert "afresh" not in builder.log_in("builder-reed-bank").json()
    Shop.objects.update(demo=True)
    for _ in range(throttle.BY_NAME + 2):
        answer = builder.log_in("builder-reed-bank")
        assert (answer.status_code, answer.json()["afresh"]) == (400, True)


def test_expired_login_asks_for_a_new_one(builder):
    DeviceToken.objects.update(expires=timezone.now() - timedelta(seconds=1))
    answer = builder.sync(builder.opening())
    assert answer.status_code == 401
    assert "kept" in answer.json()["error"]
    assert builder.log_in("builder-tern-hollow", PASSWORD).status_code == 200
    assert builder.sync().status_code == 200


def test_logout_ends_the_token(builder):
    assert builder.post("/api/logout", {}).status_code == 204
    assert builder.sync().status_code == 401


@pytest.mark.parametrize("header", ["Device", "Device nonsense", "Device a b", "Bearer x", "", "Device \xff"])
def test_no_header_breaks_the_door(tern, header):
    answer = Phone().get("/api/board", Authorization=header)
    assert answer.status_code == 401


def test_someone_who_left_is_out(builder, tern):
    tern.people.filter(slug="builder").update(is_active=False)
    assert builder.sync().status_code == 401


def test_a_cache_that_is_away_keeps_nobody_out(tern, monkeypatch):
    from shop import throttle

    class Away:
        def __getattr__(self, name):
            raise ConnectionError("nobody there")

    monkeypatch.setattr(throttle, "cache", Away())
    phone = Phone()
    assert phone.log_in("owner-tern-hollow", "wrong").status_code == 400
    assert phone.log_in("owner-tern-hollow").status_code == 200
