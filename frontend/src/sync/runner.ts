// Carries out what the core decides: one request at a time, for one person at a time, with that person's
// own token. The answer is in the log before the core hears of it.
import type { PersonRow, Sendable } from "../log/database";
import { applySync, setAside } from "../log/apply";
import type { BenchLog } from "../log/log";
import { firstState, step, type Effect, type Happening, type Outcome, type SyncState } from "./core";
import { bytesOf, fitting, type Post } from "./network";

export interface Around {
  log: BenchLog;
  post: Post;
  people(): Promise<PersonRow[]>;            // whoever is at the bench first
  now(): number;
  luck(): number;
  wakeAt(at: number, wake: () => void): void;
  told(state: SyncState): void;              // the state changed
  changed(builds: string[]): Promise<void>;  // events or findings of these builds changed
}

const TOO_BIG = "The server will not take an entry this big.";
const LARGEST_EVENT = 64 * 1024;     // the server's own bound for one entry
const UNSTEADY = "The server keeps losing its place. It will be tried again; let whoever runs it know.";
const TOO_MUCH = "The server calls the request too big, though nothing was sent.";

/** Where the browser has locks, one tab talks to the server; the others leave it to that one. */
async function oneTab(work: () => Promise<Outcome>): Promise<Outcome> {
  const locks = globalThis.navigator?.locks;
  if (!locks) return work();
  return locks.request("halfthou-sync", { ifAvailable: true }, (lock) => (lock ? work() : { kind: "elsewhere" } as Outcome)) as Promise<Outcome>;
}

export class SyncRunner {
  state: SyncState = firstState();
  private rounds: Promise<void> = Promise.resolve();
  private sent?: Sendable;                   // the first event in the last request, the lone one when it is to be set aside

  private renewed: number | null = null;     // when the server last began a new generation

  constructor(private readonly around: Around) {}

  nudge(why: Extract<Happening, { what: "nudge" }>["why"]): Promise<void> {
    return this.happened({ what: "nudge", why, now: this.around.now() });
  }

  loggedIn(who: string): Promise<void> { return this.happened({ what: "login", who, now: this.around.now() }); }

  /** Resolves when the talking that this started, or joined, has come to rest. */
  private happened(happening: Happening): Promise<void> {
    const [state, effects] = step(this.state, happening);
    this.state = state;
    this.around.told(state);
    if (effects.length > 0) this.rounds = this.carryOut(effects);
    return this.rounds;
  }

  private async carryOut(effects: Effect[]): Promise<void> {
    for (const effect of effects) {
      if (effect.do === "wake") this.around.wakeAt(effect.at, () => void this.nudge("clock"));
      if (effect.do === "set_aside" && this.sent) {
        const problem = await setAside(this.around.log.database, this.sent, TOO_BIG).then(() => null, failed);
        if (problem !== null) return this.over(problem);        // the phone is full: the sending that was to follow waits
      }
      if (effect.do === "send") await this.over(await oneTab(() => this.round(effect.limit, effect.skip)).catch(failed));
    }
  }

  private over(outcome: Outcome): Promise<void> {
    const [state, next] = step(this.state, { what: "over", outcome, now: this.around.now(), luck: this.around.luck() });
    this.state = state;
    this.around.told(state);
    return this.carryOut(next);
  }

  /** People with something to send go first; the person at the bench asks for news even with nothing to send. */
  private async whose(skip: string[]): Promise<{ person: PersonRow; others: boolean; waiting: number } | null> {
    const able = (await this.around.people()).filter((person) => person.token !== null && !skip.includes(person.id));
    const { people, count } = await this.around.log.waiting();  // in the order of what they recorded first
    // Whoever recorded first goes first: a build is opened before others record in it.
    const sending = people.flatMap((who) => able.filter((person) => person.id === who));
    const person = sending[0] ?? able[0];
    return person ? { person, others: sending.length > 1, waiting: count } : null;
  }

  /** A server whose record is broken may change its generation again and again; asking at once each time would wear out both. */
  private renewedLately(): boolean {
    const before = this.renewed;
    this.renewed = this.around.now();
    return before !== null && Math.abs(this.renewed - before) < SOON_MS;
  }

  private async round(limit: number, skip: string[]): Promise<Outcome> {
    const { log } = this.around;
    const turn = await this.whose(skip);
    if (turn === null) return { kind: "nothing" };
    const pending = await log.pending(turn.person.id, limit + 1);
    const events = fitting(pending.slice(0, limit));
    const [dev, epoch, builds, receipt] = await Promise.all([log.dev(), log.epoch(), log.builds(), log.receipt()]);
    const follow = Object.fromEntries(builds.map((build) => [build.id, build.head]));
    const heads = Object.fromEntries(builds.map((build) => [build.id, build.head_hash]));   // JSON leaves out those without
    const reply = await this.around.post(turn.person.token!, events, { dev, epoch, follow, heads, receipt, brief: true }, turn.waiting);
    this.sent = events[0];
    if (reply.kind === "too_big") {
      const hopeless = events.length === 1 && bytesOf(events[0]) > LARGEST_EVENT;
      return events.length > 0 ? { kind: "too_big", sent: events.length, hopeless } : { kind: "failed", why: TOO_MUCH };
    }
    if (reply.kind === "login") return { kind: "login", who: turn.person.id };
    if (reply.kind === "failed") return reply;
    const applied = await applySync(log.database, reply.answer, events);
    await this.around.changed(applied.changed);
    if (applied.renewed && this.renewedLately()) return { kind: "failed", why: UNSTEADY };
    // Without progress there is no sense in going on at once, whatever is still waiting.
    const older = receipt !== null && reply.answer.device === undefined;      // a server that overlooked our short rows
    const progress = applied.changed.length > 0 || applied.renewed || older;
    return { kind: "taken", more: progress && (applied.more || older || pending.length > events.length || turn.others) };
  }
}

const SOON_MS = 60_000;

function failed(error: unknown): Outcome {
  return { kind: "failed", why: error instanceof Error ? error.message : String(error) };
}
