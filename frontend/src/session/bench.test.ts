// The whole bench without a browser: the real log, the real kernel under the phone's Python, a server kept in memory.
import "fake-indexeddb/auto";
import { readFileSync } from "node:fs";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { packKernel } from "../../scripts/bundle-kernel.mjs";
import { startKernel, type WorkerLike } from "../kernel/door";
import { openKernel } from "../kernel/python";
import type { Post } from "../sync/network";
import { Bench } from "./bench";
import { buildId } from "./ids";
import type { People } from "./people";

const procedure = JSON.parse(readFileSync(new URL("../../../tests/cases/procedures/pushrod-v8.json", import.meta.url), "utf8"));
const kernelFiles = packKernel();
const reading = (text: string, station = "1") => ({ type: "reading", body: { point: "main_journal", station, text, unit: "in" } });

/** The kernel in this thread, behind the same messages as the worker's. */
function localWorker(): WorkerLike {
  const door = openKernel(kernelFiles);
  const self: WorkerLike = {
    onmessage: null, onerror: null, terminate: () => { self.onmessage = null; },
    postMessage: (message) => void door.then((call) => {
      const { id, request } = message as { id: number; request: string };
      self.onmessage?.({ data: { id, answer: call(request) } } as MessageEvent);
    }),
  };
  return self;
}

function answers(path: string): Response {
  const json = (value: unknown) => new Response(JSON.stringify(value), { headers: { "Content-Type": "application/json" } });
  if (path === "/api/login") return json({ token: "t", expires: 0, person: { id: "marek", name: "Marek", role: "builder" }, shop: { id: "tern-hollow", name: "Tern Hollow Engines" } });
  if (path === "/api/procedures") return json([{ id: "pushrod-v8", revision: 1, title: procedure.title, digest: procedure.digest }]);
  if (path.startsWith("/api/procedures/")) return json(procedure);
  return new Response("", { status: 404 });
}

const outOfReach: Post = async () => ({ kind: "failed", why: "The server did not answer." });
let count = 0;
let spawned: WorkerLike[] = [];
const makeBench = (name: string, post: Post = outOfReach) =>
  new Bench({ name, kernel: startKernel(() => { spawned.push(localWorker()); return spawned.at(-1)!; }), post });

/** Comes true sooner or later: the status follows the log, and on a busy machine not within the second. */
const comes = (true_: () => unknown): Promise<unknown> => vi.waitFor(true_, { timeout: 20_000 });

async function loggedIn(post?: Post): Promise<{ bench: Bench; build: string; name: string }> {
  const name = `bench-${++count}`;
  const bench = makeBench(name, post);
  await bench.login("marek", "secret");
  await comes(async () => expect(await bench.procedures()).toHaveLength(1));
  return { bench, name, build: await bench.startBuild("Sprint-boat V8", "pushrod-v8", "race", "") };
}

beforeEach(() => { spawned = []; vi.stubGlobal("fetch", async (path: string) => answers(path)); });
afterEach(() => { vi.unstubAllGlobals(); });

describe("the bench", () => {
  it("records and judges out of reach, and is the same after the app was killed", async () => {
    const { bench, build, name } = await loggedIn();
    const before = await bench.overview(build);
    expect(before.next).not.toBeNull();
    await bench.append(build, reading("2.4480"));
    const seen = (await bench.step(build, "read_journals").catch(() => bench.step(build, before.next!))).entries;
    expect(seen.filter((entry) => entry.kind === "reading" && entry.state === "made").map((entry) => entry.shown)).toEqual(["2.4480 in"]);

    const again = makeBench(name);
    await again.ready;
    expect(again.person.now?.name).toBe("Marek");
    expect(await again.overview(build)).toEqual({ ...(await bench.overview(build)) });
    expect(again.status.now.waiting).toBe(2);
  });

  it("opens builds again when the kernel's worker dies, without counting a reading twice", async () => {
    const { bench, build } = await loggedIn();
    await bench.append(build, reading("2.4480"));
    const before = await bench.overview(build);
    spawned.at(-1)!.onerror?.({} as ErrorEvent);
    expect(await bench.overview(build)).toMatchObject({ phases: before.phases, steps: before.steps });
    expect(spawned).toHaveLength(2);
  });

  it("tells the screens of news from the server, and folds it", async () => {
    let news: object[] = [];
    const post: Post = async (_token, events, { follow }) => {
      const id = Object.keys(follow)[0];
      const verdicts = events.map((event) => ({ n: event.n, verdict: "stored" as const, seq: event.n }));
      const build = { name: "Sprint-boat V8", procedure: "pushrod-v8", revision: 1, head: 9, events: news as never[], more: false, findings: [], reviewed: 0 };
      return { kind: "answer", answer: { epoch: "e", time: 0, verdicts, builds: id ? { [id]: build } : {}, people: { juno: { name: "Juno", role: "apprentice" } }, shop: { id: "s", name: "Tern Hollow Engines" } } };
    };
    const { bench, build } = await loggedIn(post);
    await bench.overview(build);
    const changed = vi.fn();
    bench.subscribe(build, changed);
    const own = { dev: "0".repeat(32), build, v: 1, at: 0, seen: 0, who: "juno", role: "apprentice" };
    news = [{ ...own, n: 1, seq: 1, type: "build.opened", body: { name: "x", procedure: "pushrod-v8", revision: 1, duty: "race", note: "" } }, { ...own, n: 2, seq: 2, ...reading("2.4480") }];
    await bench.syncNow();
    expect(changed).toHaveBeenCalled();
    expect((bench as unknown as { staff: People }).staff.known()).toMatchObject({ juno: "Juno" });
    const step = await bench.step(build, (await bench.overview(build)).next!);
    expect(step.entries.some((entry) => entry.shown === "2.4480 in")).toBe(true);
  });

  it("says why it does not send, and goes on recording", async () => {
    const { bench, build } = await loggedIn();
    await bench.append(build, reading("2.4480"));
    await bench.syncNow();
    await comes(() => expect(bench.status.now).toMatchObject({ waiting: 2, failing: "The server did not answer." }));
    await bench.append(build, reading("2.4481", "2"));
    await comes(() => expect(bench.status.now.waiting).toBe(3));
    expect((await bench.exportEvents()).trim().split("\n")).toHaveLength(1 + 3);      // how many is said first
  });

  it("asks a person whose log-in ran out to log in, and keeps what they record", async () => {
    const { bench, build } = await loggedIn(async () => ({ kind: "login" }));
    await bench.syncNow();
    await bench.append(build, reading("2.4480"));
    await comes(() => expect(bench.status.now).toMatchObject({ need_login: "marek", waiting: 2 }));
  });

  it("asks for a log-in before anything is recorded under nobody's name", async () => {
    await expect(makeBench(`bench-${++count}`).append("b-x", reading("2"))).rejects.toThrow("Log in first");
  });

  it("keeps settings and place for each person", async () => {
    const { bench, name } = await loggedIn();
    await bench.set({ leftHand: true, units: { length: "mm", torque: "N.m" } });
    await bench.setPlace({ screen: "step", build: "b-x", step: "crank_in", entry: 2 });
    const again = makeBench(name);
    await again.ready;
    expect(again.settings.now).toMatchObject({ leftHand: true, theme: "auto", units: { length: "mm", torque: "N.m" } });
    expect(await again.place()).toEqual({ screen: "step", build: "b-x", step: "crank_in", entry: 2 });
  });
});

describe("ids of new builds", () => {
  it("are short, plain and never the same twice", () => {
    expect(buildId("Sprint-boat V8", new Uint8Array(6))).toBe("b-sprint-boat-v8-aaaaaa");
    for (const name of ["", "Été à Zürich!", "x".repeat(200), "---"]) expect(buildId(name)).toMatch(/^b-[a-z0-9-]{1,38}$/);
    expect(buildId("Same")).not.toBe(buildId("Same"));
  });
});
