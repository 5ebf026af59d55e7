// What the corner of every screen says about sending.
import type { SyncStatus } from "../bench";
import { words } from "../words";
import { heard } from "../words/heard";
import { fill, joined } from "../words/say";
import { clock, day } from "../words/time";

/** `count` and `reason` are what the step has room for: one line each, and the reason is the first sentence of the most pressing. */
export interface SendWords { line: string; trouble: string; tone: "calm" | "warn"; count: string; reason: string }

export function sendWords(status: SyncStatus, online: boolean, safe: boolean, now: number): SendWords {
  const w = words.send, sent = status.last_synced ? clock(status.last_synced) : "";
  const failing = heard(status.failing ?? "");
  const cut = !online || status.failing !== null;
  const amount = status.waiting ? fill(w.toSend, { n: status.waiting }) : sent ? fill(w.allSent, { at: sent }) : w.never;
  const last = status.waiting && sent ? fill(w.last, { at: sent }) : "";
  const parts = [safe ? "" : w.unsafe, cut ? w.offline : "", amount, last];
  const old = status.waiting && status.oldest_at !== null && now - status.oldest_at > 60_000 ? fill(w.oldest, { at: day(status.oldest_at) }) : "";
  const login = status.need_login ? w.needLogin : "";
  const trouble = joined([failing, login, cut ? old : "", safe ? "" : w.unsafeWhy], " ");
  const reason = failing.split(". ")[0] || login || (safe ? "" : w.unsafe) || (cut ? w.offline : "");
  return { count: joined([amount, last]), reason, line: joined(parts), trouble, tone: trouble || status.need_login ? "warn" : "calm" };
}
