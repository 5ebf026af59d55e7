// The build's page: steps by phase, the phases with work in them open.
import type { Overview } from "../../kernel/types";

export interface PhaseGroup { id: string; title: string; done: number; total: number; status: Overview["phases"][number]["status"]; steps: Overview["steps"] }

export const groups = (overview: Overview): PhaseGroup[] =>
  overview.phases.map((phase) => ({ ...phase, steps: overview.steps.filter((s) => s.phase === phase.id) }));

/** A sign for each status, so that it is never told by colour alone. */
export const SIGN: Record<Overview["steps"][number]["status"], string> = { waiting: "·", ready: "○", in_work: "◐", held: "■", done: "✓", stale: "↻" };

/** Said for steps that stop something, and for a done one that has read a misfit; a ready step needs no words. */
export const speaks = (status: Overview["steps"][number]["status"]): boolean => status !== "ready" && status !== "in_work";
