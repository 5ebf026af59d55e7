// The log of what happened at this bench, and what of it still has to be sent. Events are added, never
// changed: an acknowledgement adds the server's position and takes the event out of the queue, no more.
import type { BenchEvent, Draft } from "../kernel/types";
import { ANYBODY, type BuildRow, type Change, type Database, type Receipt, type Row, type Sendable } from "./database";

export interface Waiting { count: number; oldest_at: number | null; people: string[]; builds: Record<string, number> }

/** The event alone, without what the phone notes beside it. */
export function bare(row: Row): BenchEvent {
  const { waiting: _waiting, refused: _refused, mark: _mark, ...event } = row;
  return event;
}

/** Order of the fold: the server's positions first, then what is pending, by the device's own count. */
export function inFoldOrder(one: BenchEvent, other: BenchEvent): number {
  const last = Number.MAX_SAFE_INTEGER;
  return (one.seq ?? last) - (other.seq ?? last) || one.n - other.n || (one.dev < other.dev ? -1 : 1);
}

export function newBuild(id: string, body: Record<string, unknown>): BuildRow {
  return {
    id, name: String(body.name ?? id), procedure: String(body.procedure ?? ""), revision: Number(body.revision ?? 0),
    head: 0, findings: [], reviewed: 0, last_at: null,
  };
}

export class BenchLog {
  constructor(readonly database: Database, private readonly clock: () => number = Date.now) {}

  dev(): Promise<string> { return this.database.read(async (db) => (await db.get("device", "this"))!.dev); }
  epoch(): Promise<string | null> { return this.database.read(async (db) => (await db.get("device", "this"))!.epoch); }

  /**
   * Durable when it resolves. The count is given in the same transaction, so it has no gaps and no twins: the
   * browser lets one writer at a time at these stores, whichever tab it is in.
   */
  append(build: string, draft: Draft, who: string, role: string): Promise<BenchEvent> {
    const at = this.clock();
    return this.database.write(["device", "events", "builds"], (change) => this.add(change, build, draft, { who, role, at }));
  }

  /** One trip to read and one to write: what is written is not waited for one by one, the transaction says when all is there. */
  private async add(change: Change, id: string, draft: Draft, by: { who: string; role: string; at: number }): Promise<BenchEvent> {
    const [held, known] = await Promise.all([change.objectStore("device").get("this"), change.objectStore("builds").get(id)]);
    const device = held!;
    const build = known ?? (draft.type === "build.opened" ? newBuild(id, draft.body) : null);
    if (build === null) throw new Error("This build is not on this phone. Open it from the list first.");
    const event: BenchEvent = {
      dev: device.dev, n: device.next, build: id, type: draft.type, v: 1, at: by.at,
      seen: build.head, who: by.who, role: by.role, body: draft.body,
    };
    // Not waited for one by one: a failure ends the transaction, and that is waited for.
    const quiet = (one: Promise<unknown>): void => void one.catch(() => {});
    quiet(change.objectStore("events").add({ ...event, waiting: by.who }));
    quiet(change.objectStore("device").put({ ...device, next: device.next + 1 }, "this"));
    quiet(change.objectStore("builds").put({ ...build, last_at: by.at }));
    change.commit?.();
    return event;
  }

  /** In fold order. What the server set aside stays in the log but not in the fold: every device must agree. */
  async eventsOf(build: string): Promise<BenchEvent[]> {
    const rows = await this.database.read((db) => db.getAllFromIndex("events", "build", build));
    return rows.filter((row) => row.refused === undefined).map(bare).sort(inFoldOrder);
  }

  /** What this person is to send; when there is none, what the server lost of other phones. */
  async pending(who: string, limit?: number): Promise<Sendable[]> {
    const own = await this.queue(who, limit);
    return own.length > 0 ? own : this.queue(ANYBODY, limit);
  }

  private async queue(who: string, limit?: number): Promise<Sendable[]> {
    const range = IDBKeyRange.bound([who, 0], [who, Number.MAX_SAFE_INTEGER]);
    const rows = await this.database.read((db) => db.getAllFromIndex("events", "waiting", range, limit));
    return rows.map(({ waiting: _waiting, refused: _refused, ...event }) => event);
  }

  async receipt(): Promise<Receipt | null> { return this.database.read(async (db) => (await db.get("device", "this"))!.receipt ?? null); }

  /** Entries of this phone that were not sent yet; people in the order of the first that each of them recorded. */
  async waiting(): Promise<Waiting> {
    const all = await this.database.read((db) => db.getAllFromIndex("events", "waiting"));
    const rows = all.filter((row) => row.waiting !== ANYBODY).sort((one, other) => one.n - other.n);
    const builds: Record<string, number> = {};
    for (const row of rows) builds[row.build] = (builds[row.build] ?? 0) + 1;
    const oldest = rows.reduce((least, row) => Math.min(least, row.at), Infinity);
    return { count: rows.length, oldest_at: rows.length > 0 ? oldest : null, people: [...new Set(rows.map((row) => row.waiting!))], builds };
  }

  /** What the server set aside. It reads the whole log, so it is asked for after news only, never after a tick. */
  async refused(): Promise<{ event: BenchEvent; why: string }[]> {
    const rows = await this.database.read((db) => db.getAll("events"));
    return rows.filter((row) => row.refused !== undefined).map((row) => ({ event: bare(row), why: row.refused! }));
  }

  build(id: string): Promise<BuildRow | undefined> { return this.database.read((db) => db.get("builds", id)); }

  builds(): Promise<BuildRow[]> { return this.database.read((db) => db.getAll("builds")); }

  /** Everything this phone made and the server has not, as it would be sent, one event a line; how many is said first. */
  async exportLines(): Promise<string> {
    const rows = await this.database.read((db) => db.getAllFromIndex("events", "waiting"));
    const own = rows.filter((row) => row.waiting !== ANYBODY).sort((one, other) => one.n - other.n);
    const first = { file: "halfthou-events", v: 1, events: own.length };
    return [first, ...own.map(bare)].map((line) => `${JSON.stringify(line)}\n`).join("");
  }
}
