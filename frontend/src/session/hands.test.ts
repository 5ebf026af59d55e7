import { afterEach, beforeEach, expect, it, vi } from "vitest";

let touch: (event: { timeStamp: number }) => void;
let handsRest: (since?: number) => Promise<void>;
let rested = 0;

beforeEach(async () => {
  vi.useFakeTimers({ now: 0 });
  vi.stubGlobal("document", { addEventListener: (_kind: string, heard: typeof touch) => { touch = heard; } });
  vi.resetModules();
  ({ handsRest } = await import("./hands"));
});
afterEach(() => { vi.useRealTimers(); vi.unstubAllGlobals(); });

async function startChore(): Promise<void> {
  rested = 0;
  void handsRest().then(() => { rested = performance.now(); });
  await vi.advanceTimersByTimeAsync(0);
}

it("lets a chore go on at once when nobody touched the phone", async () => {
  const before = performance.now();
  await startChore();
  expect(rested).toBe(before);
});

it("waits until the thumb has rested, and begins anew with each touch", async () => {
  const begun = performance.now();
  touch({ timeStamp: begun });
  await startChore();
  await vi.advanceTimersByTimeAsync(500);
  touch({ timeStamp: begun + 500 });
  await vi.advanceTimersByTimeAsync(600);
  expect(rested).toBe(0);
  await vi.advanceTimersByTimeAsync(200);
  expect(rested).toBe(begun + 1200);
});

it("does not wait for ever", async () => {
  const begun = performance.now();
  touch({ timeStamp: begun });
  await startChore();
  for (let i = 1; i < 30; i++) { await vi.advanceTimersByTimeAsync(300); touch({ timeStamp: begun + 300 * i }); }
  expect(rested - begun).toBeGreaterThan(2_000);
  expect(rested - begun).toBeLessThan(3_500);
});
