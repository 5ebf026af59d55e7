// What the step screen shows now. The kernel says what is so; this only chooses one thing to show.
import type { Glimpse } from "../../bench";
import type { Draft, Entry, FitView, Offer, Overview, StepView } from "../../kernel/types";
import { isOut } from "../../parts/out";

export type Stage = "waiting" | "hold" | "choice" | "confirm" | "torque" | "reading" | "done";

export const isReading = (entry: Entry | undefined): boolean => entry?.kind === "reading" || entry?.kind === "measure";

const stageOf = (entry: Entry): Stage => (isReading(entry) ? "reading" : entry.kind === "choice" ? "choice" : "confirm");

/** One thing at a time: a hold first, then choices, ticks, then pulls, then readings. A picked entry wins over the order. */
export function stage(view: StepView, picked: number | null, behind = false): Stage {
  if (picked !== null && view.entries[picked]) return stageOf(view.entries[picked]!);
  if (view.status === "waiting" || behind) return "waiting";
  if (stopped(view)) return "hold";
  const now = view.at === null ? undefined : view.entries[view.at];
  if (now && !isReading(now)) return stageOf(now);
  if (view.torque?.next) return "torque";
  return now ? "reading" : "done";
}

/** A stale step whose groundwork went stale too: the way leads to the earlier step first. */
export function goBackFirst(view: StepView, overview: Overview): boolean {
  const at = (id: string | null): number => overview.steps.findIndex((s) => s.id === id);
  return view.status === "stale" && overview.next !== null && at(overview.next) < at(view.id);
}

/** A hold stops the step when it comes from elsewhere, or when this step has nothing left to read that could open it. */
const stopped = (view: StepView): boolean =>
  view.holds.some((hold) => hold.step !== view.id) || (view.holds.length > 0 && view.at === null && !view.torque?.next);

export const entryNow = (view: StepView, picked: number | null): Entry | null => view.entries[picked ?? view.at ?? -1] ?? null;

/** Something of this step is made. Before that its cautions lead; after it they follow what is being done. */
export const begun = (view: StepView): boolean =>
  view.entries.some((e) => e.state !== "open") || (view.torque !== null && (view.torque.pass > 1 || view.torque.fasteners.some((f) => f.state === "pulled" || f.state === "stale")));

/** The event of a reading: the kernel's draft, with what was typed. */
export const reading = (entry: Entry, text: string, unit = ""): Draft =>
  ({ type: entry.draft.type, body: { ...entry.draft.body, text, unit: unit || (entry.keypad?.unit ?? "") } });

/** The event of a choice: the kernel's draft, with the option. */
export const chosen = (entry: Entry, option: string): Draft => ({ type: entry.draft.type, body: { ...entry.draft.body, option } });

/** What is not done yet in this step, by count; things that only help are left out. */
export const undone = (view: StepView): number =>
  view.entries.filter((e) => !e.optional && e.state !== "made").length + (view.torque?.next ? 1 : 0);

/** The fit that this reading has just judged: at its station first, else one over all stations that changed. */
export function judged(before: StepView, after: StepView, station: string): FitView | null {
  const was = new Map(before.fits.map((f) => [`${f.fit}@${f.station}`, `${f.state}|${f.value}`]));
  const spoken = after.fits.filter((f) => f.state === "in" || isOut(f));
  const here = spoken.filter((f) => f.station === station);
  const changed = here.find((f) => was.get(`${f.fit}@${f.station}`) !== `${f.state}|${f.value}`);
  if (changed) return changed;
  if (here.length) return before.entries.some((e) => e.station === station && !e.optional && e.state === "open") ? null : here[0]!;
  return null;
}

/** The step as it will stand once this entry is read: it is made, and only the fits it touches change. */
export function foreseen(view: StepView, fits: readonly FitView[], index: number): StepView {
  const fresh = new Map(fits.map((f) => [`${f.fit}@${f.station}`, f]));
  const entries = view.entries.map((e, i): Entry => (i === index ? { ...e, state: "made" } : e));
  const at = entries.findIndex((e) => !e.optional && e.state !== "made");
  return { ...view, entries, at: at < 0 ? null : at, fits: view.fits.map((f) => fresh.get(`${f.fit}@${f.station}`) ?? f) };
}

/** What was left on the screen, when it is this very step. */
export const glimpseOf = (seen: Glimpse | null, build: string, step: string): Glimpse | null =>
  (seen && seen.build === build && seen.step.id === step ? seen : null);

/** The entry at a station that a tap on the plan means: the first that is not made, else the first that can be read. */
export function pick(view: StepView, station: string): number | null {
  const at = (want: (e: Entry) => boolean): number => view.entries.findIndex((e) => e.station === station && isReading(e) && want(e));
  const open = at((e) => e.state !== "made" && !e.optional);
  const index = open >= 0 ? open : at((e) => !e.optional);
  return index >= 0 ? index : at(() => true) >= 0 ? at(() => true) : null;
}

/** The next entry in the list that helps but is not needed. */
export const nextOptional = (view: StepView): number | null => {
  const index = view.entries.findIndex((e) => e.optional && e.state !== "made" && isReading(e));
  return index >= 0 ? index : null;
};

/** Confirms in the order of the list; the last one is the one people forget, so it is shown largest. */
export const confirms = (view: StepView): { entry: Entry; index: number }[] =>
  view.entries.map((entry, index) => ({ entry, index })).filter(({ entry }) => entry.kind === "confirm");

/** The stations of one fit together, in the order of the kernel. */
export function fitsByKind(fits: readonly FitView[]): FitView[][] {
  const out = new Map<string, FitView[]>();
  for (const fit of fits) out.set(fit.fit, [...(out.get(fit.fit) ?? []), fit]);
  return [...out.values()];
}

/** `main 3` of `Main clearance, main 3`; nothing where the fit has no station. */
export const placeOf = (fit: FitView): string => (fit.kind && fit.title.startsWith(`${fit.kind}, `) ? fit.title.slice(fit.kind.length + 2) : "");

/** Fits worth a look when the step is read through: out ones first, in the order of the kernel otherwise. */
export const troubled = (view: StepView): FitView[] => view.fits.filter(isOut);

export const helpful = (offers: readonly Offer[]): Offer[] => [...offers.filter((o) => o.draft), ...offers.filter((o) => !o.draft)];

/** Text for the head of an entry: "Bearing bore, main 3" comes ready from the kernel in `title`. */
export const vibration = (fit: FitView): number[] => (fit.state === "in" ? [40] : fit.state === "under" ? [40, 60, 40] : [40, 60, 40, 60, 40]);
