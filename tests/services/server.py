"""The real application as subprocesses, in both forms. A Server is also the text of its address: page.goto(server)."""

import os
import shutil
import subprocess
import sys
import urllib.error
import urllib.request
from pathlib import Path

from .processes import BACKEND, DOCKER, Process, clean_env, free_port, wait_until


def healthy(url: str) -> bool:
    try:
        with urllib.request.urlopen(url + "/api/health", timeout=2) as answer:
            return answer.status == 200
    except (urllib.error.URLError, OSError):
        return False


def python() -> list[str]:
    """Python, under the eyes of `make coverage` when that is what runs."""
    watched = os.environ.get("COVERAGE_OF_COMMANDS", "")
    return [sys.executable, *(f"-m coverage run --parallel-mode --source={watched}".split() if watched else [])]


class Server(str):
    """A running server. `stop` then `start` keeps its port and data, as a phone out of reach of the shop sees it."""

    env: dict[str, str]
    folder: Path
    commands: dict[str, list[str]]
    running: dict[str, Process]

    @classmethod
    def make(cls, folder: Path, commands: dict[str, list[str]], env: dict[str, str], port: int) -> "Server":
        server = cls(f"http://127.0.0.1:{port}")
        server.folder, server.commands, server.env, server.running = folder, commands, env, {}
        return server

    @property
    def base_url(self) -> str:
        return str(self)

    def manage(self, *arguments: str) -> str:
        done = subprocess.run([*python(), "manage.py", *arguments], cwd=BACKEND, env=self.env, capture_output=True, text=True)
        if done.returncode:
            raise RuntimeError(f"manage.py {' '.join(arguments)} failed:\n{done.stdout}{done.stderr}")
        return done.stdout

    def start(self, *names: str) -> None:
        """Start every part that does not run, or those named: app, worker, beat."""
        for name in names or self.commands:
            if name not in self.running:
                self.running[name] = Process(self.commands[name], self.folder / f"{name}.log", self.env)
        if "app" in self.running:
            wait_until(lambda: healthy(self.base_url), 60, "The server", self.running["app"])

    def stop(self, *names: str) -> None:
        for name in names or list(self.running):
            self.running.pop(name).stop()

    def kill(self, *names: str) -> None:
        """End parts at once, as a power cut does."""
        for name in names or list(self.running):
            self.running.pop(name).kill()


def embedded(folder: Path, template: Path | None = None) -> Server:
    """SQLite and inline jobs with the demo shop; starts from a copy of `template` when one is given."""
    data = folder / "data"
    if template:
        shutil.copytree(template, data)
    data.mkdir(exist_ok=True)
    port = free_port()
    env = clean_env(HALFTHOU_DATA=str(data), ALLOWED_HOSTS="*")
    command = [sys.executable, "-m", "uvicorn", "config.asgi:application", "--host", "127.0.0.1", "--port", str(port)]
    command += ["--log-level", "warning", "--timeout-graceful-shutdown", "1"]
    server = Server.make(folder, {"app": command}, env, port)
    if not template:
        server.manage("migrate", "--verbosity", "0")
        server.manage("demo_load")
    return server


def full_form(folder: Path, database_url: str, redis_url: str) -> Server:
    """PostgreSQL, Redis, application, worker and beat, by the entry commands that docker/ uses."""
    data = folder / "data"
    data.mkdir()
    port = free_port()
    env = clean_env(
        HALFTHOU_DATA=str(data), HALFTHOU_STATIC=str(folder / "static"), HALFTHOU_COLLECTED="1", ALLOWED_HOSTS="*",
        SECRET_KEY="only-for-tests-" + "x" * 40, DATABASE_URL=database_url, REDIS_URL=redis_url, HALFTHOU_JOBS="celery",
        PORT=str(port), HALFTHOU_APP_WORKERS="1", HALFTHOU_JOB_WORKERS="1",
    )  # fmt: skip
    commands = {name: ["sh", str(DOCKER / f"entry-{name}.sh")] for name in ("app", "worker", "beat")}
    server = Server.make(folder, commands, env, port)
    server.start("app")
    server.manage("demo_load")
    server.start()
    return server
