"""Two ways to make a desk machine as slow as a phone; neither is a phone, so benchmarks print both.

page      the browser's own throttle of one page. It slows the thread that paints and nothing else: workers, where the
          kernel folds, and the browser's other processes stay at full speed, so the figure flatters.
browser   every process of the browser is stopped and let run in turn, so that it runs a `rate`-th of the time. Workers,
          disk and the service worker are slowed as well, a second core too; the figure is on the hard side.
"""

import os
import signal
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

SLICE = 0.002  # seconds let run at a stretch; short against anything measured here


def throttle(page, rate: float) -> None:
    """Slow the painting thread of this page; it holds for later navigations of the page too."""
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": rate})


def children(pid: int) -> list[int]:
    """The processes below this one, itself left out. Linux only: it reads /proc."""
    found = []
    try:
        for task in Path(f"/proc/{pid}/task").iterdir():
            for child in (task / "children").read_text().split():
                found += [int(child), *children(int(child))]
    except OSError:
        pass  # it ended while we looked
    return found


def browser_processes() -> list[int]:
    """The browser that this process started, with all its helpers."""
    ours = []
    for pid in children(os.getpid()):
        try:
            if "--type=" in (said := Path(f"/proc/{pid}/cmdline").read_text()) or "--remote-debugging" in said:
                ours.append(pid)
        except OSError:
            continue
    return ours


def can_slow_browser() -> bool:
    return Path(f"/proc/self/task/{os.getpid()}/children").exists()


class Pulse:
    """Stops and lets run, in turn. What a run took is measured, and the stop after it made that much longer."""

    def __init__(self, rate: float):
        self.rate, self.over, self.ran, self.stood = rate, threading.Event(), 0.0, 0.0

    def beat(self) -> None:
        while not self.over.is_set():
            began = time.perf_counter()
            time.sleep(SLICE)
            pids = browser_processes()
            stopped = self.tell(pids, signal.SIGSTOP)
            self.ran += stopped - began
            time.sleep(max(0.0, self.ran * (self.rate - 1) - self.stood))
            self.stood += self.tell(pids, signal.SIGCONT) - stopped

    def tell(self, pids: list[int], what: signal.Signals) -> float:
        for pid in pids:
            try:
                os.kill(pid, what)
            except ProcessLookupError:
                continue
        return time.perf_counter()

    def achieved(self) -> float:
        return (self.ran + self.stood) / self.ran if self.ran else 1.0


@contextmanager
def slow_browser(rate: float) -> Iterator[Pulse]:
    """The browser runs a `rate`-th of the time inside this block, and freely after it whatever happened."""
    pulse = Pulse(rate)
    thread = threading.Thread(target=pulse.beat, daemon=True)
    thread.start()
    try:
        yield pulse
    finally:
        pulse.over.set()
        thread.join()
        pulse.tell(browser_processes(), signal.SIGCONT)
