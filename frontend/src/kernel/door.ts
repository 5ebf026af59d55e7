// The typed door to the kernel. A request is numbered, sent to the worker as a string and answered as
// one; `{error}` becomes an Error with the kernel's own sentence. A worker that dies or hangs is replaced,
// and the builds are opened again from the log before anything else is answered.
import type { Answered } from "./worker";
import type { Door } from "./types";
import { words } from "../words";

type Request<K extends keyof Door> = Parameters<Door[K]>[0];
type Answer<K extends keyof Door> = ReturnType<Door[K]>;
export type KernelDoor = { [K in keyof Door]: (request: Request<K>) => Promise<Answer<K>> } & {
  /** Says where to find the builds that were open, for the day the worker has to be replaced. */
  onRestart(opened: () => Promise<Request<"open">[]>): void;
};

/** The kernel answered, and its answer is a sentence saying why it cannot. */
export class KernelRefusal extends Error {}
/** The worker died before it answered. */
class WorkerLost extends Error {}

export interface WorkerLike {
  postMessage(message: unknown): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<Answered>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

const HANGS_AFTER_MS = 30_000;

class Line {
  private readonly waiting = new Map<number, { resolve: (text: string) => void; reject: (error: Error) => void }>();
  private last = 0;

  constructor(private readonly worker: WorkerLike, private readonly lost: () => void) {
    worker.onmessage = (event) => this.answered(event.data);
    worker.onerror = () => this.drop();
  }

  ask(request: string): Promise<string> {
    const id = ++this.last;
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => this.drop(), HANGS_AFTER_MS);
      const done = <T>(then: (value: T) => void) => (value: T) => { clearTimeout(timer); this.waiting.delete(id); then(value); };
      this.waiting.set(id, { resolve: done(resolve), reject: done(reject) });
      this.worker.postMessage({ id, request });
    });
  }

  private answered({ id, answer, broken }: Answered): void {
    const asked = this.waiting.get(id);
    if (answer !== undefined) asked?.resolve(answer);
    else { console.error(broken); this.drop(); }
  }

  private drop(): void {
    this.worker.terminate();
    this.lost();
    for (const { reject } of [...this.waiting.values()]) reject(new WorkerLost(words.fault.kernel));
  }
}

class Kernel {
  private line: Line | null = null;
  private mending: Promise<void> | null = null;
  /** What was open, from the log; asked for when a worker has to be replaced. */
  opened: () => Promise<Request<"open">[]> = async () => [];

  constructor(private readonly spawn: () => WorkerLike) { this.line = this.newLine(); }

  /** A call that was lost with its worker is made once more on the next. */
  async call(op: string, request: object): Promise<unknown> {
    const text = JSON.stringify({ op, ...request });
    try {
      return read(await (await this.whole()).ask(text));
    } catch (error) {
      if (!(error instanceof WorkerLost)) throw error;
      return read(await (await this.whole()).ask(text));
    }
  }

  /** A line whose worker has every build open. One repair at a time: everyone waits for the same one. */
  private async whole(): Promise<Line> {
    if (this.line === null) this.mending ??= this.openAgain().finally(() => { this.mending = null; });
    await this.mending;
    if (this.line === null) throw new WorkerLost(words.fault.kernel);
    return this.line;
  }

  private async openAgain(): Promise<void> {
    const line = this.line = this.newLine();
    for (const request of await this.opened()) await line.ask(JSON.stringify({ op: "open", ...request }));
  }

  private newLine(): Line {
    const line: Line = new Line(this.spawn(), () => { if (this.line === line) this.line = null; });
    return line;
  }
}

function read(text: string): unknown {
  const answer = JSON.parse(text) as { error?: unknown; ask?: unknown };
  // `weigh` has an `error` of its own among its fields; a refusal has nothing else.
  if (typeof answer.error === "string" && answer.ask === undefined) throw new KernelRefusal(answer.error);
  return answer;
}

const OPS: (keyof Door)[] = ["open", "add", "acked", "overview", "step", "weigh", "parts", "review"];

function browserWorker(): WorkerLike {
  return new Worker(new URL("./worker.ts", import.meta.url), { type: "module" }) as unknown as WorkerLike;
}

/** Starts the worker at once; the first answer waits for it. */
export async function startKernel(spawn: () => WorkerLike = browserWorker): Promise<KernelDoor> {
  const kernel = new Kernel(spawn);
  const ops = OPS.map((op) => [op, (request: object) => kernel.call(op, request)]);
  return { ...Object.fromEntries(ops), onRestart: (opened: Kernel["opened"]) => { kernel.opened = opened; } } as KernelDoor;
}
