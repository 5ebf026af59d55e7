// The board's arithmetic: where the dots of a fit stand between its posts, and what deserves a word.
import type { BoardBuild, BoardFit } from "../../bench";

export interface Dot { x: number; y: number; shape: "dot" | "under" | "over" | "stale"; label: string }

const LEFT = 110, RIGHT = 350, MIN = 14, MAX = 446, MID = 30, NEAR = 13;

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
    out.push({ x, y, shape: v.state === "under" || v.state === "over" ? v.state : v.state === "stale" ? "stale" : "dot", label: `${v.station ? `${v.station}: ` : ""}${v.shown}` });
  }
  return out;
}

export const astray = (fit: BoardFit): boolean => fit.values.some((v) => v.state === "under" || v.state === "over");

/** The phase in which a build stands: the first not done. */
export const standing = (build: BoardBuild): string => build.phases.find((p) => p.status !== "done")?.title ?? "";

/** Columns of the wide table: every phase of any build, in order of first mention. */
export function columns(builds: readonly BoardBuild[]): { id: string; title: string }[] {
  const out: { id: string; title: string }[] = [];
  for (const build of builds) for (const phase of build.phases) if (!out.some((c) => c.id === phase.id)) out.push({ id: phase.id, title: phase.title });
  return out;
}
