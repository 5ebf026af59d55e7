// Where each step stands on the steel rule; the first step of a phase has a longer mark.
import type { Overview } from "../kernel/types";

export interface Mark { id: string; x: number; top: number; kind: "done" | "open" | "held" | "stale"; here: boolean }

export function marks(overview: Overview, here: string, width = 332): Mark[] {
  const gap = (width - 20) / Math.max(1, overview.steps.length - 1);
  return overview.steps.map((step, i) => {
    const first = i === 0 || overview.steps[i - 1]!.phase !== step.phase;
    const kind = step.status === "done" || step.status === "held" || step.status === "stale" ? step.status : "open";
    const top = kind === "held" ? 8 : kind === "open" ? (first ? 16 : 22) : first ? 8 : 12;
    return { id: step.id, x: Math.round((10 + i * gap) * 10) / 10, top, kind, here: step.id === here };
  });
}
