// Before and after of a correction on one strip between the limits.
import type { Ends, Offer, OfferRow } from "../kernel/types";
import { words } from "../words";
import { fill } from "../words/say";

export interface DotRow { station: string; before: string; after: string; from: number | null; to: number | null; out: boolean; moved: boolean }

const LEFT = 70, RIGHT = 262, MIN = 44, MAX = 280;

/** x of a raw figure between the posts at 70 and 262, kept on the strip. */
export function place(raw: Ends, value: number | null): number | null {
  if (value === null) return null;
  const low = raw.low ?? 0;
  const span = (raw.high ?? low * 2 + 1) - low || 1;
  return Math.round(Math.max(MIN, Math.min(MAX, LEFT + ((value - low) * (RIGHT - LEFT)) / span)));
}

/** Each row between its own limits: springs and valves do not all share one. */
export const dots = (offer: Offer): DotRow[] => offer.rows.map((row) => ({
  station: row.station, before: row.before, after: row.after, out: row.out, moved: row.moved,
  from: place(row.raw ?? offer.raw, row.before_raw), to: place(row.raw ?? offer.raw, row.after_raw),
}));

/** Where rows have limits of their own the posts carry no figures. */
export const oneLimit = (offer: Offer): boolean =>
  offer.rows.every((row: OfferRow) => !row.raw || (row.raw.low === offer.raw.low && row.raw.high === offer.raw.high));

/** What the button says that does it. */
export const doing = (offer: Offer): string => (offer.kind === "shims" ? fill(words.offer.shimmed, { title: offer.title }) : words.offer.applied);
