"""The sync against a general-purpose document replication pair: client to server over HTTP on this machine, the same entries,
500 at a time, in turn; ROUNDS rounds, of which the middle one counts. Both clients keep their store in memory and have a
process of their own, as their servers have.

Pushes are also measured alone, as a phone words them, without the phone's own work of making and keeping them.

The pair is fetched into build/replication and used by nothing else. Ours runs as in earnest: the phone's own code; gunicorn
and DRF; PostgreSQL with its commits on the disk; reviews wait in Redis. The pair's server keeps its documents in its own
store: once so that it, too, answers when they are on the disk, which is what the goal is held against, and once with its
own defaults, which do not wait for the disk.
"""

import json
import shutil
import statistics
import subprocess
import sys
import tempfile
from contextlib import ExitStack, contextmanager
from pathlib import Path

from tests.bench.processor import processor_seconds
from tests.bench.replication.pusher import Pusher
from tests.bench.report import BUILD, report, row
from tests.kernel_two_runtimes.phone_python import node
from tests.services import postgres, redis
from tests.services import server as service
from tests.services.processes import ROOT, clean_env, free_port

HERE, PLACE = Path(__file__).parent, BUILD / "replication"
ENTRIES, ROUNDS = 5_000, 7


class Told:
    """A client in a process of its own."""

    def __init__(self, process: subprocess.Popen):
        self.process = process

    def move(self, many: int) -> dict:
        self.process.stdin.write(f"{many}\n")
        self.process.stdin.flush()
        line = self.process.stdout.readline()
        if not line:
            raise RuntimeError("a client stopped; see above")
        return json.loads(line)


class Side:
    """A client that moves as many as it is told, and the processes that this keeps busy."""

    def __init__(self, client: Told | Pusher, pids: list[int]):
        self.client, self.pids, self.taken = client, pids, []

    def move(self, many: int) -> dict:
        before = processor_seconds(self.pids)
        return self.client.move(many) | {"processor": processor_seconds(self.pids) - before}

    def round(self) -> None:
        self.taken.append(self.move(ENTRIES))

    def middle(self, what: str) -> float:
        return statistics.median(taken[what] for taken in self.taken)


@contextmanager
def node_process(*arguments: str, **how):
    process = subprocess.Popen([str(node()), *arguments], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, **how)
    try:
        yield process
    finally:
        process.kill()
        process.wait()


@contextmanager
def pair(folder: Path, how: str):
    with node_process("pair.mjs", how, str(folder), cwd=PLACE) as server:
        address = server.stdout.readline().strip()
        with node_process("pair.mjs", "client", address, cwd=PLACE) as client:
            yield Side(Told(client), [client.pid, server.pid])


def fetch() -> None:
    PLACE.mkdir(parents=True, exist_ok=True)
    for name in ("package.json", "pair.mjs"):
        shutil.copy(HERE / name, PLACE / name)
    if not (PLACE / "node_modules" / "pouchdb").is_dir():
        subprocess.run(["npm", "install", "--no-audit", "--no-fund", "--loglevel", "error"], cwd=PLACE, check=True)


@contextmanager
def ours(folder: Path):
    with ExitStack() as stack:
        database, broker = postgres.start(), redis.start()
        stack.callback(database.stop)
        stack.callback(broker.stop)
        port = free_port()
        env = clean_env(
            HALFTHOU_DATA=str(folder), DATABASE_URL=database.new_database(), REDIS_URL=broker.url, HALFTHOU_JOBS="celery", ALLOWED_HOSTS="*"
        )
        command = [sys.executable, "-m", "gunicorn", "config.wsgi:application", "--bind", f"127.0.0.1:{port}", "--threads", "4", "--timeout", "120"]
        shop = service.Server.make(folder, {"app": command}, env, port)
        prepare = "from tests.services import bench_shop as b; b.start(prepare=True)"
        subprocess.run([sys.executable, "-c", prepare], env=env | {"PYTHONPATH": f"{env['PYTHONPATH']}:{ROOT}"}, check=True)
        shop.start()
        stack.callback(shop.stop)
        client = stack.enter_context(node_process(str(bundled(folder)), str(shop), "marek", "marek-bench"))
        servers = [shop.running["app"].popen.pid, database.process.popen.pid]
        yield Side(Told(client), [client.pid, *servers]), Side(Pusher(str(shop), "ines", "ines-bench"), servers)


def bundled(folder: Path) -> Path:
    out = folder / "phone.mjs"
    rolldown = ROOT / "frontend" / "node_modules" / "rolldown" / "bin" / "cli.mjs"
    subprocess.run([str(node()), str(rolldown), str(HERE / "phone.ts"), "-f", "esm", "-o", str(out), "--platform", "node"],
                   cwd=ROOT / "frontend", stdout=subprocess.DEVNULL, check=True)  # fmt: skip
    return out


def main() -> None:
    fetch()
    with tempfile.TemporaryDirectory() as folder, ExitStack() as stack:
        us, durable, plain = (Path(folder) / name for name in ("us", "durable", "plain"))
        for place in (us, durable, plain):
            place.mkdir()
        sides = [*stack.enter_context(ours(us)), stack.enter_context(pair(durable, "durable")), stack.enter_context(pair(plain, "serve"))]
        for side in sides:
            side.move(ENTRIES)  # not counted: makes the build and the database, and warms all up
        for turn in range(ROUNDS):
            for side in sides if turn % 2 else reversed(sides):
                side.round()
        report("replication", table(*sides))


def against(us: Side, them: Side) -> list[float]:
    """How often faster ours was, round by round: what is next to each other met the same load."""
    return [theirs["seconds"] / mine["seconds"] for mine, theirs in zip(us.taken, them.taken)]


def table(us: Side, pushes: Side, durable: Side, plain: Side) -> list[dict]:
    rows = [
        row("pushes against the pair, both on the disk", statistics.median(against(pushes, durable)), "ratio", ">= 2"),
        row("pushes against the pair, worst round", min(against(pushes, durable)), "ratio"),
        row("phone to server against the pair, both on the disk", statistics.median(against(us, durable)), "ratio"),
        row("phone to server against the pair, worst round", min(against(us, durable)), "ratio"),
        row("phone to server against the pair that does not wait for the disk", statistics.median(against(us, plain)), "ratio"),
    ]
    names = ("ours, pushes alone", "ours, phone to server", "the pair, on the disk", "the pair, not waiting")
    for name, side in zip(names, (pushes, us, durable, plain)):
        rows += [
            row(f"{name}: entries moved", ENTRIES / side.middle("seconds"), "/s"),
            row(f"{name}: processor time an entry", side.middle("processor") / ENTRIES * 1e6, "us"),
        ]
    for name, side in (("ours", us), ("the pair", durable)):
        goal = "<= 1" if side is us else ""
        rows += [
            row(f"{name}: bytes sent an entry", side.middle("bytes") / ENTRIES, "bytes", "<= 150" if side is us else ""),
            row(f"{name}: requests for {ENTRIES}", side.middle("requests"), "requests"),
            row(f"{name}: requests for one new", side.move(1)["requests"], "requests", goal),
            row(f"{name}: requests when there is nothing new", side.move(0)["requests"], "requests", goal),
        ]
    return rows


if __name__ == "__main__":
    main()
