// Seen from above: stations that lie at one height share a lane, from left to right.
export interface Placed { id: string; x: number; y: number }

/** Lanes across the phone. An engine drawn front to back down the page is turned, so that its stations lie side by side. */
export function lanes<T extends Placed>(stations: readonly T[]): T[][] {
  const upright = across(stations);
  const widest = Math.max(0, ...upright.map((lane) => lane.length));
  return upright.length > widest ? across(stations.map((s) => ({ ...s, x: s.y, y: s.x }))) : upright;
}

/** Lanes from top to bottom; heights within 8 of each other (of 100) are one lane. */
function across<T extends Placed>(stations: readonly T[]): T[][] {
  const out: { y: number; row: T[] }[] = [];
  for (const s of [...stations].sort((a, b) => a.y - b.y || a.x - b.x)) {
    const lane = out.find((l) => Math.abs(l.y - s.y) <= 8);
    if (lane) lane.row.push(s);
    else out.push({ y: s.y, row: [s] });
  }
  return out.map((l) => l.row.sort((a, b) => a.x - b.x));
}

/** More stations than a thumb can choose among above the keys: they are shown small, and picked on a page of their own. */
export const MANY = 10;

/** The frame that holds all places with room for a ring, and the ring that does not touch its neighbour. */
export function frame(places: readonly Placed[]): { x: number; y: number; width: number; height: number; ring: number } {
  if (!places.length) return { x: 0, y: 0, width: 100, height: 50, ring: 8 };
  let near = 34;
  places.forEach((a, i) => places.slice(i + 1).forEach((b) => { near = Math.min(near, Math.hypot(a.x - b.x, a.y - b.y)); }));
  const ring = Math.max(2.5, Math.min(8, near * 0.44));
  const xs = places.map((p) => p.x), ys = places.map((p) => p.y);
  const pad = ring * 1.5;
  const x = Math.min(...xs) - pad, y = Math.min(...ys) - pad;
  return { x, y, width: Math.max(...xs) + pad - x, height: Math.max(...ys) + pad - y, ring };
}
