"""From the tick's tap to the painted verdict, at a quarter of this machine's speed and with the server gone.

The journals are read and the caps are on, as in the main job; then one main bore is read again and again. The clock
starts when the finger leaves the tick and stops when the frame with the verdict is out: it was worked out while the thumb
travelled to the tick, and says that it is not kept yet. A second clock stops when the frame is out that calls it kept: by
then the reading is on the disk. The first readings are not counted.

Every tap of those readings, digits and all, counts for the "interaction to next paint": the browser's own event timing, the
longest of all taps but one in fifty.

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
  let tapped = 0, asked = 0, shown = false, kept = false;
  const send = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (...what) {
    if (!this.timed) this.addEventListener("message", () => { window.answered = performance.now(); if (asked) { window.kernel += window.answered - asked; asked = 0; } });
    this.timed = true;
    asked ||= performance.now();
    return send.apply(this, what);
  };
  addEventListener("pointerup", (event) => {
    if (event.target.closest('[data-testid="key-tick"]')) { tapped = event.timeStamp; asked = 0; window.kernel = 0; window.took = window.kept = undefined; }
  }, true);
  const framed = (clock) => requestAnimationFrame(() => { const door = new MessageChannel(); door.port1.onmessage = () => { window[clock] ??= performance.now() - tapped; }; door.port2.postMessage(0); });
  new MutationObserver(() => {
    const sure = !!document.querySelector('[data-testid="verdict"]'), now = sure || !!document.querySelector('[data-testid="foretold"]');
    if (now && !shown) { window.waited = window.kernel; framed("took"); }
    if (sure && !kept) framed("kept");
    shown = now; kept = sure;
  }).observe(document, { childList: true, subtree: true, attributes: true, attributeFilter: ["data-testid"] });
  window.taps = new Map();
  new PerformanceObserver((list) => list.getEntries().forEach((e) => { if (e.interactionId) window.taps.set(e.interactionId, Math.max(e.duration, window.taps.get(e.interactionId) ?? 0)); }))
    .observe({ type: "event", durationThreshold: 16, buffered: true });
})()"""
# Taps that were painted within a frame are counted, not listed.
NEXT_PAINT = """(before) => new Promise((done) => setTimeout(() => {
  const longest = [...window.taps.values()].sort((one, other) => other - one), all = performance.interactionCount - before;
  done([longest[Math.floor(all / 50)] ?? 16, all]);
}, 300))"""


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


def read_again(hand, text: str) -> tuple[float, float, float]:
    """Milliseconds until one more reading of the same bore is judged, how many of them the page waited for the kernel, and until it is kept."""
    hand.at("again-button").tap()
    hand.at("key-tick").wait_for()
    hand.types(text.replace(".", "").removeprefix(hand.held()))
    hand.page.wait_for_timeout(PAUSE)
    hand.at("key-tick").tap()
    hand.at("verdict").wait_for()
    hand.page.wait_for_timeout(50)
    took, waited, kept = hand.page.evaluate("[window.took, window.waited, window.kept]")
    assert took and 0 <= waited < took <= kept, f"the verdict was seen but not timed: {took}, {waited}, {kept}"
    return took, waited, kept


def rows_of(name: str, hand, times: int, goal: str = "", paint_goal: str = "") -> list[dict]:
    before = hand.page.evaluate("(window.taps.clear(), performance.interactionCount)")
    found = [read_again(hand, BORES[i % len(BORES)]) for i in range(WARM + times)][WARM:]
    whole, waited, kept = zip(*found, strict=True)
    slowest, taps = hand.page.evaluate(NEXT_PAINT, before)
    return [
        row(f"{name}: p95", at_most(whole, 0.95), "ms", goal),
        row(f"{name}: median", median(whole), "ms"),
        row(f"{name}: until called kept, p95", at_most(kept, 0.95), "ms"),
        row(f"{name}: until called kept, median", median(kept), "ms"),
        row(f"{name}: median spent waiting for the kernel", median(waited), "ms"),
        row(f"{name}: tap to next paint (INP), {taps} taps", slowest, "ms", paint_goal),
    ]


def main() -> None:
    with marek() as (server, hand):
        server.stop()
        hand.page.add_init_script(CLOCK)
        hand.page.reload()
        up_to_the_bores(hand)
        rows = rows_of("not slowed", hand, FEW)
        throttle(hand.page, RATE)
        rows += rows_of(f"page at 1/{RATE} (workers not slowed)", hand, TIMES, "<= 50", "<= 100")
        throttle(hand.page, 1)
        if can_slow_browser():
            with slow_browser(RATE) as pulse:
                rows += rows_of(f"whole browser at 1/{RATE}, workers too", hand, FEW)
            rows.append(row("how much slower the whole browser was made", pulse.achieved(), "times"))
    rows.append(row("load of this machine, last minute", os.getloadavg()[0], "running"))
    report("tap_to_verdict", rows)


if __name__ == "__main__":
    main()
