"""Starting and stopping other programs from tests: free ports, logs kept, nothing left running."""

import os
import socket
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BACKEND = ROOT / "backend"
DOCKER = ROOT / "docker"


def free_port() -> int:
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        return s.getsockname()[1]


def clean_env(**more: str) -> dict[str, str]:
    """This process's environment without any choice of form, and with our Python first on PATH."""
    chosen = (
        "DATABASE_URL",
        "REDIS_URL",
        "HALFTHOU_JOBS",
        "HALFTHOU_DATA",
        "DJANGO_SETTINGS_MODULE",
        "PORT",
        "HALFTHOU_COLLECTED",
    )
    env = {k: v for k, v in os.environ.items() if k not in chosen}
    env["PATH"] = str(Path(sys.executable).parent) + os.pathsep + env.get("PATH", os.defpath)
    env["PYTHONPATH"] = str(BACKEND)
    return env | more


def wait_until(ready: Callable[[], bool], seconds: float, what: str, process: "Process | None" = None) -> None:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if process is not None and process.ended():
            raise RuntimeError(f"{what} ended early. Its log:\n{process.log_text()}")
        if ready():
            return
        time.sleep(0.05)
    raise RuntimeError(f"{what} was not ready after {seconds:g} s. Its log:\n{process.log_text() if process else ''}")


def port_answers(port: int) -> bool:
    try:
        socket.create_connection(("127.0.0.1", port), 0.2).close()
        return True
    except OSError:
        return False


class Process:
    """One child process with its output in a file."""

    def __init__(self, command: list[str], log: Path, env: dict[str, str], cwd: Path = BACKEND, **how):
        self.log = log
        self._file = open(log, "ab")
        self.popen = subprocess.Popen(command, stdout=self._file, stderr=subprocess.STDOUT, env=env, cwd=cwd, start_new_session=True, **how)

    def ended(self) -> bool:
        return self.popen.poll() is not None

    def log_text(self) -> str:
        return self.log.read_text(errors="replace")[-4000:]

    def kill(self) -> None:
        """Pull the plug: nothing gets to tidy up."""
        self._signal(9)

    def stop(self, seconds: float = 10) -> None:
        self._signal(15)
        try:
            self.popen.wait(seconds)
        except subprocess.TimeoutExpired:
            self._signal(9)
        self._file.close()

    def _signal(self, number: int) -> None:
        try:
            os.killpg(self.popen.pid, number)
        except ProcessLookupError:
            pass
        if number == 9:
            self.popen.wait(10)
