// The geometry of a verdict: a slug against two limit posts, to scale, on a strip 332 wide.
// Only the raw integers of the kernel are drawn; nothing is judged here.
import type { FitView } from "../kernel/types";

export interface SlotShape {
  low: number | null; high: number | null; aim: number | null;   // x of the posts and of the aim
  start: number; end: number;                                    // x where the slug starts and ends
  slug: string;                                                  // outline, "" when nothing was read
  hatch: "none" | "across" | "slant" | "empty";
  mark: boolean;                                                 // too close to call
  cut: boolean;                                                  // so far out that the strip is not to scale
}

const LEFT = 60, RIGHT = 272, TOP = 40, FOOT = 98, MIN = 12, MAX = 320;

type Raw = FitView["raw"];

/** Where a raw figure stands on the strip; a lone post stands where the pair would have it. */
export function scale(raw: Raw): (value: number) => number {
  const low = raw.low ?? (raw.high === null ? 0 : Math.min(0, raw.high));
  const high = raw.high ?? Math.max(raw.aim ?? 0, raw.value ?? 0, low + 1) * 1.25;
  const span = high - low || 1;
  return (value) => LEFT + ((value - low) * (RIGHT - LEFT)) / span;
}

export function shape(fit: FitView): SlotShape {
  const { raw } = fit;
  const at = scale(raw);
  const low = raw.low === null ? null : LEFT;
  const high = raw.high === null ? null : RIGHT;
  const true_end = raw.value === null ? RIGHT : at(raw.value);
  const end = Math.max(MIN + 24, Math.min(MAX - 6, true_end));
  const start = fit.state === "under" ? MIN : LEFT + 4;
  return { low, high, aim: raw.aim === null ? null : at(raw.aim), start, end, cut: true_end > MAX - 6 || true_end < MIN + 24,
    slug: outline(fit, start, end), hatch: hatching(fit), mark: fit.close };
}

function hatching(fit: FitView): SlotShape["hatch"] {
  if (fit.state === "under") return "across";
  if (fit.state === "over") return "slant";
  return fit.state === "in" ? "none" : "empty";
}

/** Under: a bite out of the lower left. Over: a tooth at the upper right. In: a plain block. */
function outline(fit: FitView, start: number, end: number): string {
  const e = Math.max(end, start + 8);
  if (fit.state === "under") return `M${start} ${TOP}H${e}V${FOOT}H${start + (e - start) / 2}L${start} ${FOOT - 26}Z`;
  if (fit.state === "over") return `M${start} ${TOP}H${e - 18}L${e} ${TOP - 16}V${FOOT}H${start}Z`;
  return fit.state === "in" ? `M${start} ${TOP}H${e}V${FOOT}H${start}Z` : `M${LEFT + 8} ${TOP}H${RIGHT - 8}V${FOOT}H${LEFT + 8}Z`;
}

/** The strip's own marks, a tenth of the way between the posts apart and every fifth longer; always the same, so one stroke. */
export const TICKS = Array.from({ length: 15 }, (_, i) => `M${Math.round(LEFT + ((i - 2) * (RIGHT - LEFT)) / 10)} 110v${i % 5 === 2 ? 14 : 7}`).join("");
