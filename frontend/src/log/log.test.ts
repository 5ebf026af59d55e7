// The log on a real IndexedDB implementation: gapless counts, all-or-nothing writes, two connections.
import "fake-indexeddb/auto";
import { openDB } from "idb";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { applySync, setAside, type SyncAnswer } from "./apply";
import { Database } from "./database";
import { Keep } from "./keep";
import { BenchLog, inFoldOrder } from "./log";

const opened = { type: "build.opened", body: { name: "Sprint-boat V8", procedure: "pushrod-v8", revision: 1, duty: "race", note: "" } };
const reading = (text: string) => ({ type: "reading", body: { point: "main_bore", station: "1", text, unit: "in" } });

let name = 0;
let database: Database;
let log: BenchLog;

beforeEach(async () => {
  database = new Database(`log-${++name}`);
  log = new BenchLog(database, () => 1000);
  await log.append("b-one", opened, "marek", "builder");
});
afterEach(async () => { vi.restoreAllMocks(); await database.close(); });

function answer(change: Partial<SyncAnswer>): SyncAnswer {
  return { epoch: "e1", time: 0, verdicts: [], builds: {}, people: {}, shop: { id: "tern-hollow", name: "Tern Hollow Engines" }, ...change };
}
const news = (events: object[]) => ({
  name: "Sprint-boat V8", procedure: "pushrod-v8", revision: 1, head: 9, events: events as never[], more: false, findings: [], reviewed: 0,
});
const other = (seq: number) => ({ dev: "f".repeat(32), n: seq, build: "b-one", type: "reading", v: 1, at: 5, seen: 0, who: "juno", role: "apprentice", body: {}, seq });

/** What a write that failed says; `toThrow` also passes for one that is rejected with nothing at all. */
const failure = (write: Promise<unknown>): Promise<string> => write.then(() => "it was kept", (error: unknown) => (error as Error).message);

describe("the log", () => {
  it("mints a device of 32 hex digits, another in each database", async () => {
    const second = new BenchLog(new Database(`log-other-${name}`));
    expect(await log.dev()).toMatch(/^[0-9a-f]{32}$/);
    expect(await second.dev()).not.toBe(await log.dev());
    vi.spyOn(crypto, "getRandomValues").mockImplementation((bytes) => { (bytes as Uint8Array).forEach((_, i, all) => { all[i] = 17 * i; }); return bytes; });
    expect(await new BenchLog(new Database(`log-minted-${name}`)).dev()).toBe("00112233445566778899aabbccddeeff");
  });

  it("counts without gaps when many are ticked at once over two connections", async () => {
    const second = new Database(`log-${name}`);
    const twin = new BenchLog(second);
    const made = await Promise.all(Array.from({ length: 40 }, (_, i) => (i % 2 ? log : twin).append("b-one", reading(`2.${i}`), "marek", "builder")));
    expect(made.map((event) => event.n).sort((a, b) => a - b)).toEqual(Array.from({ length: 40 }, (_, i) => i + 2));
    expect((await log.eventsOf("b-one")).length).toBe(41);
    await second.close();
  });

  it("keeps nothing and uses no number when the phone is full, and says so", async () => {
    const put = IDBObjectStore.prototype.put;
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (this: IDBObjectStore, ...given) {
      if (this.name === "builds") throw new DOMException("full", "QuotaExceededError");
      return put.apply(this, given);
    });
    expect(await failure(log.append("b-one", reading("2.4"), "marek", "builder"))).toContain("no room left");
    vi.restoreAllMocks();
    expect((await log.eventsOf("b-one")).length).toBe(1);
    expect((await log.append("b-one", reading("2.4"), "marek", "builder")).n).toBe(2);
  });

  it("refuses an event of a build that is not here", async () => {
    expect(await failure(log.append("b-two", reading("2.4"), "marek", "builder"))).toContain("not on this phone");
  });

  it("opens a dropped connection again", async () => {
    const connection = await (database as unknown as { open: Promise<IDBDatabase> }).open;
    connection.close();
    expect((await log.append("b-one", reading("2.4"), "marek", "builder")).n).toBe(2);
  });

  it("opens a build that says nothing of itself", async () => {
    await log.append("b-bare", { type: "build.opened", body: {} }, "marek", "builder");
    expect(await log.build("b-bare")).toEqual({ id: "b-bare", name: "b-bare", procedure: "", revision: 0, head: 0, findings: [], reviewed: 0, last_at: 1000 });
  });

  it("writes an entry with all that the server and the kernel ask of it", async () => {
    const event = { dev: await log.dev(), n: 2, build: "b-one", type: "reading", v: 1, at: 1000, seen: 0, who: "juno", role: "apprentice", body: reading("2.4").body };
    expect(await log.append("b-one", reading("2.4"), "juno", "apprentice")).toEqual(event);
    expect((await log.eventsOf("b-one"))[1]).toEqual(event);
  });

  it("says of what waits how much, since when and of which builds, also after the clock was put back", async () => {
    await setAside(database, { dev: await log.dev(), n: 1 }, "Too big.");
    expect(await log.waiting()).toEqual({ count: 0, oldest_at: null, people: [], builds: {} });
    let now = 5_000;
    const clocked = new BenchLog(database, () => now);
    await clocked.append("b-one", reading("2.4"), "marek", "builder");
    expect((await log.waiting()).oldest_at).toBe(5_000);
    now = 3_000;
    await clocked.append("b-two", opened, "juno", "builder");
    now = 4_000;
    await clocked.append("b-one", reading("2.5"), "marek", "builder");
    expect(await log.waiting()).toEqual({ count: 3, oldest_at: 3_000, people: ["marek", "juno"], builds: { "b-one": 2, "b-two": 1 } });
  });

  it("writes to a file, in the order of the bench, what whoever recorded it has not sent", async () => {
    await log.append("b-one", reading("2.4"), "juno", "apprentice");
    await log.append("b-one", reading("2.5"), "marek", "builder");
    const [first, ...lines] = (await log.exportLines()).trim().split("\n").map((line) => JSON.parse(line));
    expect(first).toEqual({ file: "halfthou-events", v: 1, events: 3 });
    expect(lines).toEqual(await log.eventsOf("b-one"));
  });

  it("has room for all that is remembered beside it", async () => {
    const keep = new Keep(database);
    const card = { id: "pushrod-v8", revision: 1, title: "Pushrod V8" } as never;
    await keep.setProcedure(card, { steps: [] });
    expect([await keep.procedure("pushrod-v8", 1), await keep.procedures()]).toEqual([{ steps: [] }, [card]]);
    const marek = { id: "marek", name: "Marek", role: "builder", token: null, expires: null, used: 3 };
    await keep.setPerson(marek);
    expect(await keep.people()).toEqual([marek]);
  });

  it("tries a write once that fails for a reason of its own", async () => {
    for (const reason of [new Error("No such step."), "no words"]) {
      let tries = 0;
      await failure(database.write(["kept"], async () => { tries++; throw reason; }));
      expect(tries).toBe(1);
    }
  });

  it("lets go of the browser's connection when it is closed", async () => {
    const connection = await database.read(async (db) => db);
    await database.close();
    expect(() => connection.transaction("kept")).toThrow("InvalidStateError");
    expect((await log.builds()).length).toBe(1);
  });

  it("orders what two phones recorded alike on every phone", () => {
    const [a, b] = ["a", "b"].map((dev) => ({ ...other(1), dev, seq: undefined }));
    expect([b, a].sort(inFoldOrder)).toEqual([a, b]);
    expect([a, b].sort(inFoldOrder)).toEqual([a, b]);
    expect([a, { ...b, seq: 7 }, { ...b, seq: 3 }].sort(inFoldOrder).map(({ seq }) => seq)).toEqual([3, 7, undefined]);
  });

  it("stamps what the phone had seen of the build", async () => {
    await applySync(database, answer({ builds: { "b-one": news([other(1), other(2)]) } }));
    expect(await log.append("b-one", reading("2.4"), "marek", "builder")).toMatchObject({ seen: 2, n: 2 });
  });
});

describe("an answer of the server", () => {
  it("empties the queue on every verdict, and marks what was set aside", async () => {
    await log.append("b-one", reading("2.4"), "marek", "builder");
    await log.append("b-one", reading("2.5"), "marek", "builder");
    await applySync(database, answer({ verdicts: [
      { n: 1, verdict: "stored", seq: 1 }, { n: 2, verdict: "quarantined", why: "No unit." }, { n: 3, verdict: "duplicate", seq: 2 },
    ] }));
    expect((await log.waiting()).count).toBe(0);
    expect((await log.refused()).map(({ event, why }) => [event.n, why])).toEqual([[2, "No unit."]]);
    expect((await log.eventsOf("b-one")).map((event) => [event.n, event.seq])).toEqual([[1, 1], [3, 2]]);
  });

  it("does not put back when a build was last worked on, for news that is older", async () => {
    await applySync(database, answer({ builds: { "b-one": news([other(1), { ...other(2), at: 2_000 }, { ...other(3), at: 7 }]) } }));
    expect((await log.build("b-one"))!.last_at).toBe(2_000);
    await applySync(database, answer({ builds: { "b-one": news([{ ...other(4), at: 8 }]) } }));
    expect((await log.build("b-one"))!.last_at).toBe(2_000);
  });

  it("puts news in order that comes out of it", async () => {
    await applySync(database, answer({ builds: { "b-one": news([other(2), other(3), other(1)]) } }));
    expect((await log.builds())[0].head).toBe(3);
  });

  it("vouches for a build up to the server's own place in it, and keeps the word it had while it stands still", async () => {
    const told = (events: object[], head: number) => applySync(database, answer({ builds: { "b-one": { ...news(events), head, head_hash: `h${head}` } } }));
    const held = async () => { const { head, head_hash } = (await log.builds())[0]; return [head, head_hash]; };
    await told([other(1)], 1);
    expect(await held()).toEqual([1, "h1"]);
    await told([other(3)], 3);
    expect(await held()).toEqual([1, "h1"]);
    await told([other(2)], 3);
    expect(await held()).toEqual([2, undefined]);
  });

  it("counts a build as changed when it grew or was looked through again, and not otherwise", async () => {
    const told = async (events: object[], reviewed: number) => (await applySync(database, answer({ builds: { "b-one": { ...news(events), reviewed } } }))).changed;
    expect([await told([other(1)], 0), await told([], 0), await told([], 1), await told([], 1)]).toEqual([["b-one"], [], ["b-one"], []]);
  });

  it("counts a build as changed by a verdict alone, and a place in it only with a verdict that gives one", async () => {
    const applied = await applySync(database, answer({ verdicts: [{ n: 1, verdict: "fork", seq: 4 }] }));
    expect(applied.changed).toEqual(["b-one"]);
    expect([await log.eventsOf("b-one"), (await log.refused())[0].event.seq]).toEqual([[], undefined]);
  });

  it("forgets that an entry was set aside when another request has got it stored", async () => {
    await setAside(database, { dev: await log.dev(), n: 1 }, "Too big.");
    await applySync(database, answer({ verdicts: [{ n: 1, verdict: "stored", seq: 1 }] }));
    expect([await log.refused(), (await log.eventsOf("b-one")).map(({ seq }) => seq)]).toEqual([[], [1]]);
  });

  it("brings generation, names and the shop's own name with it", async () => {
    const people = { juno: { name: "Juno", role: "apprentice" } };
    await applySync(database, answer({ people }));
    const keep = new Keep(database);
    expect([await log.epoch(), await keep.names(), await keep.shop()]).toEqual(["e1", people, "Tern Hollow Engines"]);
  });

  it("never moves past a gap", async () => {
    await applySync(database, answer({ builds: { "b-one": news([other(1), other(3)]) } }));
    const [build] = await log.builds();
    expect(build.head).toBe(1);
    expect((await log.eventsOf("b-one")).filter((event) => event.seq === 3)).toEqual([]);
  });

  it("is all or nothing: neither verdicts nor positions stay when the write fails", async () => {
    const put = IDBObjectStore.prototype.put;
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (this: IDBObjectStore, ...given) {
      if (this.name === "kept") throw new DOMException("full", "QuotaExceededError");
      return put.apply(this, given);
    });
    const full = answer({ verdicts: [{ n: 1, verdict: "stored", seq: 1 }], builds: { "b-one": news([other(1)]) } });
    expect(await failure(applySync(database, full))).toContain("no room left");
    vi.restoreAllMocks();
    expect((await log.waiting()).count).toBe(1);
    expect((await log.builds())[0].head).toBe(0);
  });

  it("sends everything of this phone again when the server was put back from an older copy", async () => {
    await applySync(database, answer({ verdicts: [{ n: 1, verdict: "stored", seq: 1 }], builds: { "b-one": news([other(1), other(2)]) } }));
    await applySync(database, answer({ builds: { "b-one": { ...news([]), reviewed: 2 } } }));
    const applied = await applySync(database, answer({ epoch: "e2", builds: { "b-one": news([other(1)]) } }));
    expect(applied).toEqual({ changed: ["b-one"], renewed: true, more: true });
    expect((await log.pending("marek")).map((event) => event.n)).toEqual([1]);
    expect((await log.builds())[0]).toMatchObject({ head: 0, reviewed: 0 });
    expect((await log.eventsOf("b-one")).map(({ seq }) => seq)).toEqual([undefined, undefined, undefined]);
    expect(await database.read((db) => db.getAll("receipts"))).toEqual([]);
  });

  it("of a server put back counts as well: what it stores does not wait again, and nothing stays set aside", async () => {
    for (const text of ["2.4", "2.5", "2.6"]) await log.append("b-one", reading(text), "marek", "builder");
    await applySync(database, answer({ verdicts: [1, 2, 3].map((n) => ({ n, verdict: "quarantined" })) }));
    await applySync(database, answer({ epoch: "e2", verdicts: [{ n: 4, verdict: "stored", seq: 1 }] }));
    expect((await log.pending("marek")).map(({ n }) => n)).toEqual([1, 2, 3]);
    expect(await log.refused()).toEqual([]);
  });

  it("sends once more what was set aside before servers counted that, and not what this answer sets aside", async () => {
    const aside = (n: number) => [{ n, verdict: "quarantined" as const, why: "No such build." }];
    await log.append("b-two", opened, "marek", "builder");
    await applySync(database, answer({ device: { place: 0, link: "" }, verdicts: [...aside(1), { n: 2, verdict: "stored", seq: 1 }] }));
    expect(await log.pending("marek")).toEqual([]);
    await log.append("b-one", reading("2.4"), "marek", "builder");
    const counted = { place: 0, link: "", aside: 2 };
    const applied = await applySync(database, answer({ device: counted, verdicts: aside(3) }));
    expect([applied.more, applied.changed, (await log.pending("marek")).map(({ n }) => n)]).toEqual([true, ["b-one"], [1]]);
    expect((await applySync(database, answer({ device: counted, verdicts: aside(1) }))).more).toBe(false);
    expect((await log.refused()).map(({ event }) => event.n)).toEqual([1, 3]);
  });

  it("brings back what the server had signed of other phones, and keeps the heads it had vouched for", async () => {
    const signed = { ...other(1), mark: "m1" };
    await applySync(database, answer({ device: { place: 1, link: "l1" }, builds: { "b-one": { ...news([signed, other(2)]), head: 2, head_hash: "h2" } } }));
    expect(await log.receipt()).toEqual({ place: 1, link: "l1" });
    expect((await log.builds())[0].head_hash).toBe("h2");
    await applySync(database, answer({ epoch: "e2" }));
    expect(await log.receipt()).toBeNull();
    expect(await database.read((db) => db.getAll("receipts"))).toEqual([{ build: "b-one", epoch: "e1", head: 2, head_hash: "h2" }]);
    await applySync(database, answer({ epoch: "e2", verdicts: [{ n: 1, verdict: "stored", seq: 1 }] }));
    const [relayed] = await log.pending("marek");
    expect(relayed).toMatchObject({ dev: "f".repeat(32), n: 1, who: "juno", mark: "m1" });
    expect(await log.waiting()).toMatchObject({ count: 0, people: [] });
    await applySync(database, answer({ epoch: "e2", verdicts: [{ n: 1, verdict: "stored", seq: 2 }] }), [relayed]);
    expect(await log.pending("marek")).toEqual([]);
    expect((await log.eventsOf("b-one")).find(({ dev }) => dev === relayed.dev)!.seq).toBe(2);
  });

  describe("that does not tell our own entries back", () => {
    const you = { who: "marek", role: "owner" };
    const stored = (n: number, seq: number) => ({ n, verdict: "stored" as const, seq, mark: `m${n}` });

    it("gives them position, author's role and mark, and goes on past them", async () => {
      await log.append("b-one", reading("2.4"), "marek", "builder");
      await applySync(database, answer({ you, verdicts: [stored(1, 2), stored(2, 3)], builds: { "b-one": { ...news([other(1), other(4)]), head: 4, head_hash: "h4" } } }));
      const [build] = await log.builds();
      expect([build.head, build.head_hash, (await log.waiting()).count]).toEqual([4, "h4", 0]);
      expect((await log.eventsOf("b-one")).map(({ seq, n, who, role }) => [seq, n, who, role])).toEqual([
        [1, 1, "juno", "apprentice"], [2, 1, "marek", "owner"], [3, 2, "marek", "owner"], [4, 4, "juno", "apprentice"]]);
      await applySync(database, answer({ epoch: "e2" }));
      expect((await log.pending("marek")).map(({ n, mark }) => [n, mark])).toEqual([[1, "m1"], [2, "m2"]]);
    });

    it("says which build changed, though nothing else is told of it", async () => {
      const applied = await applySync(database, answer({ you, verdicts: [stored(1, 1)], builds: { "b-one": { ...news([]), head: 1, head_hash: "h1" } } }));
      expect(applied.changed).toEqual(["b-one"]);
      expect((await log.builds())[0]).toMatchObject({ head: 1, head_hash: "h1" });
    });

    it("does not go past one that this phone does not hold", async () => {
      await applySync(database, answer({ you, verdicts: [stored(9, 1), stored(1, 2)], builds: { "b-one": { ...news([]), head: 2, head_hash: "h2" } } }));
      expect((await log.builds())[0].head).toBe(0);
      expect((await log.builds())[0].head_hash).toBeUndefined();
    });

    it("does not go past one that is placed without its mark: the server will tell it", async () => {
      await applySync(database, answer({ you, verdicts: [{ n: 1, verdict: "duplicate", seq: 1 }], builds: { "b-one": news([]) } }));
      expect((await log.builds())[0].head).toBe(0);
      expect((await log.eventsOf("b-one"))[0]).toMatchObject({ seq: 1, role: "builder" });
    });
  });

  it("does not use a number again that this phone used before it was put back from a copy", async () => {
    const mine = { ...other(1), dev: await log.dev(), n: 7 };
    await applySync(database, answer({ builds: { "b-one": news([mine]) } }));
    expect((await log.append("b-one", reading("2.4"), "marek", "builder")).n).toBe(8);
  });

  it("keeps what waits when a newer version of the app finds the database of the first", async () => {
    const old = await openDB(`first-${name}`, 1, { upgrade: async (db) => {
      const events = db.createObjectStore("events", { keyPath: ["dev", "n"] });
      events.createIndex("build", "build");
      events.createIndex("waiting", ["waiting", "n"]);
      for (const store of ["builds", "people"]) db.createObjectStore(store, { keyPath: "id" });
      for (const store of ["procedures", "kept", "device"]) db.createObjectStore(store);
    } });
    await old.put("device", { dev: "a".repeat(32), next: 2, epoch: "e1" }, "this");
    await old.put("events", { ...other(1), dev: "a".repeat(32), n: 1, who: "marek", seq: undefined, waiting: "marek" });
    await old.put("builds", { id: "b-one", name: "One", procedure: "pushrod-v8", revision: 1, head: 0, findings: [], reviewed: 0, last_at: null });
    old.close();
    const newer = new BenchLog(new Database(`first-${name}`));
    expect((await newer.pending("marek")).map(({ n }) => n)).toEqual([1]);
    expect((await newer.append("b-one", reading("2.4"), "marek", "builder")).n).toBe(2);
    expect((await newer.exportLines()).trim().split("\n").map((line) => JSON.parse(line).events ?? JSON.parse(line).n)).toEqual([2, 1, 2]);
  });

  it("makes way for a newer version of the app in another tab, and keeps nothing unsaid after it", async () => {
    const newer = await openDB(`log-${name}`, 3);
    expect(await failure(log.append("b-one", reading("2.4"), "marek", "builder"))).toContain("could not keep that");
    expect(await newer.count("events")).toBe(1);
    newer.close();
  });

  it("says that nothing was kept when the browser itself gives a write up at its end", async () => {
    const gone = database.write(["kept"], async (change) => { await change.objectStore("kept").put("x", "y"); change.abort(); });
    expect(await failure(gone)).toContain("Nothing was stored");
    expect(await database.read((db) => db.get("kept", "y"))).toBeUndefined();
  });

  it("says so once, at the end, when the browser gives a write up while there is still work on it", async () => {
    const gone = database.write(["kept"], async (change) => { change.abort(); await new Promise((done) => setTimeout(done, 20)); });
    expect(await failure(gone)).toContain("Nothing was stored");
  });

  it("takes verdicts on what it no longer holds, and news of a build it has not heard of", async () => {
    const applied = await applySync(database, answer({
      verdicts: [{ n: 99, verdict: "stored", seq: 1 }], builds: { "b-new": { ...news([{ ...other(1), build: "b-new" }]), head: 1 } },
    }));
    expect(applied.changed).toEqual(["b-new"]);
    expect(await log.build("b-new")).toMatchObject({ head: 1, last_at: 5, name: "Sprint-boat V8" });
  });

  it("says why an entry was set aside, also where the server does not", async () => {
    await log.append("b-one", reading("2.4"), "marek", "builder");
    await applySync(database, answer({ verdicts: [{ n: 1, verdict: "fork" }, { n: 2, verdict: "quarantined" }] }));
    expect((await log.refused()).map(({ why }) => why)).toEqual(["The server already has another entry under this number.", "The server set this entry aside."]);
  });

  it("is another phone after the demo was begun afresh: nothing of the old log is left, its number neither", async () => {
    const before = await log.dev();
    await database.destroy();
    expect(await log.dev()).not.toBe(before);
    expect([await log.builds(), await log.pending("marek")]).toEqual([[], []]);
  });

  it("lets one impossible entry go by", async () => {
    await setAside(database, { dev: await log.dev(), n: 1 }, "Too big.");
    expect((await log.waiting()).count).toBe(0);
    expect((await log.refused())[0].why).toBe("Too big.");
  });
});
