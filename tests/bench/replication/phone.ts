// Our side of the comparison: the phone's own log and sync, over a real network, with its store in memory as the pair's is.
// Told by lines on standard input; each is answered by a line. node phone.mjs <address of the server> <name> <password>
import { createInterface } from "node:readline";
import type { Database } from "../../../frontend/src/log/database";
import { BenchLog } from "../../../frontend/src/log/log";
import { post } from "../../../frontend/src/sync/network";
import { SyncRunner } from "../../../frontend/src/sync/runner";

type Row = Record<string, unknown>;
type Range = { lo: [string, number] };
const KEYS: Record<string, string[]> = { events: ["dev", "n"], builds: ["id"], receipts: ["build", "epoch"] };
const [address, name, password] = process.argv.slice(2);
const dev = [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");

/** Rows are kept as text, so that they are copied in and out as a database does it; `waiting` is the one index that a sync asks. */
class Store {
  private readonly tables = new Map<string, Map<string, string>>();
  private readonly waiting = new Map<string, Row>();

  private table(store: string): Map<string, string> {
    if (!this.tables.has(store)) this.tables.set(store, new Map());
    return this.tables.get(store)!;
  }

  async get(store: string, key: unknown): Promise<Row | undefined> {
    const text = this.table(store).get(JSON.stringify(key));
    return text === undefined ? undefined : JSON.parse(text) as Row;
  }

  async getAll(store: string): Promise<Row[]> { return [...this.table(store).values()].map((text) => JSON.parse(text) as Row); }

  async getAllFromIndex(_store: string, _index: string, range?: Range, limit?: number): Promise<Row[]> {
    const found = [...this.waiting.values()].filter((row) => range === undefined || row.waiting === range.lo[0]);
    return found.slice(0, limit).map((row) => JSON.parse(JSON.stringify(row)) as Row);
  }

  objectStore(store: string) {
    const put = async (value: Row, key?: unknown): Promise<void> => {
      const at = JSON.stringify(KEYS[store] ? KEYS[store].length === 1 ? value[KEYS[store][0]] : KEYS[store].map((part) => value[part]) : key);
      this.table(store).set(at, JSON.stringify(value));
      if (store !== "events") return;
      if (value.waiting === undefined) this.waiting.delete(at);
      else this.waiting.set(at, value);
    };
    return { get: (key: unknown) => this.get(store, key), getAll: () => this.getAll(store), put, add: put };
  }

  read<T>(work: (store: this) => Promise<T>): Promise<T> { return work(this); }
  write<T>(_stores: string[], work: (store: this) => Promise<T>): Promise<T> { return work(this); }
}

const counted = { requests: 0, bytes: 0 };
const really = globalThis.fetch;
Object.assign(globalThis, {
  fetch: (path: string, how: RequestInit) => {
    counted.requests++;
    counted.bytes += Buffer.byteLength(String(how.body));
    // Like a browser: a kept connection that the server has meanwhile closed is opened anew.
    return really(address + path, how).catch(() => really(address + path, how));
  },
  IDBKeyRange: { bound: (lo: unknown) => ({ lo }) },
});

const store = new Store();
await store.objectStore("device").put({ dev, next: 1, epoch: null }, "this");
const answer = await really(`${address}/api/login`, {
  method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ name, password, dev, label: "bench" }),
});
const login = await answer.json() as { token: string; person: { id: string; name: string; role: "builder" } };
const person = { ...login.person, token: login.token, expires: null, used: 0 };
const log = new BenchLog(store as unknown as Database);
const runner = new SyncRunner({
  log, post, people: async () => [person], now: Date.now, luck: () => 0.5, wakeAt: () => {}, told: () => {}, changed: async () => {},
});

const BUILD = "b-bench";
const body = (i: number): Row => ({ point: "main_bore", station: String(i % 5 + 1), text: "2.4507", unit: "in" });
await log.append(BUILD, { type: "build.opened", body: { name: "Bench", procedure: "pushrod-v8", revision: 1, duty: "race", note: "" } }, person.id, person.role);

/** Records so many entries, which is not timed, and syncs until nothing waits. */
async function moved(many: number): Promise<{ seconds: number; requests: number; bytes: number }> {
  for (let i = 0; i < many; i++) await log.append(BUILD, { type: "reading", body: body(i) }, person.id, person.role);
  Object.assign(counted, { requests: 0, bytes: 0 });
  const began = performance.now();
  await runner.nudge("asked");
  const seconds = (performance.now() - began) / 1000;
  const left = (await log.waiting()).count;
  if (left > 0 || runner.state.failing !== null) throw new Error(`${left} entries were not taken: ${runner.state.failing}`);
  return { seconds, ...counted };
}

for await (const line of createInterface({ input: process.stdin })) console.log(JSON.stringify(await moved(Number(line))));
