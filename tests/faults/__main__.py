"""Plays many schedules, half on SQLite and half on PostgreSQL: `python -m tests.faults N [first seed]`.

A failing one is shortened and printed, ready to be kept under tests/faults/kept/.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path


def start_django() -> None:
    os.environ["DJANGO_SETTINGS_MODULE"] = "config.settings"
    import django
    from django.conf import settings
    from django.core.management import call_command

    django.setup()
    settings.DEBUG = False
    settings.LOGGING_CONFIG = None
    import logging

    logging.disable(logging.CRITICAL)
    call_command("migrate", verbosity=0, skip_checks=True)
    from tests.services.bench_shop import one_procedure

    one_procedure()


def work(first: int, count: int) -> int:
    """Schedules `first` to `first + count - 1` on this process's database. How many failed."""
    start_django()
    from .phone_box import PhoneBox
    from .play import play
    from .schedule import drawn
    from .shop_server import collecting_jobs
    from .shrink import shortest

    current, box, failed, tries = {}, PhoneBox(), 0, 0

    def wrong(steps: list[dict], seed: int) -> list[str]:
        nonlocal tries
        tries += 1
        return play(steps, box, f"{seed}-{os.getpid()}-{tries}", current)

    with collecting_jobs(current):
        for seed in range(first, first + count):
            steps = drawn(seed)
            problems = wrong(steps, seed)
            if problems:
                failed += 1
                short = shortest(steps, lambda fewer, seed=seed: bool(wrong(fewer, seed))) if failed <= 3 else steps
                print(json.dumps({"seed": seed, "wrong": wrong(short, seed), "steps": short}), flush=True)
                if failed >= 20:
                    break
    box.stop()
    return failed


def main(count: int, first: int) -> int:
    from tests.services import postgres

    database = postgres.start()
    memory = Path("/dev/shm")
    began = time.monotonic()
    try:
        with tempfile.TemporaryDirectory(dir=memory if memory.is_dir() else None) as data:
            half = count // 2
            forms = {"SQLite": ("", first, count - half), "PostgreSQL": (database.new_database(), first + count - half, half)}
            running = {}
            for name, (url, at, many) in forms.items():
                folder = Path(data) / name
                folder.mkdir()
                env = os.environ | {"DATABASE_URL": url, "HALFTHOU_DATA": str(folder), "HALFTHOU_JOBS": "inline"}
                command = [sys.executable, "-m", "tests.faults", "work", str(at), str(many)]
                running[name] = subprocess.Popen(command, env=env, stdout=subprocess.PIPE, text=True)
            failed = 0
            for name, process in running.items():
                out, _ = process.communicate()
                print(f"{name}: {forms[name][2]} schedules from seed {forms[name][1]}, {time.monotonic() - began:.0f} s, exit {process.returncode}")
                print(out, end="")
                failed += process.returncode != 0
    finally:
        database.stop()
    return 1 if failed else 0


if __name__ == "__main__":
    if sys.argv[1:2] == ["work"]:
        sys.exit(1 if work(int(sys.argv[2]), int(sys.argv[3])) else 0)
    sys.exit(main(int(sys.argv[1]) if sys.argv[1:] else 2_000, int(sys.argv[2]) if sys.argv[2:] else 1))
