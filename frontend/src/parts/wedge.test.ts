// 10,000 bursts of a gauge on a keyboard cable, among typing: every burst is the reading it says, and no typing is one.
import { expect, it } from "vitest";
import { GAP_MS, readingOf, Wedge } from "./wedge";

/** A small generator with a seed, so that a failure can be seen again. */
function luck(seed: number): () => number {
  let state = seed >>> 0;
  return () => { state = (Math.imul(state, 1664525) + 1013904223) >>> 0; return state / 2 ** 32; };
}

const SENT = ["2.4485", "+2.4485", "002.4485", "62,19mm", "0.0024in", "-0.15", "41"];
const MEANT = ["2.4485", "2.4485", "2.4485", "62.19", "0.0024", "-0.15", "41"];

it("knows what gauges send", () => {
  expect(SENT.map((text) => readingOf(text)?.text)).toEqual(MEANT);
  expect(readingOf("62,19mm")?.unit).toBe("mm");
  for (const text of ["", "E03", "2..4", "2.4.5", "Err", "--2"]) expect(readingOf(text)).toBeNull();
});

it("takes 10,000 bursts, whatever was typed before them", () => {
  const chance = luck(4), wedge = new Wedge();
  let at = 0, taken = 0;
  for (let i = 0; i < 10_000; i++) {
    const typed = Math.floor(chance() * 4);                       // digits by hand, then the gauge speaks
    for (let k = 0; k < typed; k++) { at += 60 + chance() * 300; expect(wedge.hear(String(k), at).burst).toBeNull(); }
    const which = Math.floor(chance() * SENT.length), text = SENT[which]!;
    at += GAP_MS + 1 + chance() * 500;
    for (const key of text) { expect(wedge.hear(key, at).burst).toBeNull(); at += chance() * 30; }
    const { burst } = wedge.hear("Enter", at);
    if (burst && burst !== "unreadable" && burst.text === MEANT[which]) taken++;
  }
  expect(taken).toBe(10_000);
});

it("never mistakes typing for a burst: 10,000 entries by hand", () => {
  const chance = luck(9), wedge = new Wedge();
  let at = 0;
  for (let i = 0; i < 10_000; i++) {
    const digits = 1 + Math.floor(chance() * 5);
    for (let k = 0; k < digits; k++) {
      // Two keys may be struck together now and then; a third at once and the Enter as well is no hand.
      at += k > 0 && chance() < 0.05 ? 5 : 45 + chance() * 400;
      expect(wedge.hear(String(k), at).burst).toBeNull();
    }
    at += 45 + chance() * 400;
    expect(wedge.hear("Enter", at).burst).toBeNull();
  }
});

it("says when a gauge sent no number", () => {
  const wedge = new Wedge();
  [..."E03"].forEach((key, i) => wedge.hear(key, i * 5));
  expect(wedge.hear("Enter", 15).burst).toBe("unreadable");
});
it("leaves an Enter alone that ends nothing", () => expect(new Wedge().hear("Enter", 5).burst).toBeNull());
