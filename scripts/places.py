"""Where things live on this machine. Everything a run makes goes in `.venv`, `.run`, `build` or `node_modules`: delete them freely."""

import os
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
RUN = ROOT / ".run"
STAMPS = RUN / "stamps"
FRONTEND = ROOT / "frontend"
BACKEND = ROOT / "backend"


def venv_python() -> Path:
    return BIN / ("python.exe" if os.name == "nt" else "python")


def tool_env() -> dict[str, str]:
    """The environment for child processes: the virtual environment's programs come first on PATH."""
    env = dict(os.environ)
    env["PATH"] = str(BIN) + os.pathsep + env.get("PATH", os.defpath)
    env["VIRTUAL_ENV"] = str(VENV)
    env.pop("PYTHONHOME", None)
    return env


def say(line: str) -> None:
    print(line, flush=True)


def stop(sentence: str) -> None:
    """End with a sentence a person can act on, never a traceback."""
    sys.exit("Stopped: " + sentence)
