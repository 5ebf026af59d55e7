"""Run every benchmark in tests/bench (or those named): each prints its table and writes build/<name>.json.

`replication` fetches what it compares with, so it runs only when it is named.
"""

import subprocess
import sys

from places import BACKEND, ROOT, say, tool_env, venv_python

BENCHES = ROOT / "tests" / "bench"


FETCHES = BENCHES / "replication" / "__main__.py"


def chosen(names: list[str]):
    every = sorted(p for p in BENCHES.glob("*.py") if p.name not in ("__init__.py", "report.py", "processor.py"))
    return [p for p in every if not names or p.stem in names] + [FETCHES] * ("replication" in names)


def main(names: list[str]) -> int:
    import os

    env = tool_env()
    env["PYTHONPATH"] = os.pathsep.join([str(BACKEND), str(ROOT)])
    failed = []
    for path in chosen(names):
        name = path.parent.name if path == FETCHES else path.stem
        say(f"\n== {name}")
        if subprocess.run([str(venv_python()), str(path)], cwd=ROOT, env=env).returncode:
            failed.append(name)
    if failed:
        say("\nThese benchmarks did not finish: " + ", ".join(failed))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
