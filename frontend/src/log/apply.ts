// Takes in one answer of the server: verdicts on what was sent, news of the builds and the new positions,
// all in one transaction, so that a position is never held without the events before it.
import type { BenchEvent, Finding } from "../kernel/types";
import type { Database, Change } from "./database";
import { newBuild } from "./log";

export interface Verdict { n: number; verdict: "stored" | "duplicate" | "fork" | "quarantined"; seq?: number; why?: string }

export interface BuildNews {
  name: string; procedure: string; revision: number; head: number; events: BenchEvent[]; more: boolean;
  findings: Finding[]; reviewed: number;
}

export interface SyncAnswer {
  epoch: string; time: number; verdicts: Verdict[]; builds: Record<string, BuildNews>;
  people: Record<string, { name: string; role: string }>; shop: { id: string; name: string };
}

export interface Applied { changed: string[]; more: boolean; renewed: boolean }

const WHY: Record<string, string> = { fork: "The server already has another entry under this number." };

async function take(change: Change, verdict: Verdict, dev: string): Promise<string | null> {
  const events = change.objectStore("events");
  const row = await events.get([dev, verdict.n]);
  if (row === undefined) return null;
  delete row.waiting;
  if (typeof verdict.seq === "number" && (verdict.verdict === "stored" || verdict.verdict === "duplicate")) row.seq = verdict.seq;
  else row.refused = verdict.why || WHY[verdict.verdict] || "The server set this entry aside.";
  await events.put(row);
  return row.build;
}

/** Stores the events that follow on without a gap from what we hold; anything beyond a gap is left for the next call. */
async function takeNews(change: Change, id: string, news: BuildNews): Promise<boolean> {
  const builds = change.objectStore("builds");
  const build = (await builds.get(id)) ?? newBuild(id, {});
  let { head, last_at } = build;
  const before = head;
  for (const event of [...news.events].sort((one, other) => one.seq! - other.seq!)) {
    if (event.seq !== head + 1) continue;
    await change.objectStore("events").put(event);
    head = event.seq;
    last_at = Math.max(last_at ?? 0, event.at);
  }
  const { name, procedure, revision, findings, reviewed } = news;
  await builds.put({ ...build, name, procedure, revision, findings, reviewed, head, last_at });
  return head !== before || reviewed !== build.reviewed;
}

/** The server was put back from an older copy: it may have lost what it once acknowledged, so all of ours goes again. */
async function startOver(change: Change, dev: string): Promise<void> {
  const events = change.objectStore("events");
  for (const row of await events.getAll()) {
    delete row.seq;
    if (row.dev === dev && row.refused === undefined) row.waiting = row.who;
    await events.put(row);
  }
  for (const build of await change.objectStore("builds").getAll()) {
    await change.objectStore("builds").put({ ...build, head: 0, reviewed: 0, findings: [] });
  }
}

async function takeAll(change: Change, answer: SyncAnswer): Promise<Applied> {
  const device = (await change.objectStore("device").get("this"))!;
  const renewed = device.epoch !== null && device.epoch !== answer.epoch;
  if (renewed) await startOver(change, device.dev);
  await change.objectStore("device").put({ ...device, epoch: answer.epoch }, "this");
  const changed = new Set<string>();
  for (const verdict of answer.verdicts) {
    const build = await take(change, verdict, device.dev);
    if (build !== null) changed.add(build);
  }
  // Positions in this answer may follow on from the old server's; the next call asks for all of it from 0.
  for (const [id, news] of renewed ? [] : Object.entries(answer.builds)) {
    if (await takeNews(change, id, news)) changed.add(id);
  }
  if (renewed) for (const build of await change.objectStore("builds").getAll()) changed.add(build.id);
  await change.objectStore("kept").put(answer.people, "names");
  await change.objectStore("kept").put(answer.shop.name, "shop");
  const more = renewed || Object.values(answer.builds).some((news) => news.more);
  return { changed: [...changed], more, renewed };
}

export function applySync(database: Database, answer: SyncAnswer): Promise<Applied> {
  return database.write(["device", "events", "builds", "kept"], (change) => takeAll(change, answer));
}

/** An entry the server will never take even on its own: it stays here, marked, and stops holding up the rest. */
export function setAside(database: Database, n: number, why: string): Promise<void> {
  return database.write(["device", "events"], async (change) => {
    const { dev } = (await change.objectStore("device").get("this"))!;
    await take(change, { n, verdict: "quarantined", why }, dev);
  });
}
