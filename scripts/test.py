"""Run every test, in two lanes side by side. In one the suites that drive a browser; in the other the front end's own
tests, the record suites on PostgreSQL with Redis, and then all the rest on the embedded form.

The lane without a browser prints as it goes; what the browser's lane said is printed once that is done, so the two are
never mixed. All parts run even when one fails, so one run tells everything; the last lines say which passed, and the exit
code is 0 only when all did. Arguments go to pytest, and then nothing else runs.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from threading import Thread
from typing import NamedTuple

import frontend
from places import ROOT, say, tool_env, venv_python

BOTH_FORMS = ("record", "sync", "review", "shop", "board", "faults")
# These start the databases they need themselves, so they run once, with everything else.
OWN_SERVERS = ("tests/faults/test_real_kills.py", "tests/record/test_backup.py", "tests/review/test_full_form.py")
BROWSER = "tests/browser"


class Outcome(NamedTuple):
    title: str
    code: int
    seconds: float

    def __str__(self) -> str:
        return f"{'passed' if self.code == 0 else 'FAILED'}  {self.title}, {self.seconds:.0f} s"


def pytest_command(*arguments: str) -> list[str]:
    return [str(venv_python()), "-m", "pytest", *arguments]


def pytest(*arguments: str, **env: str) -> int:
    return subprocess.run(pytest_command(*arguments), cwd=ROOT, env=tool_env() | env).returncode


def front_end() -> int:
    return subprocess.run(["npm", "run", "--silent", "test"], cwd=frontend.FRONTEND, env=tool_env()).returncode


def full_form() -> int:
    """The suites whose meaning depends on the database, on PostgreSQL and Redis of the tests' own."""
    folders = [f"tests/{name}" for name in BOTH_FORMS if (ROOT / "tests" / name).is_dir()]
    if not folders:
        return 0
    sys.path.insert(0, str(ROOT))
    from tests.services import postgres, redis

    once = [f"--ignore={path}" for path in OWN_SERVERS]
    database, broker = postgres.start(), redis.start()
    try:
        with tempfile.TemporaryDirectory() as data:
            return pytest("-q", *folders, *once, DATABASE_URL=database.new_database(), REDIS_URL=broker.url, HALFTHOU_DATA=data)
    finally:
        broker.stop()
        database.stop()


def embedded(*arguments: str) -> int:
    with tempfile.TemporaryDirectory() as data:
        return pytest(*arguments, HALFTHOU_DATA=data)


def timed(title: str, part: Callable[[], int]) -> Outcome:
    say(f"\n== {title}")
    began = time.monotonic()
    return Outcome(title, part(), time.monotonic() - began)


class Beside:
    """A part that runs beside the others. What it prints is held back until `told` is asked for the outcome."""

    def __init__(self, title: str, command: list[str], env: dict[str, str]):
        self.title, self.began, self.seconds = title, time.monotonic(), 0.0
        handle, name = tempfile.mkstemp(suffix=".log")
        self.printed = Path(name)
        with os.fdopen(handle, "wb") as out:
            self.running = subprocess.Popen(command, cwd=ROOT, env=env, stdout=out, stderr=subprocess.STDOUT)
        self.clock = Thread(target=self._wait, daemon=True)
        self.clock.start()

    def _wait(self) -> None:
        self.running.wait()
        self.seconds = time.monotonic() - self.began

    def told(self) -> Outcome:
        """What it has printed so far, then the rest as it comes, to its end."""
        say(f"\n== {self.title}")
        with self.printed.open(errors="replace") as said:
            while self.clock.is_alive():
                print(said.read(), end="", flush=True)
                self.clock.join(0.5)
            print(said.read(), end="", flush=True)
        return Outcome(self.title, self.running.returncode, self.seconds)

    def __enter__(self) -> Beside:
        return self

    def __exit__(self, *_: object) -> None:
        """Nothing is left running when the other lane was interrupted."""
        if self.running.poll() is None:
            self.running.terminate()
        self.clock.join()
        self.printed.unlink()


def two_lanes() -> list[Outcome]:
    say("The browser's suites run beside these; what they print comes last.")
    with tempfile.TemporaryDirectory() as data:
        beside = Beside("in the browser (pytest)", pytest_command(BROWSER), tool_env() | {"HALFTHOU_DATA": data, "COLUMNS": "120"})
        with beside as browser:
            return [
                timed("the front end (vitest)", front_end),
                timed("the record on PostgreSQL and Redis (pytest)", full_form),
                timed("everything else, embedded form (pytest)", lambda: embedded(f"--ignore={BROWSER}")),
                browser.told(),
            ]


def last_word(outcomes: list[Outcome]) -> int:
    say("")
    for outcome in outcomes:
        say(str(outcome))
    failed = [outcome.title for outcome in outcomes if outcome.code]
    if failed:
        say("Failed: " + "; ".join(failed))
    return 1 if failed else 0


def main(arguments: list[str]) -> int:
    for name in ("DATABASE_URL", "REDIS_URL", "HALFTHOU_JOBS", "HALFTHOU_DATA"):
        os.environ.pop(name, None)
    return embedded(*arguments) if arguments else last_word(two_lanes())


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
