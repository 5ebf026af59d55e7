// Builds that are open in the kernel. The log is the truth; this keeps the kernel level with it, whoever
// wrote: this screen, the sync, or another tab.
import type { KernelDoor } from "../kernel/door";
import type { BenchEvent } from "../kernel/types";
import type { BenchLog } from "../log/log";
import { words } from "../words";

type Opening = Parameters<KernelDoor["open"]>[0];

const idOf = (event: BenchEvent): string => `${event.dev}:${event.n}`;

export class OpenBuilds {
  /** What the kernel holds of each open build: event id -> server position, 0 while pending. */
  private readonly held = new Map<string, Map<string, number>>();
  private readonly turns = new Map<string, Promise<unknown>>();

  constructor(
    private readonly kernel: KernelDoor,
    private readonly log: BenchLog,
    private readonly procedure: (id: string, revision: number) => Promise<unknown>,
    private readonly people: () => Record<string, string>,
  ) {
    kernel.onRestart(() => Promise.all([...this.held.keys()].map((build) => this.opening(build))));
  }

  /** One at a time per build, so that two writers cannot each believe the other's event is new. */
  private inTurn<T>(build: string, work: () => Promise<T>): Promise<T> {
    const turn = (this.turns.get(build) ?? Promise.resolve()).catch(() => {}).then(work);
    this.turns.set(build, turn);
    return turn;
  }

  /** Whether the kernel has it, so that nothing has to be looked up. */
  has(build: string): boolean { return this.held.has(build); }

  /** When what was made here before is with the kernel. */
  settled(build: string): Promise<unknown> { return (this.turns.get(build) ?? Promise.resolve()).catch(() => {}); }

  open(build: string): Promise<void> {
    return this.inTurn(build, async () => { if (!this.held.has(build)) await this.fill(build); });
  }

  private async fill(build: string): Promise<void> {
    const opening = await this.opening(build);
    await this.kernel.open(opening);
    this.note(build, opening.events);
  }

  private async opening(build: string): Promise<Opening> {
    const [row, events] = await Promise.all([this.log.build(build), this.log.eventsOf(build)]);
    if (row === undefined) throw new Error(words.common.lost);
    return { build, procedure: await this.procedure(row.procedure, row.revision), events, people: this.people() };
  }

  private note(build: string, events: BenchEvent[]): void {
    this.held.set(build, new Map(events.map((event) => [idOf(event), event.seq ?? 0])));
  }

  /** An event just made here. */
  add(event: BenchEvent): Promise<void> {
    return this.inTurn(event.build, async () => {
      const held = this.held.get(event.build);
      if (held === undefined || held.has(idOf(event))) return;
      await this.kernel.add({ build: event.build, events: [event] });
      held.set(idOf(event), event.seq ?? 0);
    });
  }

  /** Levels the kernel with the log. A build that lost an event, or had positions given anew, is opened afresh. */
  level(build: string): Promise<void> {
    return this.inTurn(build, async () => {
      const held = this.held.get(build);
      if (held === undefined) return;
      const events = await this.log.eventsOf(build);
      const fresh = events.filter((event) => !held.has(idOf(event)));
      const moved = events.filter((event) => held.has(idOf(event)) && held.get(idOf(event)) !== (event.seq ?? 0));
      const anew = moved.some((event) => held.get(idOf(event)) !== 0);
      if (anew || events.length - fresh.length < held.size) return this.fill(build);
      if (moved.length > 0) await this.kernel.acked({ build, seqs: moved.map((event) => [idOf(event), event.seq!]) });
      if (fresh.length > 0) await this.kernel.add({ build, events: fresh });
      this.note(build, events);
    });
  }
}
