// The board's arithmetic: where the dots of a fit stand between its posts, and what deserves a word.
import type { BoardBuild, BoardFit } from "../../bench";
import { isOut } from "../../parts/out";

export interface Dot { x: number; y: number; shape: "dot" | "under" | "over" | "stale"; outline: string; label: string }

const LEFT = 110, RIGHT = 350, MIN = 14, MAX = 446, MID = 30, NEAR = 13;

/** Around the place itself: an arrow that way for what is out, a disc for the rest. */
const DISC = "m-7 0a7 7 0 1 1 14 0a7 7 0 1 1-14 0";
const OUTLINES = { dot: DISC, stale: DISC, over: "m-10-12l20 12l-20 12z", under: "m10-12l-20 12l20 12z" };

/** Dots between the posts at 110 and 350; dots that would cover each other are stacked. */
export function dotsOf(fit: BoardFit): Dot[] {
  const low = fit.low ?? 0;
  const span = (fit.high ?? Math.max(low * 2, 1)) - low || 1;
  const out: Dot[] = [];
  for (const v of fit.values) {
    if (v.raw === null) continue;
    const x = Math.round(Math.max(MIN, Math.min(MAX, LEFT + ((v.raw - low) * (RIGHT - LEFT)) / span)));
    const level = out.filter((d) => Math.abs(d.x - x) < NEAR).length;
    const y = MID + (level % 2 ? -1 : 1) * Math.ceil(level / 2) * 9;
    const shape = isOut(v) || v.state === "stale" ? (v.state as Dot["shape"]) : "dot";
    out.push({ x, y, shape, outline: OUTLINES[shape], label: `${v.station ? `${v.station}: ` : ""}${v.shown}` });
  }
  return out;
}

export const astray = (fit: BoardFit): boolean => fit.values.some(isOut);

/** The phase in which a build stands: the first not done. */
export const standing = (build: BoardBuild): string => build.phases.find((p) => p.status !== "done")?.title ?? "";

/** What a build's fits show from afar: the astray ones first, then those read and held against a limit. */
export function strips(fits: readonly BoardFit[]): { out: BoardFit[]; rest: BoardFit[] } {
  const read = fits.filter((fit) => (fit.low !== null || fit.high !== null) && fit.values.some((v) => v.raw !== null));
  return { out: read.filter(astray), rest: read.filter((fit) => !astray(fit)) };
}
