"""The compose file describes the form that the tests start: the same entry commands, and settings that are read."""

from pathlib import Path

import yaml

from tests.services import server
from tests.services.processes import DOCKER

COMPOSE = yaml.safe_load((DOCKER / "compose.yaml").read_text())
OURS = ("app", "worker", "beat")


def test_the_entry_commands_are_the_ones_the_tests_start(monkeypatch, tmp_path):
    started = {}
    monkeypatch.setattr(server.Server, "start", lambda self, *names: started.update(self.commands))
    monkeypatch.setattr(server.Server, "manage", lambda self, *arguments: "")
    server.full_form(tmp_path, "postgres://nobody@127.0.0.1:1/none", "redis://127.0.0.1:1/0")
    for name in OURS:
        shell, script = COMPOSE["services"][name]["command"]
        assert (shell, (DOCKER.parent / script).resolve()) == ("sh", Path(started[name][1]).resolve())


def test_every_part_of_the_full_form_is_there():
    assert set(COMPOSE["services"]) == {"proxy", "app", "worker", "beat", "postgres", "redis"}


def test_no_secret_is_written_down():
    environment = COMPOSE["services"]["app"]["environment"]
    assert environment["SECRET_KEY"].startswith("${SECRET_KEY:?")
    assert "${POSTGRES_PASSWORD:?" in environment["DATABASE_URL"]


def test_only_the_proxy_is_reachable_from_outside():
    assert [name for name, service in COMPOSE["services"].items() if "ports" in service] == ["proxy"]
