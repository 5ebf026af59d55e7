"""From the tick's tap to the painted verdict, at a quarter of this machine's speed and with the server gone.

The journals are read and the caps are on, as in the main job; then one main bore is read again and again. The clock
starts when the finger leaves the tick and stops when the frame with the verdict is out. In between: the reading is
stored on the disk and its verdict, worked out while the thumb travelled to the tick, is drawn. The first readings are
not counted.

The goal is stated for the browser's own throttle of the page, which leaves the kernel's worker at full speed; the figure
with the whole browser at a quarter of its time is printed beside it. A phone lies between the two.
"""

import os

from tests.bench.phone.bench_phone import RATE, at_most, marek, median
from tests.bench.phone.slow import can_slow_browser, slow_browser, throttle
from tests.bench.report import report, row

TIMES, FEW, WARM = 30, 15, 3
PAUSE = 150  # ms before the tick: a thumb looks at what it typed, and the read-out has caught up
JOURNALS = ("2.4480", "2.4481", "2.4480", "2.4479", "2.4480")
BORES = ("2.4505", "2.4506", "2.4504")  # one after the other, so that each verdict says something new
CLOCK = """(() => {
  let tapped = 0, asked = 0, shown = false;
  const send = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (...what) {
    if (!this.timed) this.addEventListener("message", () => { window.answered = performance.now(); if (asked) { window.kernel += window.answered - asked; asked = 0; } });
    this.timed = true;
    asked ||= performance.now();
    return send.apply(this, what);
  };
  addEventListener("pointerup", (event) => {
    if (event.target.closest('[data-testid="key-tick"]')) { tapped = event.timeStamp; asked = 0; window.kernel = 0; window.took = undefined; }
  }, true);
  const framed = () => { const door = new MessageChannel(); door.port1.onmessage = () => { window.took ??= performance.now() - tapped; }; door.port2.postMessage(0); };
  new MutationObserver(() => {
    const now = !!document.querySelector('[data-testid="verdict"]');
    if (now && !shown) { window.waited = window.kernel; requestAnimationFrame(framed); }
    shown = now;
  }).observe(document, { childList: true, subtree: true, attributes: true, attributeFilter: ["data-testid"] });
})()"""


def up_to_the_bores(hand) -> None:
    """The steps before the main bores, as a builder does them, the first bore included."""
    hand.opens("journals")
    for text in JOURNALS:
        hand.reads(text)
    hand.opens("shells_in")
    hand.ticks_all()
    hand.opens("caps_for_measuring")
    hand.pulls()
    hand.opens("main_bores")
    hand.reads(BORES[-1])
    hand.at("verdict").wait_for()


def read_again(hand, text: str) -> tuple[float, float]:
    """Milliseconds of one more reading of the same bore, and how many of them the page waited for the kernel."""
    hand.at("again-button").tap()
    hand.at("key-tick").wait_for()
    hand.types(text.replace(".", "").removeprefix(hand.held()))
    hand.page.wait_for_timeout(PAUSE)
    hand.at("key-tick").tap()
    hand.at("verdict").wait_for()
    hand.page.wait_for_timeout(50)
    took, waited = hand.page.evaluate("[window.took, window.waited]")
    assert took and 0 <= waited < took, f"the verdict was seen but not timed: {took}, {waited}"
    return took, waited


def rows_of(name: str, hand, times: int, goal: str = "") -> list[dict]:
    found = [read_again(hand, BORES[i % len(BORES)]) for i in range(WARM + times)][WARM:]
    whole, waited = [took for took, _ in found], [waited for _, waited in found]
    return [
        row(f"{name}: p95", at_most(whole, 0.95), "ms", goal),
        row(f"{name}: median", median(whole), "ms"),
        row(f"{name}: median spent waiting for the kernel", median(waited), "ms"),
    ]


def main() -> None:
    with marek() as (server, hand):
        server.stop()
        hand.page.add_init_script(CLOCK)
        hand.page.reload()
        up_to_the_bores(hand)
        rows = rows_of("not slowed", hand, FEW)
        throttle(hand.page, RATE)
        rows += rows_of(f"page at 1/{RATE} (workers not slowed)", hand, TIMES, "<= 50")
        throttle(hand.page, 1)
        if can_slow_browser():
            with slow_browser(RATE) as pulse:
                rows += rows_of(f"whole browser at 1/{RATE}, workers too", hand, FEW)
            rows.append(row("how much slower the whole browser was made", pulse.achieved(), "times"))
    rows.append(row("load of this machine, last minute", os.getloadavg()[0], "running"))
    report("tap_to_verdict", rows)


if __name__ == "__main__":
    main()
