// What today looks like: my builds, the last touched first, each with what is next.
import type { BuildCard } from "../../bench";
import type { Overview } from "../../kernel/types";

export const byRecent = (builds: readonly BuildCard[]): BuildCard[] =>
  [...builds].sort((a, b) => (b.last_at ?? 0) - (a.last_at ?? 0) || a.name.localeCompare(b.name));

export interface NextLine { step: string; title: string; why: string; held: boolean; again: number; contrary: number; done: number; total: number; begun: boolean }

/** The line under a build's name; null when every step is done. */
export function nextLine(overview: Overview): NextLine | null {
  const step = overview.steps.find((s) => s.id === overview.next);
  if (!step) return null;
  return { step: step.id, title: step.title, why: step.status === "held" || step.status === "stale" ? (step.why[0] ?? "") : "", held: step.status === "held",
    again: overview.again.length, contrary: overview.contrary.length,
    done: overview.steps.filter((s) => s.status === "done").length, total: overview.steps.length,
    begun: overview.steps.some((s) => s.status === "done" || s.status === "in_work" || s.status === "stale") };
}

/** Who may open a build: the shop's server takes one from nobody else. */
export const opens = (role: string | undefined): boolean => role === "owner" || role === "builder";
