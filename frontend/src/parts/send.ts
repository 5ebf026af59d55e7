// What the corner of every screen says about sending.
import type { SyncStatus } from "../bench";
import type { Words } from "../words";

/** `count` and `reason` are what the step has room for: one line each, and the reason is the first sentence of the most pressing. */
export interface SendWords { line: string; trouble: string; tone: "calm" | "warn"; count: string; reason: string }

export function sendWords(status: SyncStatus, online: boolean, safe: boolean, words: Words, now: number): SendWords {
  const w = words.send;
  const cut = !online || status.failing !== null;
  const amount = status.waiting ? w.toSend(status.waiting) : status.last_synced ? w.allSent(words.clock(status.last_synced)) : w.never;
  const last = status.waiting && status.last_synced ? w.last(words.clock(status.last_synced)) : "";
  const parts = [safe ? "" : w.unsafe, cut ? w.offline : "", amount, last];
  const old = status.waiting && status.oldest_at !== null && now - status.oldest_at > 60_000 ? w.oldest(words.day(status.oldest_at)) : "";
  const login = status.need_login ? w.needLogin : "";
  const trouble = [status.failing ?? "", login, cut ? old : "", safe ? "" : w.unsafeWhy].filter(Boolean).join(" ");
  const reason = status.failing?.split(". ")[0] || login || (safe ? "" : w.unsafe) || (cut ? w.offline : "");
  return { count: [amount, last].filter(Boolean).join(" · "), reason, line: parts.filter(Boolean).join(" · "), trouble, tone: trouble || status.need_login ? "warn" : "calm" };
}
