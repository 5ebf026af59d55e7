"""The phones of a schedule: the real TypeScript log and sync in one Node process, told what to do line by line."""

from __future__ import annotations

import json
import os
import subprocess
import tempfile
from pathlib import Path

from tests.kernel_two_runtimes.phone_python import node

HERE = Path(__file__).parent
ROOT = HERE.parents[1]


def bundled() -> Path:
    """The phones' code in one file, made afresh so that it is the code of this very checkout."""
    out = Path(tempfile.mkdtemp(prefix="ht-phones-")) / "phones.mjs"
    modules = ROOT / "frontend" / "node_modules"
    command = [str(node()), str(modules / "rolldown" / "bin" / "cli.mjs"), str(HERE / "phones" / "main.ts")]
    done = subprocess.run([*command, "-f", "esm", "-o", str(out), "--platform", "node"], cwd=ROOT / "frontend", capture_output=True, text=True)
    if done.returncode:
        raise RuntimeError(f"the phones could not be bundled:\n{done.stdout}{done.stderr}")
    return out


class PhoneBox:
    def __init__(self) -> None:
        self.bundle = bundled()
        env = {k: v for k, v in os.environ.items() if k != "NODE_OPTIONS"}
        self.process = subprocess.Popen(
            [str(node()), str(self.bundle)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8", env=env
        )

    def tell(self, do: str, **more) -> tuple[object, list[dict]]:
        """What came of it, and the requests that phones now wait on."""
        self.process.stdin.write(json.dumps({"do": do} | more) + "\n")
        self.process.stdin.flush()
        line = self.process.stdout.readline()
        if not line:
            raise RuntimeError(f"the phones stopped at {do} {more}")
        answer = json.loads(line)
        if isinstance(answer["said"], dict) and "failed" in answer["said"]:
            raise RuntimeError(f"{do} {more}: {answer['said']['failed']}")
        return answer["said"], answer["asks"]

    def stop(self) -> None:
        self.process.stdin.close()
        self.process.wait(timeout=20)
        self.bundle.unlink()
        self.bundle.parent.rmdir()
