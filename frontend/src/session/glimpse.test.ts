import { afterEach, beforeEach, expect, it, vi } from "vitest";
import type { Overview, StepView } from "../kernel/types";
import { forget, glimpse, remember, type Glimpse } from "./glimpse";

const seen = (step: string): Glimpse => ({
  person: { id: "marek", name: "Marek", role: "builder" }, build: "b", step: { id: step } as StepView, overview: { next: step } as Overview,
  settings: { units: { length: "thou", torque: "lbf.ft" }, theme: "auto", leftHand: false, big: false, tones: true, voice: false, language: "en" },
});
const held = new Map<string, string>();

beforeEach(() => {
  held.clear();
  vi.useFakeTimers();
  vi.stubGlobal("localStorage", { getItem: (key: string) => held.get(key) ?? null, setItem: (key: string, text: string) => void held.set(key, text), removeItem: (key: string) => void held.delete(key) });
});
afterEach(() => { vi.useRealTimers(); vi.unstubAllGlobals(); });

it("keeps the last step once the thumb rests, and only the last", async () => {
  remember(seen("one"));
  remember(seen("two"));
  expect(glimpse()).toBeNull();
  await vi.runAllTimersAsync();
  expect(glimpse()).toEqual(seen("two"));
});
it("goes with the person who logs out, also what was about to be written", async () => {
  remember(seen("one"));
  await vi.runAllTimersAsync();
  remember(seen("two"));
  forget();
  await vi.runAllTimersAsync();
  expect(glimpse()).toBeNull();
});
it("is none where the store is broken or refused", () => {
  held.set("halfthou:glimpse:1", "{");
  expect(glimpse()).toBeNull();
  vi.stubGlobal("localStorage", { getItem: () => { throw new Error("refused"); } });
  expect(glimpse()).toBeNull();
});
