// Chores wait for the hands: while a thumb types, nothing that can be done later takes the phone's time from it.
const RESTS_MS = 700;      // longer than from the last digit to the tick
const AT_MOST_MS = 2_500;  // a thumb that never rests keeps the server waiting no longer

let last = -Infinity;
for (const kind of ["pointerdown", "keydown"]) {
  globalThis.document?.addEventListener(kind, (event) => { last = event.timeStamp; }, { capture: true, passive: true });
}

/** Resolves when the hands have rested a while, at once when they do already. */
export async function handsRest(since = performance.now()): Promise<void> {
  for (let now = since; now - last < RESTS_MS && now - since < AT_MOST_MS; now = performance.now()) {
    await new Promise((done) => setTimeout(done, RESTS_MS - now + last));
  }
}
