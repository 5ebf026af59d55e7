// A phone's database for the fault harness: transactions of all or nothing, one writer at a time, and a hook at every
// point where real code waits. It stands in for `Database`; what is stored outlives the tab that stored it.

export type Wait = "read" | "write" | "commit" | "done" | "net";
/** Called at every await. May throw (the phone is full) or never resolve (the tab was killed). */
export type Hook = (what: Wait) => Promise<void>;
type Key = unknown;
type Table = Map<string, { key: Key; value: unknown }>;

const KEYS: Record<string, string[] | null> = { device: null, events: ["dev", "n"], builds: ["id"], procedures: null, people: ["id"], kept: null, receipts: ["build", "epoch"] };
const INDEXES: Record<string, string[]> = { build: ["build"], waiting: ["waiting", "n"] };

const copy = <T>(value: T): T => (value === undefined ? value : JSON.parse(JSON.stringify(value)) as T);
const asList = (key: Key): unknown[] => (Array.isArray(key) ? key : [key]);

function compare(one: Key, other: Key): number {
  const [a, b] = [asList(one), asList(other)];
  for (let i = 0; i < Math.max(a.length, b.length); i++) {
    if (a[i] === b[i]) continue;
    return (a[i] as number) < (b[i] as number) ? -1 : 1;
  }
  return 0;
}

/** The key of a value by its path; undefined when a part is missing, as an index leaves such a row out. */
function keyBy(path: string[], value: Record<string, unknown>): Key | undefined {
  const parts = path.map((name) => value[name]);
  return parts.includes(undefined) ? undefined : path.length === 1 ? parts[0] : parts;
}

export class Disk {
  tables: Record<string, Table> = Object.fromEntries(Object.keys(KEYS).map((name) => [name, new Map()]));
  private tail: Promise<void> = Promise.resolve();

  constructor(dev: string) { this.put(this.tables, "device", { dev, next: 1, epoch: null }, "this"); }

  snapshot(): Record<string, Table> { return Object.fromEntries(Object.entries(this.tables).map(([name, table]) => [name, new Map(table)])); }

  put(tables: Record<string, Table>, store: string, value: unknown, key?: Key): void {
    const path = KEYS[store];
    const at = path ? keyBy(path, value as Record<string, unknown>) : key;
    if (at === undefined) throw new Error(`a row of ${store} has no key`);
    tables[store].set(JSON.stringify(at), { key: at, value: copy(value) });
  }

  rows(store: string): unknown[] {
    return [...this.tables[store].values()].sort((one, other) => compare(one.key, other.key)).map(({ value }) => copy(value));
  }

  byIndex(store: string, index: string, query?: { lo: Key; hi: Key } | string, limit?: number): unknown[] {
    const found = this.rows(store).map((value) => ({ key: keyBy(INDEXES[index], value as Record<string, unknown>), value })).filter(({ key }) => key !== undefined);
    const range = typeof query === "string" ? { lo: query, hi: query } : query;
    const within = range ? found.filter(({ key }) => compare(range.lo, key) <= 0 && compare(key, range.hi) <= 0) : found;
    return within.sort((one, other) => compare(one.key, other.key)).slice(0, limit).map(({ value }) => value);
  }

  /** One writer at a time; the returned function lets the next one in. */
  async turn(): Promise<() => void> {
    const before = this.tail;
    let release!: () => void;
    this.tail = new Promise((done) => { release = done; });
    await before;
    return release;
  }
}

/** As in a browser, a request that fails ends its transaction, whether or not anybody waited for that request. */
class FakeChange {
  private readonly draft: Record<string, Table> = {};
  private readonly asked: Promise<unknown>[] = [];
  constructor(private readonly disk: Disk, names: string[], private readonly hook: Hook) {
    for (const name of names) this.draft[name] = new Map(disk.tables[name]);
  }

  objectStore(name: string) {
    const table = this.draft[name];
    if (!table) throw new Error(`${name} is not part of this transaction`);
    const ask = <T>(what: Wait, work: () => T): Promise<T> => {
      const asked = this.hook(what).then(work);
      asked.catch(() => {});
      this.asked.push(asked);
      return asked;
    };
    const put = (value: unknown, key?: Key): Promise<void> => { const given = copy(value); return ask("write", () => this.disk.put(this.draft, name, given, key)); };
    return {
      get: (key: Key) => ask("read", () => copy(table.get(JSON.stringify(key))?.value)),
      getAll: () => ask("read", () => [...table.values()].sort((one, other) => compare(one.key, other.key)).map(({ value }) => copy(value))),
      put,
      add: (value: unknown, key?: Key) => {
        const given = copy(value);
        const at = JSON.stringify(keyBy(KEYS[name]!, given as Record<string, unknown>));
        return ask("write", () => {
          if (table.has(at)) throw new Error(`${name} has ${at} already`);
          this.disk.put(this.draft, name, given, key);
        });
      },
    };
  }

  /** Complete once every request is; refused when one of them was. */
  async complete(): Promise<void> {
    for (let i = 0; i < this.asked.length; i++) await this.asked[i];
    await this.hook("commit");
    Object.assign(this.disk.tables, this.draft);
  }
}

/** What one tab sees of the disk: the two calls of `Database` that log and sync use. */
export class View {
  constructor(private readonly disk: Disk, private readonly hook: Hook, private readonly held: Set<() => void>) {}

  async read<T>(work: (database: unknown) => Promise<T>): Promise<T> {
    const pause = async <R>(give: () => R): Promise<R> => { await this.hook("read"); return give(); };
    return work({
      get: (store: string, key: Key) => pause(() => copy(this.disk.tables[store].get(JSON.stringify(key))?.value)),
      getAll: (store: string) => pause(() => this.disk.rows(store)),
      getAllFromIndex: (store: string, index: string, query?: never, limit?: number) => pause(() => this.disk.byIndex(store, index, query, limit)),
    });
  }

  async write<T>(stores: string[], work: (change: unknown) => Promise<T>): Promise<T> {
    const release = await this.disk.turn();
    this.held.add(release);
    try {
      const change = new FakeChange(this.disk, stores, this.hook);
      const result = await work(change);
      await change.complete();
      await this.hook("done");
      return result;
    } finally {
      this.held.delete(release);
      release();
    }
  }
}
