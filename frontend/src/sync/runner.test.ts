// The sync against a server kept in memory and a network that misbehaves: nothing is lost, nothing is stored twice.
import "fake-indexeddb/auto";
import { afterEach, describe, expect, it, vi } from "vitest";
import { setAside, type BuildNews, type SyncAnswer, type Verdict } from "../log/apply";
import { Database, type PersonRow } from "../log/database";
import { BenchLog } from "../log/log";
import type { BenchEvent } from "../kernel/types";
import { bytesOf, fitting, MOST_BYTES, post, type Post, type Reply } from "./network";
import { SyncRunner, type Around } from "./runner";

/** Stores each (dev, n) once and numbers events within their build, as the real one must. */
class ShopServer {
  epoch = "e1";
  stored = new Map<string, BenchEvent>();
  logins = new Map([["t-marek", "marek"], ["t-juno", "juno"]]);
  most = 500;
  tooBig = new Set<number>();

  post: Post = async (token, events, { dev, follow }) => {
    const who = this.logins.get(token);
    if (who === undefined) return { kind: "login" };
    if (events.length > this.most || events.some((event) => this.tooBig.has(event.n))) return { kind: "too_big" };
    const verdicts = events.map((event) => this.take({ ...event, dev, who }));
    return { kind: "answer", answer: this.answer(verdicts, follow) };
  };

  private take(event: BenchEvent): Verdict {
    const known = this.stored.get(`${event.dev}:${event.n}`);
    if (known) return { n: event.n, verdict: "duplicate", seq: known.seq };
    const seq = [...this.stored.values()].filter((other) => other.build === event.build).length + 1;
    this.stored.set(`${event.dev}:${event.n}`, { ...event, role: "builder", seq });
    return { n: event.n, verdict: "stored", seq };
  }

  private answer(verdicts: Verdict[], follow: Record<string, number>): SyncAnswer {
    const builds: Record<string, BuildNews> = {};
    for (const event of this.stored.values()) {
      builds[event.build] ??= { name: event.build, procedure: "pushrod-v8", revision: 1, head: 0, events: [], more: false, findings: [], reviewed: 0 };
      builds[event.build].head++;
      if (event.seq! > (follow[event.build] ?? 0)) builds[event.build].events.push(event);
    }
    return { epoch: this.epoch, time: 0, verdicts, builds, people: {}, shop: { id: "s", name: "Tern Hollow Engines" } };
  }
}

const person = (id: string): PersonRow => ({ id, name: id, role: "builder", token: `t-${id}`, expires: null, used: 0 });
const reading = (text: string) => ({ type: "reading", body: { point: "main_bore", station: "1", text, unit: "in" } });
const ENOUGH = 100;                 // requests of one phone; no test here needs a third of them
let spun = false;
let count = 0;

function phone(send: Post, people: PersonRow[] = [person("marek")], around: Partial<Around> = {}) {
  const log = new BenchLog(new Database(`sync-${++count}`), () => count);
  const wakes: number[] = [];
  const alarms: (() => void)[] = [];
  let asked = 0;
  // A phone that spins is stopped, and that is told at the end of the test.
  const heard: Post = (...request) => { if (++asked < ENOUGH) return send(...request); spun = true; throw new Error("The phone spins."); };
  const runner = new SyncRunner({
    log, post: heard, people: async () => people, now: () => 1_000, luck: () => 0.5,
    wakeAt: (at, wake) => { wakes.push(at); alarms.push(wake); }, told: () => {}, changed: async () => {}, ...around,
  });
  return { log, runner, wakes, alarms };
}

async function withReadings(log: BenchLog, many: number, who = "marek"): Promise<void> {
  const build = `b-${who}`;
  await log.append(build, { type: "build.opened", body: { name: build, procedure: "pushrod-v8", revision: 1 } }, who, "builder");
  for (let i = 1; i < many; i++) await log.append(build, reading(`2.${i}`), who, "builder");
}

afterEach(() => {
  vi.unstubAllGlobals();
  expect(spun, "a phone spins").toBe(false);
});

describe("the sync over a bad network", () => {
  it("sends everything once and learns its positions", async () => {
    const server = new ShopServer();
    const { log, runner } = phone(server.post);
    await withReadings(log, 12);
    await runner.nudge("start");
    expect(server.stored.size).toBe(12);
    expect((await log.waiting()).count).toBe(0);
    expect((await log.eventsOf("b-marek")).map((event) => event.seq)).toEqual(Array.from({ length: 12 }, (_, i) => i + 1));
  });

  it("stores nothing twice when the reply was lost after the server committed", async () => {
    const server = new ShopServer();
    let lose = true;
    const { log, runner } = phone(async (...request) => {
      const reply = await server.post(...request);
      if (!lose) return reply;
      lose = false;
      return { kind: "failed", why: "The server did not answer." };
    });
    await withReadings(log, 5);
    await runner.nudge("start");
    expect(runner.state.failing).toContain("did not answer");
    expect((await log.waiting()).count).toBe(5);
    await runner.nudge("asked");
    expect(server.stored.size).toBe(5);
    expect((await log.waiting()).count).toBe(0);
    expect(runner.state.failing).toBeNull();
  });

  it("takes the same answer twice without harm, and an older one late", async () => {
    const server = new ShopServer();
    const kept: Reply[] = [];
    const { log, runner } = phone(async (...request) => { kept.push(await server.post(...request)); return kept.at(-1)!; });
    await withReadings(log, 3);
    await runner.nudge("start");
    await log.append("b-marek", reading("2.9"), "marek", "builder");
    await runner.nudge("append");
    const before = await log.eventsOf("b-marek");
    const late = phone(async () => kept[0]);
    Object.assign(late.runner, { around: { ...(late.runner as unknown as { around: object }).around, log } });
    await late.runner.nudge("start");
    expect(await log.eventsOf("b-marek")).toEqual(before);
    expect((await log.builds())[0].head).toBe(4);
  });

  it("halves on too big until it fits, and one impossible entry does not block the rest", async () => {
    const server = new ShopServer();
    server.most = 3;
    server.tooBig.add(4);
    const { log, runner } = phone(server.post);
    await withReadings(log, 3);
    await log.append("b-marek", { type: "note", body: { text: "x".repeat(70_000) } }, "marek", "builder");
    for (let i = 4; i < 10; i++) await log.append("b-marek", reading(`2.${i}`), "marek", "builder");
    await runner.nudge("start");
    expect(server.stored.size).toBe(9);
    expect((await log.waiting()).count).toBe(0);
    expect((await log.refused()).map(({ event }) => event.n)).toEqual([4]);
  });

  it("sets nothing aside when something on the way calls every entry too big", async () => {
    const { log, runner } = phone(async () => ({ kind: "too_big" }));
    await withReadings(log, 3);
    await runner.nudge("start");
    expect((await log.waiting()).count).toBe(3);
    expect(await log.refused()).toEqual([]);
    expect(runner.state.failing).toContain("too big");
  });

  it("goes on after a full phone could not note that an entry was set aside", async () => {
    const server = new ShopServer();
    server.tooBig.add(2);
    const { log, runner, wakes } = phone(server.post);
    await withReadings(log, 1);
    await log.append("b-marek", { type: "note", body: { text: "x".repeat(70_000) } }, "marek", "builder");
    const write = log.database.write.bind(log.database);
    log.database.write = async (stores, work) => { if (stores.length === 1) throw new Error("no room left"); return write(stores, work); };
    await runner.nudge("start");
    expect(runner.state).toMatchObject({ busy: false, failing: "no room left" });
    expect(wakes.length).toBe(1);
    log.database.write = write;
    await runner.nudge("asked");
    expect((await log.waiting()).count).toBe(0);
  });

  it("sends first what was recorded first, whoever is at the bench now", async () => {
    const server = new ShopServer();
    const { log, runner } = phone(server.post, [person("juno"), person("marek")]);
    await log.append("b-one", { type: "build.opened", body: { name: "One", procedure: "pushrod-v8", revision: 1 } }, "marek", "builder");
    await log.append("b-one", reading("2.4"), "juno", "apprentice");
    await runner.nudge("start");
    expect([...server.stored.values()].map((event) => event.who)).toEqual(["marek", "juno"]);
  });

  it("keeps the queue of a person whose log-in ran out and goes on with the next", async () => {
    const server = new ShopServer();
    server.logins.delete("t-marek");
    const { log, runner } = phone(server.post, [person("marek"), person("juno")]);
    await withReadings(log, 3, "marek");
    await withReadings(log, 2, "juno");
    await runner.nudge("start");
    expect(runner.state.need_login).toEqual(["marek"]);
    expect([...server.stored.values()].map((event) => event.who)).toEqual(["juno", "juno"]);
    expect((await log.waiting()).people).toEqual(["marek"]);
    server.logins.set("t-marek", "marek");
    await runner.loggedIn("marek");
    expect((await log.waiting()).count).toBe(0);
    expect(server.stored.size).toBe(5);
  });

  it("sends all of its own again to a server put back from an older copy", async () => {
    const server = new ShopServer();
    const { log, runner } = phone(server.post);
    await withReadings(log, 6);
    await runner.nudge("start");
    for (const key of [...server.stored.keys()].slice(2)) server.stored.delete(key);
    server.epoch = "e2";
    await runner.nudge("asked");
    expect(server.stored.size).toBe(6);
    expect((await log.eventsOf("b-marek")).map((event) => event.seq)).toEqual([1, 2, 3, 4, 5, 6]);
  });

  it("asks a renewed server at once, but not when it was renewed within the last minute", async () => {
    const calls: number[] = [];
    for (const after of [59_999, 60_000, -59_999, -60_000]) {
      const server = new ShopServer();
      let now = 100_000;
      let asked = 0;
      const { runner } = phone((...request) => { asked++; return server.post(...request); }, [person("marek")], { now: () => now });
      await runner.nudge("start");
      server.epoch = "e2";
      await runner.nudge("asked");
      server.epoch = "e3";
      now += after;
      asked = 0;
      await runner.nudge("asked");
      calls.push(asked);
      expect(runner.state.failing === null, String(after)).toBe(asked === 2);
    }
    expect(calls).toEqual([1, 2, 1, 2]);
  });

  it("does not spin when the server changes its generation at every request", async () => {
    const server = new ShopServer();
    let calls = 0;
    const { log, runner } = phone(async (...request) => { server.epoch = `e${++calls}`; return server.post(...request); });
    await withReadings(log, 3);
    for (let i = 0; i < 3; i++) await runner.nudge("asked");
    expect(calls).toBeLessThan(6);
    expect(runner.state.failing).toContain("losing its place");
  });

  it("leaves the sending to the tab that is at it, and does it itself when no other is", async () => {
    const server = new ShopServer();
    const { log, runner, wakes } = phone(server.post);
    await withReadings(log, 2);
    let free = false;
    vi.stubGlobal("navigator", { locks: { request: async (name: string, how: object, work: (lock: unknown) => Promise<unknown>) => {
      expect([name, how]).toEqual(["halfthou-sync", { ifAvailable: true }]);
      return work(free ? {} : null);
    } } });
    await runner.nudge("start");
    expect([server.stored.size, wakes]).toEqual([0, [4_000]]);
    free = true;
    await runner.nudge("clock");
    expect(server.stored.size).toBe(2);
  });

  it("sends once more what was recorded while a request was under way", async () => {
    const server = new ShopServer();
    const { log, runner } = phone(server.post);
    await withReadings(log, 2);
    const first = runner.nudge("start");
    await log.append("b-marek", reading("2.9"), "marek", "builder");
    await Promise.all([first, runner.nudge("append")]);
    expect(server.stored.size).toBe(3);
  });

  it("says when it begins and when it rests; whoever joins waits for that, and for the screens that are shown the news", async () => {
    const said: unknown[] = [];
    const server = new ShopServer();
    const { log, runner } = phone(server.post, [person("marek")], {
      told: ({ busy }) => said.push(busy),
      changed: async (builds) => { await new Promise((done) => setTimeout(done, 20)); said.push(builds); },
    });
    await withReadings(log, 2);
    void runner.nudge("start");
    await runner.nudge("append");
    expect(said).toEqual([true, true, ["b-marek"], true, [], false]);
  });

  it("asks to be told in brief", async () => {
    const rest: unknown[] = [];
    const { log, runner } = phone((...request) => { rest.push(request[2]); return new ShopServer().post(...request); });
    await runner.nudge("start");
    expect(rest).toEqual([{ dev: await log.dev(), epoch: null, follow: {}, heads: {}, receipt: null, brief: true }]);
  });

  it("sets an entry aside that is larger than any server takes, to the byte", async () => {
    for (const [size, aside] of [[65_536, 0], [65_537, 1]]) {
      const { log, runner } = phone(async (_token, events) => (events.length > 0 ? { kind: "too_big" } : { kind: "failed", why: "No answer." }));
      await withReadings(log, 1);
      await setAside(log.database, { dev: await log.dev(), n: 1 }, "Not this one.");
      const empty = { dev: await log.dev(), n: 2, build: "b-marek", type: "note", v: 1, at: count, seen: 0, who: "marek", role: "builder", body: { text: "" } };
      await log.append("b-marek", { type: "note", body: { text: "x".repeat(size - bytesOf(empty)) } }, "marek", "builder");
      await runner.nudge("start");
      expect((await log.refused()).length - 1, String(size)).toBe(aside);
    }
  });

  it("goes on at once while the server has more to tell and tells it, and not when it only says so", async () => {
    let calls = 0;
    const { runner } = phone(async () => {
      const events = ++calls < 3 ? [{ dev: "other", n: calls, build: "b", type: "note", v: 1, at: 1, seen: 0, who: "juno", role: "builder", body: {}, seq: calls }] : [];
      const news = { name: "B", procedure: "pushrod-v8", revision: 1, head: 9, events, more: true, findings: [], reviewed: 0 };
      return { kind: "answer", answer: { epoch: "e1", time: 0, verdicts: [], builds: { b: news }, people: {}, shop: { id: "s", name: "Tern Hollow Engines" } } };
    });
    await runner.nudge("start");
    expect(calls).toBe(3);
  });

  it("holds what the server vouched for against it at the next request", async () => {
    const server = new ShopServer();
    const told: object[] = [];
    const { log, runner } = phone(async (...request) => {
      told.push(request[2]);
      const reply = await server.post(...request);
      if (reply.kind !== "answer") return reply;
      for (const build of Object.values(reply.answer.builds)) build.head_hash = `h${build.head}`;
      return { kind: "answer", answer: { ...reply.answer, device: { place: server.stored.size, link: "l" } } };
    });
    await withReadings(log, 2);
    await runner.nudge("start");
    await runner.nudge("asked");
    expect(told[0]).toMatchObject({ heads: {}, receipt: null, follow: { "b-marek": 0 } });
    expect(told[1]).toMatchObject({ heads: { "b-marek": "h2" }, receipt: { place: 2, link: "l" }, follow: { "b-marek": 2 } });
  });

  it("speaks at length again to a server that was put back to an older version and overlooks short rows", async () => {
    const server = new ShopServer();
    let modern = true;
    const spoken: boolean[] = [];
    const { log, runner } = phone(async (token, events, rest, waiting) => {
      const short = rest.receipt !== null;
      spoken.push(short);
      const reply = await server.post(token, modern || !short ? events : [], rest, waiting);
      return reply.kind === "answer" && modern ? { kind: "answer", answer: { ...reply.answer, device: { place: 1, link: "l" } } } : reply;
    });
    await withReadings(log, 2);
    await runner.nudge("start");
    modern = false;
    await log.append("b-marek", reading("2.9"), "marek", "builder");
    await runner.nudge("append");
    expect(spoken).toEqual([false, true, false]);
    expect(server.stored.size).toBe(3);
    expect((await log.waiting()).count).toBe(0);
  });

  it("does not shrink a request that held nothing, and says so", async () => {
    const { runner, wakes } = phone(async () => ({ kind: "too_big" }));
    await runner.nudge("start");
    expect(runner.state.failing).toContain("too big, though nothing was sent");
    expect(wakes.length).toBe(1);
  });

  it("asks again by itself when its time has come", async () => {
    const asked = vi.fn(new ShopServer().post);
    const { runner, alarms } = phone(asked);
    await runner.nudge("start");
    alarms[0]();
    await vi.waitFor(() => expect(runner.state.busy).toBe(false));
    expect(asked).toHaveBeenCalledTimes(2);
  });

  it("asks for news in the name of whoever is there when nobody has anything to send, and rests when nobody is", async () => {
    const asked: string[] = [];
    const { runner } = phone(async (token, ...request) => { asked.push(token); return new ShopServer().post(token, ...request); }, [person("juno"), person("marek")]);
    await runner.nudge("start");
    expect(asked).toEqual(["t-juno"]);
    const alone = phone(async () => { throw new Error("nobody sends"); }, [{ ...person("marek"), token: null }]);
    await alone.runner.nudge("start");
    expect(alone.runner.state).toMatchObject({ busy: false, failing: null });
    expect(alone.wakes).toEqual([31_000]);
  });

  it("lives through whatever fails around it, in words", async () => {
    const { runner } = phone(async () => { throw "the store is gone"; });
    await runner.nudge("start");
    expect(runner.state).toMatchObject({ busy: false, failing: "the store is gone" });
  });

  it("does not spin when the server gives no verdicts", async () => {
    const server = new ShopServer();
    let calls = 0;
    const { log, runner } = phone(async (token, _events, ...rest) => { calls++; return server.post(token, [], ...rest); });
    await withReadings(log, 3);
    await runner.nudge("start");
    expect(calls).toBe(1);
    expect((await log.waiting()).count).toBe(3);
  });
});

describe("what counts as an answer", () => {
  const call = () => post("t", [], { dev: "d", epoch: null, follow: {}, heads: {}, receipt: null }, 0);
  const answers = (body: string, status: number, type: string) =>
    vi.stubGlobal("fetch", async () => new Response(body, { status, headers: { "Content-Type": type } }));

  it("not a web page with status 200", async () => {
    answers("<html>Welcome to the paddock network</html>", 200, "text/html");
    expect(await call()).toMatchObject({ kind: "failed", why: expect.stringContaining("Something else") });
  });
  it("not JSON of another shape, nor half an answer", async () => {
    for (const half of ['{"hello":1}', "null", "7", "[]", '{"epoch":"e1","verd', '{"epoch":"e1"}', '{"epoch":"e1","verdicts":[]}', '{"epoch":"e1","verdicts":[],"builds":null}',
      '{"epoch":"e1","verdicts":[],"builds":7}', '{"epoch":"e1","verdicts":{},"builds":{}}', '{"epoch":7,"verdicts":[],"builds":{}}']) {
      answers(half, 200, "application/json");
      expect(await call(), half).toMatchObject({ kind: "failed", why: expect.stringContaining("Something else") });
    }
    answers('{"epoch":"e1","verdicts":[],"builds":{}}', 200, "application/json");
    expect(await call()).toEqual({ kind: "answer", answer: { epoch: "e1", verdicts: [], builds: {} } });
    answers('{"epoch":"e1","verdicts":[],"builds":{}}', 400, "application/json");
    expect((await call()).kind).toBe("failed");
  });
  it("nor something that does not say what it is", async () => {
    vi.stubGlobal("fetch", async () => ({ status: 200, ok: true, headers: new Headers(), json: async () => ({ epoch: "e", verdicts: [], builds: {} }) }));
    expect(await call()).toMatchObject({ kind: "failed", why: expect.stringContaining("Something else") });
  });
  it("what is wrong is said apart: a fault, too busy, a refusal", async () => {
    const said: unknown[] = [];
    for (const status of [500, 503, 429, 400]) { answers('{"error":"No."}', status, "application/json"); said.push(await call()); }
    expect(said).toEqual([500, 503].map((status) => ({ kind: "failed", why: `The server has a fault (${status}). It will be tried again.` })).concat([
      { kind: "failed", why: "The server is busy. It will be tried again." }, { kind: "failed", why: "The server refused (400). What was entered stays on the phone." }]));
  });
  it("413, 401, 403 and 502 are told apart", async () => {
    const kinds: string[] = [];
    for (const status of [413, 401, 403, 502]) { answers('{"error":"No."}', status, "application/json"); kinds.push((await call()).kind); }
    expect(kinds).toEqual(["too_big", "login", "login", "failed"]);
  });
  it("a guest network's own 401 asks nobody to log in to the shop", async () => {
    answers("<html>Pay first</html>", 401, "text/html");
    expect(await call()).toMatchObject({ kind: "failed", why: expect.stringContaining("Something else") });
  });
  it("says so when nobody answers", async () => {
    vi.stubGlobal("fetch", async () => { throw new TypeError("network"); });
    vi.useFakeTimers();
    expect(await call()).toEqual({ kind: "failed", why: "The server did not answer." });
    expect(vi.getTimerCount()).toBe(0);
    vi.useRealTimers();
  });
  it("gives up after 15 s", async () => {
    vi.useFakeTimers();
    vi.stubGlobal("fetch", (_path: string, init: RequestInit) => new Promise((_, reject) => {
      init.signal!.addEventListener("abort", () => reject(new DOMException("", "AbortError")));
    }));
    let reply: unknown = null;
    void call().then((given) => { reply = given; });
    await vi.advanceTimersByTimeAsync(14_999);
    expect(reply).toBeNull();
    await vi.advanceTimersByTimeAsync(1);
    vi.useRealTimers();
    expect(reply).toMatchObject({ kind: "failed", why: expect.stringContaining("too long") });
  });
  it("gives up after 15 s on an answer that stops in the middle", async () => {
    vi.useFakeTimers();
    vi.stubGlobal("fetch", async (_path: string, init: RequestInit) => ({
      status: 200, ok: true, headers: new Headers({ "content-type": "application/json" }),
      json: () => new Promise((_, reject) => { init.signal!.addEventListener("abort", () => reject(new DOMException("", "AbortError"))); }),
    }));
    const reply = call();
    await vi.advanceTimersByTimeAsync(15_001);
    vi.useRealTimers();
    expect((await reply).kind).toBe("failed");
  });
  it("own entries go as short rows to a server that gives receipts, at length to one that does not", async () => {
    const bodies: { events: unknown[]; entries?: unknown[] }[] = [];
    vi.stubGlobal("fetch", async (_path: string, init: RequestInit) => { bodies.push(JSON.parse(String(init.body))); throw new TypeError("network"); });
    const event = { dev: "d", n: 3, build: "b", type: "t", v: 1, at: 4, seen: 5, who: "w", role: "r", body: { x: 1 } };
    const rest = { dev: "d", epoch: null, follow: {}, heads: {}, receipt: { place: 1, link: "l" } };
    await post("t", [event], rest, 1);
    await post("t", [event], { ...rest, receipt: null }, 1);
    await post("t", [{ ...event, dev: "other", mark: "m" }], rest, 1);
    expect(bodies[0]).toMatchObject({ events: [], entries: [[3, "b", "t", 1, 4, 5, { x: 1 }]] });
    expect(bodies[1].events).toEqual([{ dev: "d", n: 3, build: "b", type: "t", v: 1, at: 4, seen: 5, body: { x: 1 } }]);
    const others = { ...event, dev: "other", mark: "m" };
    await post("t", [{ ...others, carried: "tomasz" }], rest, 1);
    expect([bodies[2].events, bodies[3].events]).toEqual([[{ ...others, carried: "" }], [{ ...others, carried: "tomasz" }]]);
    expect(bodies[1].entries).toBeUndefined();
  });
  it("a request is filled by bytes, with one event at least", () => {
    const event = (n: number) => ({ dev: "d", n, build: "b", type: "t", v: 1, at: 0, seen: 0, who: "w", role: "r", body: { text: "x".repeat(100) } });
    const events = [1, 2, 3].map(event);
    expect(fitting(events, 500).length).toBe(2);
    expect(fitting(events, 10).length).toBe(1);
    expect(fitting(events).length).toBe(3);
    const all = events.reduce((bytes, each) => bytes + bytesOf(each) + 1, 0);
    expect([all, all - 1].map((most) => fitting(events, most).length)).toEqual([3, 2]);
    const large = { ...event(9), body: { text: "" } };
    large.body.text = "x".repeat(MOST_BYTES - all - 1 - bytesOf(large));
    expect(fitting([...events, large]).length).toBe(4);
    large.body.text += "x";
    expect([fitting([...events, large]).length, MOST_BYTES]).toEqual([3, 250_000]);
  });
});
