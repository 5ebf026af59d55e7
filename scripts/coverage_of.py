"""Branch coverage of what guards the record: sync, record and permissions. Fails below 100 %."""

import subprocess
import sys
import tempfile

from places import ROOT, tool_env, venv_python

WHAT = ("sync", "record", "shop", "review", "board", "config")
SUITES = (
    "tests/sync",
    "tests/record",
    "tests/shop",
    "tests/board",
    "tests/review/test_review.py",
    "tests/faults/test_nth_failure.py",
    "tests/faults/test_schedules.py",
)


def main() -> int:
    with tempfile.TemporaryDirectory() as data:
        config_file = str(ROOT / "tests/coverage.ini")
        env = tool_env() | {
            "HALFTHOU_DATA": data,
            "COVERAGE_FILE": f"{data}/coverage",
            "COVERAGE_OF_COMMANDS": "record",
            "COVERAGE_RCFILE": config_file,
        }
        measure = [arg for name in WHAT for arg in ("--cov", name)]
        config = ["--cov-branch", "--cov-config", config_file]
        report = [*config, "--cov-report", "term-missing:skip-covered", "--cov-fail-under", "100"]
        return subprocess.run([str(venv_python()), "-m", "pytest", "-q", *SUITES, *measure, *report], cwd=ROOT, env=env).returncode


if __name__ == "__main__":
    sys.exit(main())
