"""The sixteen goals of the bench in full: every benchmark, every check at its full size, and then the table.

The table comes last and comes always: what did not finish stands in it as not measured, and the exit code is 0 only when
every part finished and every goal is met.
"""

import os
import subprocess
import sys
import time

from places import BACKEND, ROOT, say, tool_env, venv_python

CHECKS = "tests/browser/goals"
BUILD = ROOT / "build"


def run(title: str, *arguments: str, **env: str) -> tuple[str, int]:
    say(f"\n== {title}")
    began = time.monotonic()
    code = subprocess.run([str(venv_python()), *arguments], cwd=ROOT, env=tool_env() | env).returncode
    return f"{title}, {(time.monotonic() - began) / 60:.0f} min", code


def main() -> int:
    for old in BUILD.glob("*.json"):
        old.unlink()  # a figure of another day is none of today's
    parts = [
        run("every benchmark", "scripts/bench.py"),
        run("the benchmark that fetches what it compares with", "scripts/bench.py", "replication"),
        run("every check at its full size", "scripts/test.py", "-q", "-s", CHECKS, HALFTHOU_GOALS="full"),
        run("the goals of the benchmarks", "scripts/goals.py"),
    ]
    table = run("the sixteen goals", "-m", "tests.browser.goals.table", PYTHONPATH=os.pathsep.join([str(BACKEND), str(ROOT)]))
    for title, code in parts:
        say(f"{'finished' if code == 0 else 'FAILED'}  {title}")
    return 1 if any(code for _, code in [*parts, table]) else 0


if __name__ == "__main__":
    sys.exit(main())
