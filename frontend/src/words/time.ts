// Moments and spans as people say them.
import { LANGUAGE, words } from ".";
import { count, fill } from "./say";

// English is written in many ways: the phone's own is taken.
const WRITTEN = LANGUAGE === "en" ? [] : LANGUAGE;
const HOUR = 60, DAY = 24 * HOUR, LONG = 36 * HOUR;     // in minutes
const minutes = (at: number, now: number): number => Math.max(0, Math.round((now - at) / 60_000));

export const clock = (at: number): string => new Date(at).toLocaleTimeString(WRITTEN, { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
export const day = (at: number): string => new Date(at).toLocaleString(WRITTEN, { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit", hourCycle: "h23" });

export function ago(at: number, now: number): string {
  const n = minutes(at, now), w = words.ago;
  if (n < 1) return w.now;
  if (n < HOUR) return fill(w.min, { n });
  return n < LONG ? fill(w.h, { n: Math.round(n / HOUR) }) : count(Math.round(n / DAY), w.days);
}

export function age(at: number, now: number): string {
  const n = minutes(at, now), w = words.board.age;
  if (n < HOUR) return fill(w.min, { n });
  return n < 2 * DAY ? fill(w.h, { n: Math.round(n / HOUR) }) : fill(w.days, { n: Math.round(n / DAY) });
}
