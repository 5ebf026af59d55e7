"""The kernel under the phone's Python, in one long-lived Node process: a request in, an answer out, in turn."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

HERE = Path(__file__).parent
ROOT = HERE.parent.parent


def node() -> str | None:
    """HALFTHOU_NODE, the virtual environment's own, or the machine's."""
    beside = ROOT / ".venv" / "bin"
    return os.environ.get("HALFTHOU_NODE") or shutil.which("node", path=f"{beside}{os.pathsep}{os.environ.get('PATH', '')}")


class PhonePython:
    def __init__(self, door: str = "call") -> None:
        """`door`: call for canonical answers, quick for the same ones as the phone asks for them."""
        program = node()
        if program is None:
            raise RuntimeError("There is no node here. Put it on the PATH or name it in HALFTHOU_NODE.")
        self.process = subprocess.Popen(
            [program, str(HERE / "run_micropython.mjs"), "", door], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8"
        )

    def call(self, request: str) -> str:
        """The answer to one request; raises when the process died, with what it said on standard error above."""
        self.process.stdin.write(request + "\n")
        self.process.stdin.flush()
        answer = self.process.stdout.readline()
        if not answer:
            raise RuntimeError(f"The phone's Python stopped at the request {request[:300]}")
        return answer.removesuffix("\n")

    def stop(self) -> None:
        self.process.stdin.close()
        self.process.wait(timeout=20)
