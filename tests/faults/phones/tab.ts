// One tab of a phone: the real log and the real sync, with store, network and clock of the harness around them.
import { AsyncLocalStorage } from "node:async_hooks";
import { BenchLog } from "../../../frontend/src/log/log";
import type { Database, PersonRow } from "../../../frontend/src/log/database";
import { post } from "../../../frontend/src/sync/network";
import { SyncRunner } from "../../../frontend/src/sync/runner";
import { Disk, View, type Wait } from "./disk";
// @ts-expect-error a bundle without types
import * as old from "./old_client.mjs";
import { cancel, now, schedule } from "./time";

const CODE = { now: { BenchLog, SyncRunner, post }, old: old as { BenchLog: typeof BenchLog; SyncRunner: typeof SyncRunner; post: typeof post } };
const NEVER = new Promise<never>(() => {});

/** The tab whose code is running: lets one process hold several phones that each have a network and locks of their own. */
export const here = new AsyncLocalStorage<Tab>();

export interface Plan { kill?: number; at?: number; times?: number; name?: string }

export class Phone {
  disk: Disk;
  skew = 0;
  luck = 0.5;
  people: PersonRow[] = [];
  tabs = new Map<number, Tab>();
  locked = new Map<string, Tab>();
  queues = new Map<string, (() => void)[]>();
  kept: ReturnType<Disk["snapshot"]> | null = null;

  constructor(readonly id: number, dev: string, readonly locks: boolean, public code: keyof typeof CODE) { this.disk = new Disk(dev); }

  free(name: string): void {
    this.locked.delete(name);
    this.queues.get(name)?.shift()?.();
  }
}

export class Tab {
  readonly log: BenchLog;
  readonly runner: SyncRunner;
  dead = false;
  plan: Plan = {};
  waits = 0;
  private readonly held = new Set<() => void>();
  private alarm = 0;

  constructor(readonly phone: Phone, readonly id: number) {
    const code = CODE[phone.code];
    const clock = (): number => now() + phone.skew;
    const database = new View(phone.disk, (what) => this.wait(what), this.held) as unknown as Database;
    this.log = new code.BenchLog(database, clock);
    this.runner = new code.SyncRunner({
      log: this.log, post: code.post, people: async () => phone.people, now: clock, luck: () => phone.luck,
      wakeAt: (at, wake) => { cancel(this.alarm); this.alarm = schedule(this, Math.max(0, at - clock()), wake); },
      told: () => {}, changed: async () => {},
    });
  }

  /** Every await of the code under test passes here. */
  async wait(what: Wait): Promise<void> {
    if (this.dead) return NEVER;
    this.waits++;
    const { kill, at, times = 1, name = "QuotaExceededError" } = this.plan;
    if (kill !== undefined && this.waits >= kill) { this.die(); return NEVER; }
    const storing = what === "write" || what === "commit" || (what === "read" && name !== "QuotaExceededError");
    if (at !== undefined && storing && this.waits >= at && this.waits < at + times) throw new DOMException("the phone refused", name);
  }

  plans(plan: Plan): void { this.plan = plan; this.waits = 0; }

  die(): void {
    this.dead = true;
    this.phone.tabs.delete(this.id);
    for (const release of [...this.held]) release();
    for (const [name, holder] of [...this.phone.locked]) if (holder === this) this.phone.free(name);
  }
}

type Held = { name: string } | null;

/** Web Locks of the phone whose code is asking; a dead tab lets go of its own. */
export const locks = {
  async request(name: string, ...rest: unknown[]): Promise<unknown> {
    const work = rest.at(-1) as (lock: Held) => Promise<unknown>;
    const options = (rest.length > 1 ? rest[0] : {}) as { ifAvailable?: boolean };
    const tab = here.getStore()!;
    const { phone } = tab;
    if (phone.locked.has(name)) {
      if (options.ifAvailable) return work(null);
      await new Promise<void>((next) => phone.queues.set(name, [...(phone.queues.get(name) ?? []), next]));
    }
    if (tab.dead) { phone.free(name); return NEVER; }
    phone.locked.set(name, tab);
    try { return await work({ name }); } finally { phone.free(name); }
  },
};
