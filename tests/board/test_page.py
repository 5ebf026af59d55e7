"""The page, its worker, the manifest, the headers and the published schema."""

import pytest
from django.test import Client

pytestmark = pytest.mark.django_db


@pytest.fixture
def dist(settings, tmp_path):
    settings.DIST = tmp_path
    return tmp_path


def test_the_page_answers_every_address_of_the_app(dist):
    (dist / "index.html").write_text("<p>bench")
    for path in ("/", "/builds/b-trial/steps/journals", "/board"):
        answer = Client().get(path)
        assert answer.status_code == 200 and answer.content == b"<p>bench"
        assert "no-cache" in answer.headers["Cache-Control"]


def test_a_page_that_was_not_built_says_so(dist):
    answer = Client().get("/")
    assert answer.status_code == 503 and b"make run" in answer.content


@pytest.mark.parametrize("path", ["/static/none.js", "/api/none", "/api/", "/admin/none/"])
def test_the_page_does_not_answer_for_others(dist, path):
    (dist / "index.html").write_text("<p>bench")
    assert b"<p>bench" not in Client().get(path).content


def test_the_worker_is_never_kept(dist, monkeypatch):
    from pwa import app_settings

    monkeypatch.setattr(app_settings, "PWA_SERVICE_WORKER_PATH", str(dist / "sw.js"))
    assert Client().get("/serviceworker.js").status_code == 404
    (dist / "sw.js").write_text("self.x=1")
    answer = Client().get("/serviceworker.js")
    assert answer.content == b"self.x=1" and "no-store" in answer.headers["Cache-Control"]
    assert answer.headers["Content-Type"].startswith("application/javascript")


def test_the_manifest(dist):
    manifest = Client().get("/manifest.json").json()
    assert manifest["name"] == "Halfthou" and manifest["display"] == "standalone" and manifest["start_url"] == "/"


@pytest.mark.parametrize("path", ["/", "/api/health", "/static/none.js", "/serviceworker.js", "/admin/login/"])
def test_every_answer_carries_the_policy(path):
    answer = Client().get(path)
    policy = answer.headers["Content-Security-Policy"]
    assert "script-src 'self' 'wasm-unsafe-eval'" in policy and "frame-ancestors 'none'" in policy
    assert answer.headers["X-Content-Type-Options"] == "nosniff" and answer.headers["X-Frame-Options"] == "DENY"


def test_health(db):
    answer = Client().get("/api/health")
    assert answer.json()["ok"] is True and answer.headers["Cache-Control"] == "no-store"


def test_the_schema_names_every_route():
    answer = Client().get("/api/schema", headers={"Accept": "application/vnd.oai.openapi+json"})
    paths = answer.json()["paths"]
    assert set(paths) == {
        "/api/login",
        "/api/logout",
        "/api/sync",
        "/api/import",
        "/api/demo",
        "/api/procedures",
        "/api/procedures/{procedure}/{revision}",
        "/api/board",
        "/api/builds/{build}/sheet",
        "/api/schema",
        "/api/health",
    }
    assert "verdicts" in answer.json()["components"]["schemas"]["SyncOut"]["properties"]
