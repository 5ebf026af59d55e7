"""The pages of whoever runs the server: people and grants can be changed, the record cannot."""

import pytest
from django.test import Client

from record.models import Build
from shop.models import Person, Shop

pytestmark = pytest.mark.django_db


@pytest.fixture
def runner(builder):
    builder.sync(builder.opening(), "not an event")
    client = Client()
    client.force_login(Person.objects.create_superuser("runner", password="x"))
    return client


@pytest.mark.parametrize("page", ["shop/person", "shop/shop", "shop/device", "record/build", "record/event", "record/quarantine"])
def test_lists_open(runner, page):
    assert runner.get(f"/admin/{page}/").status_code == 200


@pytest.mark.parametrize(("page", "status"), [("event/add", 403), ("quarantine/add", 403), ("build/add", 403)])
def test_the_record_is_not_written_here(runner, page, status):
    assert runner.get(f"/admin/record/{page}/").status_code == status


def test_events_cannot_be_changed_or_deleted(runner):
    event = Build.objects.get().events.get()
    for act in ("change", "delete"):
        assert runner.post(f"/admin/record/event/{event.pk}/{act}/", {"who": "x", "post": "yes"}).status_code == 403


def test_a_build_is_given_to_someone(runner, tern):
    build, chief = Build.objects.get(), Person.objects.get(username="crew_chief-tern-hollow")
    answer = runner.post(f"/admin/record/build/{build.pk}/change/", {"people": [chief.pk]})
    assert answer.status_code == 302 and chief in build.people.all()


def test_someone_new_can_be_added(runner, tern):
    form = {
        "username": "lena",
        "password1": "bench-9-lamp",
        "password2": "bench-9-lamp",
        "usable_password": "true",
        "shop": Shop.objects.get().pk,
        "slug": "lena",
        "name": "Lena",
        "role": "builder",
    }
    answer = runner.post("/admin/shop/person/add/", form)
    assert answer.status_code == 302, answer.context["errors"] if answer.context else answer
    assert Person.objects.get(username="lena").shop == tern


def test_a_phones_token_opens_no_admin_page(builder):
    assert builder.get("/admin/record/event/").status_code == 302
