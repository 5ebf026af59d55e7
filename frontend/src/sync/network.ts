// The only file of the sync that touches the network. A reply counts as an answer when it is JSON of the
// right shape; a page from a guest network's log-in screen does not, whatever its status says.
import type { SyncAnswer } from "../log/apply";
import type { Receipt, Sendable } from "../log/database";

export const PATIENCE_MS = 15_000;
export const MOST_BYTES = 250_000;      // under the server's 256 KB, the envelope included

export interface SyncRequest {
  dev: string; epoch: string | null; events: object[]; entries?: unknown[][]; follow: Record<string, number>;
  heads: Record<string, string | undefined>; receipt: Receipt | null;
  brief?: true;              // what is stored now need not be told back: its position and mark do
}

export type Reply =
  | { kind: "answer"; answer: SyncAnswer }
  | { kind: "too_big" } | { kind: "login" } | { kind: "failed"; why: string };

export const NO_SERVER = "The server did not answer.";
const NOT_OURS = "Something else answered. If this network has a log-in page, open it first.";
const SLOW = "The server took too long.";

/** The part of an event that the phone says; the server stamps the rest. Of another phone's, brought back after the server lost it, also who wrote it and the server's own mark on that. */
function spoken(event: Sendable, own: string) {
  const { dev, n, build, type, v, at, seen, body } = event;
  const said = { dev, n, build, type, v, at, seen, body };
  return dev === own ? said : { ...said, who: event.who, role: event.role, carried: event.carried ?? "", mark: event.mark };
}

export function bytesOf(event: Sendable): number {
  return new TextEncoder().encode(JSON.stringify(spoken(event, event.dev))).length;
}

/** As many of the events, in order, as fit one request; one at least. */
export function fitting<E extends Sendable>(events: E[], most = MOST_BYTES): E[] {
  let bytes = 0;
  const last = events.findIndex((event) => (bytes += bytesOf(event) + 1) > most);
  return last < 0 ? events : events.slice(0, Math.max(1, last));
}

function isAnswer(value: unknown): value is SyncAnswer {
  const answer = value as Partial<SyncAnswer> | null;
  return typeof answer === "object" && answer !== null && typeof answer.epoch === "string"
    && Array.isArray(answer.verdicts) && typeof answer.builds === "object" && answer.builds !== null;
}

async function read(response: Response): Promise<Reply> {
  if (response.status === 413) return { kind: "too_big" };
  // A guest network's own 401 or 403 says nothing about this person's log-in.
  const json = (response.headers.get("content-type") ?? "").includes("json");
  if ((response.status === 401 || response.status === 403) && json) return { kind: "login" };
  if (response.status >= 500) return { kind: "failed", why: `The server has a fault (${response.status}). It will be tried again.` };
  if (response.status === 429) return { kind: "failed", why: "The server is busy. It will be tried again." };
  if (!json) return { kind: "failed", why: NOT_OURS };
  const value: unknown = await response.json().catch(() => null);
  if (response.ok && isAnswer(value)) return { kind: "answer", answer: value };
  return { kind: "failed", why: response.ok ? NOT_OURS : `The server refused (${response.status}). What was entered stays on the phone.` };
}

/** Gives up by itself, also on an answer that stops in the middle; never throws. */
export async function ask(path: string, init: RequestInit, patience = PATIENCE_MS): Promise<Response | string> {
  const control = new AbortController();
  const timer = setTimeout(() => control.abort(), patience);
  try {
    return await fetch(path, { ...init, cache: "no-store", redirect: "manual", signal: control.signal });
  } catch {
    clearTimeout(timer);
    return control.signal.aborted ? SLOW : NO_SERVER;
  }
}

export type Post = (token: string, events: Sendable[], rest: Omit<SyncRequest, "events">, waiting: number) => Promise<Reply>;

export const post: Post = async (token, events, rest, waiting) => {
  // A server that gives receipts reads this phone's own entries as short rows; one that does not overlooks them, gives no
  // verdict and no receipt, and is spoken to at length the next time.
  const short = rest.receipt !== null && events.every((event) => event.dev === rest.dev);
  const body: SyncRequest = short
    ? { ...rest, events: [], entries: events.map(({ n, build, type, v, at, seen, body }) => [n, build, type, v, at, seen, body]) }
    : { ...rest, events: events.map((event) => spoken(event, rest.dev)) };
  const response = await ask("/api/sync", {
    method: "POST", body: JSON.stringify(body),
    headers: { "Content-Type": "application/json", Authorization: `Device ${token}`, "Halfthou-Waiting": String(waiting) },
  });
  return typeof response === "string" ? { kind: "failed", why: response } : read(response);
};
