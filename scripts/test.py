"""Run every test: the front end's, the record suites on PostgreSQL with Redis, then all of them on the embedded form.

All three run even when one fails, so one run tells everything; the last word is pytest's. Arguments go to pytest, and
then only the last part runs.
"""

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable

import frontend
from places import ROOT, say, tool_env, venv_python

BOTH_FORMS = ("record", "sync", "review", "shop", "board", "faults")
# These start the databases they need themselves, so they run once, with everything else.
OWN_SERVERS = ("tests/faults/test_real_kills.py", "tests/record/test_backup.py", "tests/review/test_full_form.py")


def pytest(*arguments: str, **env: str) -> int:
    return subprocess.run([str(venv_python()), "-m", "pytest", *arguments], cwd=ROOT, env=tool_env() | env).returncode


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


def timed(title: str, part: Callable[[], int]) -> tuple[str, int, float]:
    say(f"\n== {title}")
    began = time.monotonic()
    return title, part(), time.monotonic() - began


def main(arguments: list[str]) -> int:
    for name in ("DATABASE_URL", "REDIS_URL", "HALFTHOU_JOBS", "HALFTHOU_DATA"):
        os.environ.pop(name, None)
    if arguments:
        return embedded(*arguments)
    done = [timed("the front end (vitest)", front_end), timed("the record on PostgreSQL and Redis (pytest)", full_form)]
    for title, code, seconds in done:
        say(f"{'passed' if code == 0 else 'FAILED'}  {title}, {seconds:.0f} s")
    last = timed("everything, embedded form (pytest)", embedded)
    failed = [title for title, code, _ in [*done, last] if code]
    if failed:
        say("Failed: " + "; ".join(failed))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
