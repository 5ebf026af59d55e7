"""Runs, for each mutant, the tests that reach the changed line, each time in a child of this process; see tests/mutants.py.

Which test reaches which line is measured first, with nothing changed. No other test can notice the change, and the quick
ones come first, so most mutants are caught within a second.
"""

import ast
import json
import os
import resource
import shutil
import signal
import tempfile
import time
from pathlib import Path

import pytest

BACKEND = Path("backend").resolve()
KNOWN = Path(__file__).with_name("mutants.json")
PATIENCE_S = 900  # of the clock; one that is ended by it is named and not counted as caught: the machine may just be busy
SPARE_S = 20  # of processor time, beyond five times what its tests took: one that uses that up never ends, and is caught


@pytest.hookimpl(tryfirst=True)
def pytest_runtestloop(session):
    from tests.mutants import FILES, chosen

    first = next(item for item in session.items if "test_push_and_pull" in item.nodeid)
    session.config.hook.pytest_runtest_protocol(item=first, nextitem=session.items[-1])
    assert not session.testsfailed, "the tests fail without any mutant"
    reach, began, tried = Reach(session), time.monotonic(), chosen()
    same = {file: (BACKEND / file).read_text() for file in FILES}
    assert not child(lambda: run(session, ordered := reach.ordered(reach.items), same, reach.limit(ordered))), "what is unchanged would pass for caught"
    known = json.loads(KNOWN.read_text()) if KNOWN.exists() else {}
    survived, unexplained = 0, []
    for done, (file, line, what, source) in enumerate(tried, start=1):
        if done % 10 == 0:
            print(f"{done} of {len(tried)} tried, {survived} survived, {time.monotonic() - began:.0f} s", flush=True)
        items = reach.tests(file, line)
        status = child(lambda: run(session, items, {file: source}, reach.limit(items))) if items else 0  # noqa: B023  it runs at once
        out_of_time = os.WIFSIGNALED(status) and os.WTERMSIG(status) == signal.SIGALRM
        if status and not out_of_time:
            continue
        words = (BACKEND / file).read_text().splitlines()[line - 1].strip() if line else ""
        name = f"{file}: {words}: {what}"
        survived += 1
        unexplained += [] if name in known else [name]
        print(f"{'no verdict' if out_of_time else 'survived'}  {file}:{line}  {what}  {words}  {known.get(name) and f'({known[name]})' or ''}", flush=True)
    caught = len(tried) - survived
    share = 100 * caught / len(tried)
    print(f"{caught} of {len(tried)} mutants caught ({share:.1f} %), {time.monotonic() - began:.0f} s; {len(unexplained)} survivors without an explanation")
    session.testsfailed = int(share < 90)
    return True


class Reach:
    """Which tests come by a line, and how long each takes."""

    def __init__(self, session):
        self.items = {item.nodeid: item for item in session.items}
        with tempfile.NamedTemporaryFile() as told:
            assert child(lambda: measured(session, Path(told.name))) == 0, "the tests fail without any mutant"
            said = json.loads(Path(told.name).read_text())
        self.seconds: dict[str, float] = said["seconds"]
        self.lines: dict[str, dict[str, list[str]]] = said["lines"]
        self.trees: dict[str, ast.AST] = {}

    def tests(self, file: str, line: int) -> list:
        """Quick ones first; those that clear the whole database, and with it the guard, last."""
        by_line, span = self.lines[file], self._function(file, line)
        found = by_line.get(str(line), ()) if span else ()
        # A line inside a statement, or one that runs when the module is loaded: all that its function, or the module, serves.
        found = found or {name for other in span or by_line for name in by_line.get(str(other), ())}
        return self.ordered(set(found))

    def ordered(self, names) -> list:
        return sorted((self.items[name] for name in names), key=lambda item: (clears(item), self.seconds[item.nodeid]))

    def limit(self, items: list) -> int:
        """Seconds of processor time for these tests."""
        return round(SPARE_S + 5 * sum(self.seconds[item.nodeid] for item in items))

    def _function(self, file: str, line: int) -> range | None:
        """The lines of the innermost function around it; None for what runs when the module is loaded."""
        if file not in self.trees:
            self.trees[file] = ast.parse((BACKEND / file).read_text())
        functions = (node for node in ast.walk(self.trees[file]) if isinstance(node, (ast.FunctionDef, ast.Lambda)))
        around = [node for node in functions if body_starts(node) <= line <= node.end_lineno]
        inner = max(around, key=lambda node: node.lineno, default=None)
        return inner and range(body_starts(inner), inner.end_lineno + 1)


def body_starts(node) -> int:
    return node.body[0].lineno if isinstance(node, ast.FunctionDef) else node.body.lineno


def clears(item) -> bool:
    return "transactional_db" in item.fixturenames


def measured(session, told: Path) -> int:
    """In a child: every test once, with nothing changed, and the lines each came by."""
    import coverage

    from tests.mutants import FILES

    paths = {str(BACKEND / file): file for file in FILES}
    watch = coverage.Coverage(data_file=None, include=list(paths), config_file=False)
    seconds = {}
    own_database()
    items = sorted(session.items, key=clears)
    watch.start()
    for item in items:
        watch.switch_context(item.nodeid)
        began = time.monotonic()
        session.config.hook.pytest_runtest_protocol(item=item, nextitem=following(items, item))
        seconds[item.nodeid] = time.monotonic() - began
        if session.testsfailed:
            raise AssertionError(item.nodeid)
    watch.stop()
    lines = {file: {} for file in FILES}
    for path, file in paths.items():
        for line, contexts in watch.get_data().contexts_by_lineno(path).items():
            lines[file][line] = [name for name in contexts if name]
    told.write_text(json.dumps({"seconds": seconds, "lines": lines}))
    return 0


def following(items: list, item):
    at = items.index(item) + 1
    return items[at] if at < len(items) else None


def child(work) -> int:
    """What `work` returns, in a process of its own; not 0 when it was ended."""
    pid = os.fork()
    if pid == 0:
        try:
            silent = os.open(os.devnull, os.O_WRONLY)
            os.dup2(silent, 1)
            if not os.environ.get("MUTANTS_LOUD"):
                os.dup2(silent, 2)
            os._exit(work())
        except BaseException:
            if os.environ.get("MUTANTS_LOUD"):
                import traceback

                traceback.print_exc()
            os._exit(1)
    _, status = os.waitpid(pid, 0)
    return status


def own_database() -> Path:
    from django.db import connection

    connection.close()
    own = f"{connection.settings_dict['NAME']}.{os.getpid()}"
    shutil.copy(connection.settings_dict["NAME"], own)
    connection.settings_dict["NAME"] = own
    return Path(own)


def run(session, items: list, sources: dict[str, str], limit: int) -> int:
    """In the child: the mutant in place of its file, on a database of its own; 1 as soon as a test notices."""
    from tests.mutants import apply

    signal.alarm(PATIENCE_S)
    resource.setrlimit(resource.RLIMIT_CPU, (limit, limit))
    own = own_database()
    for file, source in sources.items():
        apply(file, source)
    try:
        for item in items:
            session.config.hook.pytest_runtest_protocol(item=item, nextitem=following(items, item))
            if session.testsfailed:
                return 1
        return 0
    finally:
        own.unlink(missing_ok=True)  # the last test's tidying up may have taken it
