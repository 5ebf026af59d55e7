"""Runs the collected tests once for each mutant, each time in a child of this process; see tests/mutants.py."""

import json
import os
import random
import shutil
import signal
import time
from pathlib import Path

import pytest

PATIENCE_S = 300  # for a mutant that never ends; a busy machine must not pass for a test that noticed
KNOWN = Path(__file__).with_name("mutants.json")
LAST = ("threads", "ten_thousand", "random_batches", "no_bytes_break", "no_thing_breaks", "test_admin")


@pytest.hookimpl(tryfirst=True)
def pytest_runtestloop(session):
    from tests.mutants import every

    most = int(os.environ["MUTANTS"] or 0)
    found = every()
    chosen = random.Random(1).sample(found, most) if 0 < most < len(found) else found
    known = json.loads(KNOWN.read_text()) if KNOWN.exists() else {}
    first = next(item for item in session.items if "test_push_and_pull" in item.nodeid)
    session.config.hook.pytest_runtest_protocol(item=first, nextitem=session.items[-1])
    assert not session.testsfailed, "the tests fail without any mutant"
    survived, unexplained, began = 0, 0, time.monotonic()
    for done, (file, line, what, source) in enumerate(chosen, start=1):
        if done % 10 == 0:
            print(f"{done} of {len(chosen)} tried, {survived} survived, {time.monotonic() - began:.0f} s", flush=True)
        if noticed(session, file, source):
            continue
        words = Path("backend", file).read_text().splitlines()[line - 1].strip() if line else ""
        why = known.get(f"{file}: {words}: {what}", "")
        survived, unexplained = survived + 1, unexplained + (not why)
        print(f"survived  {file}:{line}  {what}  {words}  {why and f'({why})'}", flush=True)
    caught = len(chosen) - survived
    share = 100 * caught / len(chosen)
    print(f"{caught} of {len(chosen)} mutants caught ({share:.1f} %), {time.monotonic() - began:.0f} s; {unexplained} survivors without an explanation")
    session.testsfailed = int(share < 90)
    return True


def noticed(session, file: str, source: str) -> bool:
    pid = os.fork()
    if pid == 0:
        try:
            os._exit(run(session, file, source))
        except BaseException:
            os._exit(1)
    _, status = os.waitpid(pid, 0)
    return status != 0


def run(session, file: str, source: str) -> int:
    """In the child: the mutant in place, a database of its own, the likeliest tests first."""
    from django.db import connection

    from tests.mutants import apply

    signal.alarm(PATIENCE_S)
    silent = os.open(os.devnull, os.O_WRONLY)
    os.dup2(silent, 1)
    os.dup2(silent, 2)
    connection.close()
    own = f"{connection.settings_dict['NAME']}.{os.getpid()}"
    shutil.copy(connection.settings_dict["NAME"], own)
    connection.settings_dict["NAME"] = own
    apply(file, source)
    near = f"tests/{file.split('/')[0]}/"
    items = sorted(session.items, key=lambda item: (any(word in item.nodeid for word in LAST), near not in item.nodeid))
    try:
        for i, item in enumerate(items):
            session.config.hook.pytest_runtest_protocol(item=item, nextitem=items[i + 1] if i + 1 < len(items) else None)
            if session.testsfailed:
                return 1
        return 0
    finally:
        os.unlink(own)
