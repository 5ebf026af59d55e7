// Several phones in one process, told what to do line by line: a command in, its outcome and the requests it led to out.
// Each line is answered when all code has come to rest, waiting only for the network or for time to pass.
import { createInterface } from "node:readline";
import { here, locks, Phone, Tab, type Plan } from "./tab";
import { cancel, forward, now, schedule, startAfresh } from "./time";
import { Disk } from "./disk";

interface Ask { id: number; phone: number; tab: number; path: string; token: string; waiting: string; body: string }
interface Reply { status: number; type: string; body: string | null }

let phones = new Map<number, Phone>();
let asks: Ask[] = [];
let open = new Map<number, { give: (value: unknown) => void; fail: (why: unknown) => void; signal: AbortSignal }>();
let count = 0;

/** As much of a Response as the sync reads. A body of null stalls until the request is given up. */
function response({ status, type, body }: Reply, signal: AbortSignal) {
  const text = (): Promise<string> => (body !== null ? Promise.resolve(body) : new Promise((_, fail) => signal.addEventListener("abort", () => fail(new DOMException("", "AbortError")))));
  return { status, ok: status >= 200 && status < 300, headers: { get: (name: string) => (name.toLowerCase() === "content-type" ? type : null) }, text, json: async () => JSON.parse(await text()) };
}

async function fetch_(path: string, init: RequestInit): Promise<unknown> {
  const tab = here.getStore()!;
  await tab.wait("net");
  const headers = init.headers as Record<string, string>;
  const id = ++count;
  asks.push({ id, phone: tab.phone.id, tab: tab.id, path, token: headers.Authorization.slice(7), waiting: headers["Halfthou-Waiting"], body: String(init.body) });
  const signal = init.signal as AbortSignal;
  const reply = await new Promise((give, fail) => {
    open.set(id, { give, fail, signal });
    signal.addEventListener("abort", () => { open.delete(id); fail(new DOMException("", "AbortError")); });
  });
  await tab.wait("net");
  return reply;
}

const really = { setTimeout: globalThis.setTimeout, clearTimeout: globalThis.clearTimeout };
Object.assign(globalThis, {
  fetch: fetch_,
  setTimeout: (ring: () => void, ms: number) => { const tab = here.getStore(); return tab ? schedule(tab, ms, ring) : really.setTimeout(ring, ms); },
  clearTimeout: (id: number) => cancel(id),
  IDBKeyRange: { bound: (lo: unknown, hi: unknown) => ({ lo, hi }) },
});
Object.defineProperty(globalThis, "navigator", { value: { get locks() { return here.getStore()?.phone.locks ? locks : undefined; } } });

const rest = (): Promise<void> => new Promise((done) => setImmediate(done));
const inWords = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** The outcome of work that may never end, because its tab was killed in the middle. */
async function outcome(work: Promise<unknown>): Promise<unknown> {
  let said: unknown = { dead: true };
  work.then((value) => { said = { value }; }, (error) => { said = { error: inWords(error) }; });
  await rest();
  return said;
}

type Command = { do: string; phone: number; tab: number } & Record<string, never>;
const tabOf = (c: Command): Tab | undefined => phones.get(c.phone)?.tabs.get(c.tab);
const inTab = <T>(c: Command, work: (tab: Tab) => T): T | null => { const tab = tabOf(c); return tab ? here.run(tab, () => work(tab)) : null; };

const DO: Record<string, (c: Command) => unknown> = {
  reset: () => { phones = new Map(); asks = []; open = new Map(); startAfresh(); return now(); },
  phone: (c) => { phones.set(c.phone, new Phone(c.phone, c.dev, c.locks, c.code)); },
  people: (c) => { phones.get(c.phone)!.people = c.people; },
  open: (c) => {
    const phone = phones.get(c.phone)!;
    phone.tabs.get(c.tab)?.die();
    phone.tabs.set(c.tab, new Tab(phone, c.tab));
    inTab(c, (tab) => void tab.runner.nudge("start").catch(() => {}));
  },
  close: (c) => tabOf(c)?.die(),
  plan: (c) => { tabOf(c)?.plans(c.plan as Plan); },
  append: (c) => inTab(c, async (tab) => {
    const kept = await outcome(tab.log.append(c.build, c.draft, c.who, c.role));
    if ("value" in (kept as object) && !tab.dead) here.run(tab, () => void tab.runner.nudge("append").catch(() => {}));
    return kept;
  }),
  nudge: (c) => inTab(c, (tab) => void tab.runner.nudge(c.why).catch(() => {})),
  login: (c) => inTab(c, (tab) => void tab.runner.loggedIn(c.who).catch(() => {})),
  clock: (c) => { phones.get(c.phone)!.skew = c.skew; },
  luck: (c) => { phones.get(c.phone)!.luck = c.luck; },
  code: (c) => { const phone = phones.get(c.phone)!; [...phone.tabs.values()].forEach((tab) => tab.die()); phone.code = c.code; },
  evict: (c) => { const phone = phones.get(c.phone)!; [...phone.tabs.values()].forEach((tab) => tab.die()); phone.disk = new Disk(c.dev); phone.people = []; },
  keep: (c) => { const phone = phones.get(c.phone)!; phone.kept = phone.disk.snapshot(); },
  putback: (c) => { const phone = phones.get(c.phone)!; [...phone.tabs.values()].forEach((tab) => tab.die()); if (phone.kept) phone.disk.tables = phone.kept; phone.kept = null; },
  tabs: (c) => [...phones.get(c.phone)!.tabs.keys()],
  waits: (c) => tabOf(c)?.waits ?? null,
  state: (c) => tabOf(c)?.runner.state ?? null,
  dump: (c) => Object.fromEntries(["device", "events", "builds", "receipts"].map((store) => [store, phones.get(c.phone)!.disk.rows(store)])),
  folds: (c) => inTab(c, (tab) => outcome(tab.log.eventsOf(c.build))),
  lines: (c) => inTab(c, (tab) => outcome(tab.log.exportLines())),
  answer: (c) => {
    const asked = open.get(c.id);
    open.delete(c.id);
    if (c.reply === null) asked?.fail(new TypeError("network"));
    else asked?.give(response(c.reply, asked.signal));
  },
  advance: async (c) => {
    while (asks.length === 0 && forward(c.to)) await rest();
    return now();
  },
};

for await (const line of createInterface({ input: process.stdin })) {
  const command = JSON.parse(line) as Command;
  let said: unknown = null;
  try { said = await DO[command.do](command); } catch (error) { said = { failed: inWords(error) }; }
  await rest();
  process.stdout.write(`${JSON.stringify({ said: said ?? null, asks })}\n`);
  asks = [];
}
