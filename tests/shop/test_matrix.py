"""Every address of the API x every role x own shop, other shop, nobody. A route that is not listed fails."""

import pytest

from config.urls import api
from shop.models import Role
from tests.record.world import BUILD, Phone

pytestmark = pytest.mark.django_db

OPEN = {"nobody": 200, **dict.fromkeys(Role.values, 200), "other": 200}
INSIDE = {"nobody": 401, **dict.fromkeys(Role.values, 200), "other": 200}
# The build belongs to the builder; an owner sees all, the others were not given it, the other shop sees nothing.
ONE_BUILD = INSIDE | {"apprentice": 404, "crew_chief": 404, "other": 404}

MATRIX = {
    ("login", "POST", "/api/login"): {"nobody": 400, **dict.fromkeys(Role.values, 400), "other": 400},
    ("logout", "POST", "/api/logout"): {"nobody": 401, **dict.fromkeys(Role.values, 204), "other": 204},
    ("sync", "POST", "/api/sync"): {"nobody": 401, **dict.fromkeys(Role.values, 400), "other": 400},
    ("import", "POST", "/api/import"): {"nobody": 401, **dict.fromkeys(Role.values, 400), "other": 400},
    ("procedures", "GET", "/api/procedures"): INSIDE,
    ("procedure", "GET", "/api/procedures/pushrod-v8/1"): INSIDE,
    ("board", "GET", "/api/board"): INSIDE,
    ("sheet", "GET", f"/api/builds/{BUILD}/sheet"): ONE_BUILD,
    # Not there at all for a shop that people work in, whoever asks; tests/demo asks in a demo shop.
    ("demo", "GET", "/api/demo"): {"nobody": 401, **dict.fromkeys(Role.values, 404), "other": 404},
    ("demo", "POST", "/api/demo"): {"nobody": 401, **dict.fromkeys(Role.values, 404), "other": 404},
    ("schema", "GET", "/api/schema"): OPEN,
    ("health", "GET", "/api/health"): OPEN,
    ("no-such-address", "GET", "/api/nothing"): {"nobody": 404, **dict.fromkeys(Role.values, 404), "other": 404},
}


def test_every_route_is_listed():
    assert {route.name for route in api} == {name for name, _, _ in MATRIX}


@pytest.mark.parametrize(("name", "method", "path"), MATRIX, ids=lambda v: v)
@pytest.mark.parametrize("who", ["nobody", *Role.values, "other"])
def test_matrix(builder, reed, name, method, path, who):
    builder.sync(builder.opening())
    logins = {"nobody": "", "other": "owner-reed-bank"}
    phone = Phone(logins.get(who, f"{who}-tern-hollow"))
    answer = phone.get(path) if method == "GET" else phone.post(path, b"{" if name == "sync" else {})
    assert answer.status_code == MATRIX[(name, method, path)][who], answer.content
    other = phone.client.generic("DELETE", path, headers=phone.headers())
    assert other.status_code in (401, 404, 405)


def test_another_shops_build_answers_as_a_missing_one(builder, reed):
    builder.sync(builder.opening())
    stranger = Phone("owner-reed-bank")
    foreign, missing = stranger.get(f"/api/builds/{BUILD}/sheet"), stranger.get("/api/builds/b-never-was/sheet")
    assert (foreign.status_code, foreign.content) == (missing.status_code, missing.content)
    pushed = [stranger.sync(stranger.event(build=key, n=n)).json()["verdicts"][0] for n, key in ((7, BUILD), (8, "b-never-was"))]
    assert pushed[0]["why"] == pushed[1]["why"] and pushed[0]["verdict"] == pushed[1]["verdict"] == "quarantined"
    assert stranger.get("/api/board").json()["builds"] == []


def test_two_shops_may_use_one_build_id(builder, reed):
    builder.sync(builder.opening(), builder.event())
    stranger = Phone("owner-reed-bank")
    answer = stranger.sync(stranger.opening()).json()
    assert answer["verdicts"][0]["seq"] == 1 and answer["builds"][BUILD]["head"] == 1
    assert all(e["dev"] == stranger.dev for e in answer["builds"][BUILD]["events"])
