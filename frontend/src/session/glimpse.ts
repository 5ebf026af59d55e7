// What the screen showed last, kept where it can be read before anything else is open. It is a picture, not the
// record: the log and the kernel put it right within the same second, and it goes with the person who logs out.
import type { Person, Settings } from "../bench";
import type { Overview, StepView } from "../kernel/types";
import { handsRest } from "./hands";

export interface Glimpse { person: Person; settings: Settings; build: string; step: StepView; overview: Overview }

const KEY = "halfthou:glimpse:1";
const RESTS_MS = 400;
let timer: ReturnType<typeof setTimeout> | undefined;
let waits: Glimpse | null = null;

/** The browser may refuse the store altogether; then there is just no glimpse. */
function store<T>(work: (at: Storage) => T): T | null {
  try { return globalThis.localStorage ? work(localStorage) : null; } catch { return null; }
}

export function glimpse(): Glimpse | null {
  const text = store((at) => at.getItem(KEY));
  try { return text ? (JSON.parse(text) as Glimpse) : null; } catch { return null; }
}

/** Written once the thumb rests, so that no tick waits for it, or when the app goes out of sight. */
export function remember(seen: Glimpse): void {
  clearTimeout(timer);
  waits = seen;
  timer = setTimeout(() => void handsRest().then(write), RESTS_MS);
}

function write(): void {
  const seen = waits;
  waits = null;
  if (seen) store((at) => at.setItem(KEY, JSON.stringify(seen)));
}
globalThis.addEventListener?.("pagehide", write);

export function forget(): void {
  clearTimeout(timer);
  waits = null;
  store((at) => at.removeItem(KEY));
}
