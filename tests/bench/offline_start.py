"""Cold start with the server gone: from navigation to a step that can be worked, at a quarter of this machine's speed.

The phone was used at "journals" before; its page is closed, its service worker stopped, the server ended. A new page
opens the bare address, and the clock stops when the frame with the tick key is out. Median of five. The step stands as it
was left until the kernel has opened the build, so a second clock stops when the kernel has answered for this step. Both once
more with the whole V8, whose procedure is the largest there is, at its first choice.

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
SEES = """window.usable = new Promise((done) => {
  const framed = () => { const door = new MessageChannel(); door.port1.onmessage = () => done(performance.now()); door.port2.postMessage(0); };
  const watch = new MutationObserver(() => {
    if (!document.querySelector('%s')) return;
    watch.disconnect();
    requestAnimationFrame(framed);
  });
  watch.observe(document, { childList: true, subtree: true });
});
window.answered = new Promise((done) => {
  const send = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (message, ...rest) {
    const op = typeof message.request === "string" && JSON.parse(message.request).op;
    if (op === "step") this.addEventListener("message", ({ data }) => { if (data.id === message.id) done(performance.now()); });
    return send.call(this, message, ...rest);
  };
});"""
PLACES = {"": ("b-sprint-boat", "journals", '[data-testid="key-tick"]'), "whole V8: ": ("b-hill-climb", "facts", '[data-testid^="option-"]')}


def start(hand, place: str, rate: float) -> tuple[float, float]:
    """Milliseconds of one cold start, until the step can be worked and until the kernel has answered; a rate of 1 slows nothing."""
    _, step, sign = PLACES[place]
    context = hand.page.context
    hand.page.close(run_before_unload=False)
    hand.page = context.new_page()
    door = context.new_cdp_session(hand.page)
    door.send("ServiceWorker.enable")
    door.send("ServiceWorker.stopAllWorkers")
    if rate > 1:
        throttle(hand.page, rate)
    hand.page.add_init_script(SEES % sign)
    hand.page.goto(hand.base)
    hand.page.locator(sign).first.wait_for(timeout=60_000)
    assert f"/step/{step}" in hand.page.url, f"the phone opened somewhere else: {hand.page.url}"
    return tuple(hand.page.evaluate("Promise.all([window.usable, window.answered])"))


def starts(hand, place: str, rate: float = 1) -> tuple[list[float], list[float]]:
    usable, answered = zip(*(start(hand, place, rate) for _ in range(TIMES)), strict=True)
    return list(usable), list(answered)


def rests_at(hand, place: str) -> None:
    build, step, sign = PLACES[place]
    hand.opens(step, build)
    hand.page.locator(sign).first.wait_for()
    hand.page.wait_for_timeout(RESTS)


def rows_of(hand, place: str) -> list[dict]:
    start(hand, place, 1)  # the first one fills the browser's store of compiled code
    free, (page, kernel) = starts(hand, place)[0], starts(hand, place, RATE)
    rows = [
        row(f"{place}offline start to a usable step, not slowed", median(free), "ms"),
        row(f"{place}page at 1/{RATE} (workers not slowed)", median(page), "ms", "<= 1000"),
        row(f"{place}page at 1/{RATE}, slowest of {TIMES}", max(page), "ms"),
        row(f"{place}page at 1/{RATE}, until the kernel has answered", median(kernel), "ms"),
    ]
    if can_slow_browser():
        with slow_browser(RATE) as pulse:
            whole, kernel = starts(hand, place)
        rows += [
            row(f"{place}whole browser at 1/{RATE}, workers too", median(whole), "ms"),
            row(f"{place}whole browser at 1/{RATE}, until the kernel has answered", median(kernel), "ms"),
            row(f"{place}how much slower the whole browser was made", pulse.achieved(), "times"),
        ]
    return rows


def main() -> None:
    with marek() as (server, hand):
        for place in PLACES:
            rests_at(hand, place)
        rests_at(hand, "")
        server.stop()
        rows = rows_of(hand, "")
        rests_at(hand, "whole V8: ")
        rows += rows_of(hand, "whole V8: ")
    rows.append(row("load of this machine, last minute", os.getloadavg()[0], "running"))
    report("offline_start", rows)


if __name__ == "__main__":
    main()
