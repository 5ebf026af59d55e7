"""Cold start with the server gone: from navigation to a step that can be worked, at a quarter of this machine's speed.

The phone was used at "journals" before; its page is closed, its service worker stopped, the server ended. A new page
opens the bare address, and the clock stops when the frame with the tick key is out. Median of five.

The goal is stated for the browser's own throttle of the page, as most people measure. That throttle does not slow
workers, and the kernel starts and folds in one; so the figure with the whole browser at a quarter of its time is printed
beside it. A phone lies between the two.
"""

import os

from tests.bench.phone.bench_phone import RATE, marek, median
from tests.bench.phone.slow import can_slow_browser, slow_browser, throttle
from tests.bench.report import report, row

TIMES = 5
RESTS = 1500  # ms at the step before the phone goes away: nobody reads a journal sooner
SEES_TICK = """window.usable = new Promise((done) => {
  const framed = () => { const door = new MessageChannel(); door.port1.onmessage = () => done(performance.now()); door.port2.postMessage(0); };
  const watch = new MutationObserver(() => {
    if (!document.querySelector('[data-testid="key-tick"]')) return;
    watch.disconnect();
    requestAnimationFrame(framed);
  });
  watch.observe(document, { childList: true, subtree: true });
})"""


def start(hand, rate: float) -> float:
    """Milliseconds of one cold start; a rate of 1 leaves the page as fast as it is."""
    context = hand.page.context
    hand.page.close(run_before_unload=False)
    hand.page = context.new_page()
    door = context.new_cdp_session(hand.page)
    door.send("ServiceWorker.enable")
    door.send("ServiceWorker.stopAllWorkers")
    if rate > 1:
        throttle(hand.page, rate)
    hand.page.add_init_script(SEES_TICK)
    hand.page.goto(hand.base)
    hand.at("key-tick").wait_for(timeout=60_000)
    assert "/step/journals" in hand.page.url, f"the phone opened somewhere else: {hand.page.url}"
    return hand.page.evaluate("window.usable")


def starts(hand, rate: float = 1) -> list[float]:
    return [start(hand, rate) for _ in range(TIMES)]


def main() -> None:
    with marek() as (server, hand):
        hand.opens("journals")
        hand.at("key-tick").wait_for()
        hand.page.wait_for_timeout(RESTS)
        server.stop()
        start(hand, 1)  # the first one fills the browser's store of compiled code
        free, page = starts(hand), starts(hand, RATE)
        rows = [
            row("offline start to a usable step, not slowed", median(free), "ms"),
            row(f"page at 1/{RATE} (workers not slowed)", median(page), "ms", "<= 1000"),
            row(f"page at 1/{RATE}, slowest of {TIMES}", max(page), "ms"),
        ]
        if can_slow_browser():
            with slow_browser(RATE) as pulse:
                whole = starts(hand)
            rows.append(row(f"whole browser at 1/{RATE}, workers too", median(whole), "ms"))
            rows.append(row("how much slower the whole browser was made", pulse.achieved(), "times"))
    rows.append(row("load of this machine, last minute", os.getloadavg()[0], "running"))
    report("offline_start", rows)


if __name__ == "__main__":
    main()
