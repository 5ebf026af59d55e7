// Takes in one answer of the server: verdicts on what was sent, news of the builds and the new positions,
// all in one transaction, so that a position is never held without the events before it.
import type { BenchEvent, Finding } from "../kernel/types";
import { ANYBODY, type Change, type Database, type Receipt, type Sendable } from "./database";
import { newBuild } from "./log";

export interface Verdict { n: number; verdict: "stored" | "duplicate" | "fork" | "quarantined"; seq?: number; why?: string; mark?: string }

export interface BuildNews {
  name: string; procedure: string; revision: number; head: number; head_hash?: string; events: BenchEvent[]; more: boolean;
  findings: Finding[]; reviewed: number;
}

export interface SyncAnswer {
  epoch: string; time: number; device?: Receipt; verdicts: Verdict[]; builds: Record<string, BuildNews>;
  people: Record<string, { name: string; role: string }>; shop: { id: string; name: string };
  you?: { who: string; role: string };
}

export interface Applied { changed: string[]; more: boolean; renewed: boolean }

const WHY: Record<string, string> = { fork: "The server already has another entry under this number." };

async function take(change: Change, verdict: Verdict, dev: string, you?: SyncAnswer["you"]): Promise<string | null> {
  const events = change.objectStore("events");
  const row = await events.get([dev, verdict.n]);
  if (row === undefined) return null;
  delete row.waiting;
  delete row.refused;
  if (typeof verdict.seq === "number" && (verdict.verdict === "stored" || verdict.verdict === "duplicate")) {
    row.seq = verdict.seq;
    // The event is not told back to us: this is all that the server has added to it.
    if (verdict.mark !== undefined && you !== undefined) Object.assign(row, you, { mark: verdict.mark });
  } else row.refused = verdict.why || WHY[verdict.verdict] || "The server set this entry aside.";
  await events.put(row);
  return row.build;
}

/**
 * Stores the events that follow on without a gap from what we hold, `here` being those that verdicts have just placed; anything
 * beyond a gap is left for the next call.
 */
async function takeNews(change: Change, id: string, news: BuildNews, own: { dev: string; next: number }, here: Set<number>): Promise<boolean> {
  const builds = change.objectStore("builds");
  const build = (await builds.get(id)) ?? newBuild(id, {});
  let { head, last_at } = build;
  const before = head;
  const overOurs = (): void => { while (here.has(head + 1)) head++; };
  overOurs();
  for (const event of [...news.events].sort((one, other) => one.seq! - other.seq!)) {
    if (event.seq !== head + 1) continue;
    await change.objectStore("events").put(event);
    // A phone put back from an older copy of itself must not use a number again that it has used before.
    if (event.dev === own.dev) own.next = Math.max(own.next, event.n + 1);
    head = event.seq;
    last_at = Math.max(last_at ?? 0, event.at);
    overOurs();
  }
  const { name, procedure, revision, findings, reviewed } = news;
  // The chain that came with the answer is that of the server's head: a receipt only once all up to there is here.
  const head_hash = head === news.head ? news.head_hash : head === before ? build.head_hash : undefined;
  await builds.put({ ...build, name, procedure, revision, findings, reviewed, head, head_hash, last_at });
  return head !== before || reviewed !== build.reviewed;
}

/**
 * The server was put back from an older copy: it may have lost what it once acknowledged, so all of ours goes again, and
 * what it had signed of other phones, in case those are gone. The heads it had vouched for are kept.
 */
async function startOver(change: Change, dev: string, epoch: string): Promise<void> {
  const events = change.objectStore("events");
  for (const row of await events.getAll()) {
    delete row.seq;
    delete row.refused;
    if (row.dev === dev) row.waiting = row.who;
    else if (row.mark !== undefined) row.waiting = ANYBODY;
    await events.put(row);
  }
  for (const build of await change.objectStore("builds").getAll()) {
    const { id, head, head_hash } = build;
    if (head_hash) await change.objectStore("receipts").put({ build: id, epoch, head, head_hash });
    await change.objectStore("builds").put({ ...build, head: 0, head_hash: undefined, reviewed: 0, findings: [] });
  }
}

/**
 * An earlier version of this app had no receipt for what was set aside, and did not send it again to a server that was put
 * back. Now that the server counts it, it goes once more; what is there already is set aside once.
 */
async function sendAsideAgain(change: Change, dev: string): Promise<string[]> {
  const events = change.objectStore("events");
  const aside = (await events.getAll()).filter((row) => row.dev === dev && row.refused !== undefined);
  for (const { refused: _refused, ...row } of aside) await events.put({ ...row, waiting: row.who });
  return aside.map((row) => row.build);
}

async function takeAll(change: Change, answer: SyncAnswer, sent: Sendable[]): Promise<Applied> {
  const device = (await change.objectStore("device").get("this"))!;
  const renewed = device.epoch !== null && device.epoch !== answer.epoch;
  if (renewed) await startOver(change, device.dev, device.epoch!);
  const uncounted = answer.device?.aside !== undefined && device.receipt?.aside === undefined && !renewed;
  const again = uncounted ? await sendAsideAgain(change, device.dev) : [];
  const changed = new Set<string>(again);
  const placed = new Map<string, Set<number>>();
  for (const [i, verdict] of answer.verdicts.entries()) {
    // Verdicts come in the order in which the events were sent; any beyond those are of this phone's own.
    const build = await take(change, verdict, sent[i]?.n === verdict.n ? sent[i].dev : device.dev, answer.you);
    if (build === null) continue;
    changed.add(build);
    if (verdict.mark !== undefined) placed.set(build, (placed.get(build) ?? new Set()).add(verdict.seq!));
  }
  // Positions in this answer may follow on from the old server's; the next call asks for all of it from 0.
  for (const [id, news] of renewed ? [] : Object.entries(answer.builds)) {
    if (await takeNews(change, id, news, device, placed.get(id) ?? new Set())) changed.add(id);
  }
  const receipt = answer.device ?? null;
  await change.objectStore("device").put({ ...device, epoch: answer.epoch, receipt }, "this");
  if (renewed) for (const build of await change.objectStore("builds").getAll()) changed.add(build.id);
  await change.objectStore("kept").put(answer.people, "names");
  await change.objectStore("kept").put(answer.shop.name, "shop");
  const more = renewed || again.length > 0 || Object.values(answer.builds).some((news) => news.more);
  return { changed: [...changed], more, renewed };
}

/** `sent`: the events of the request that this answers, in order. */
export function applySync(database: Database, answer: SyncAnswer, sent: Sendable[] = []): Promise<Applied> {
  return database.write(["device", "events", "builds", "kept", "receipts"], (change) => takeAll(change, answer, sent));
}

/** An entry the server will never take even on its own: it stays here, marked, and stops holding up the rest. */
export function setAside(database: Database, event: { dev: string; n: number }, why: string): Promise<void> {
  return database.write(["events"], async (change) => {
    await take(change, { n: event.n, verdict: "quarantined", why }, event.dev);
  });
}
