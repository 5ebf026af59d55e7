// Simulated time: nothing happens until it is moved on.
import { here, type Tab } from "./tab";

interface Timer { id: number; due: number; tab: Tab; ring: () => void }
let clock = 1_764_068_400_000;
let count = 0;
const timers = new Map<number, Timer>();

export const now = (): number => clock;
export const cancel = (id: number): void => { timers.delete(id); };

export function schedule(tab: Tab, ms: number, ring: () => void): number {
  timers.set(++count, { id: count, due: clock + ms, tab, ring });
  return count;
}

export function startAfresh(): void { timers.clear(); clock = 1_764_068_400_000; }

/** Moves on to the next timer that is due, or to `to`; true when one rang. */
export function forward(to: number): boolean {
  const due = [...timers.values()].filter((timer) => timer.due <= to && !timer.tab.dead).sort((one, other) => one.due - other.due || one.id - other.id)[0];
  clock = Math.max(clock, due ? due.due : to);
  if (!due) return false;
  timers.delete(due.id);
  here.run(due.tab, due.ring);
  return true;
}
