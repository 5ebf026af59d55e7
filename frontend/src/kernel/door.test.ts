// The door against workers that answer, refuse, die and hang.
import { describe, expect, it, vi } from "vitest";
import { KernelRefusal, startKernel, type WorkerLike } from "./door";

type Reply = (request: { op: string; build?: string }) => object | "die";

/** A worker that answers in a later turn, as a real one does. */
function worker(reply: Reply, log: string[]): WorkerLike {
  const self: WorkerLike = {
    onmessage: null, onerror: null, terminate: () => { self.onmessage = null; },
    postMessage(message) {
      const { id, request } = message as { id: number; request: string };
      queueMicrotask(() => {
        const asked = JSON.parse(request) as { op: string; build?: string };
        log.push(asked.op);
        const answer = reply(asked);
        if (answer === "die") self.onerror?.({} as ErrorEvent);
        else self.onmessage?.({ data: { id, answer: JSON.stringify(answer) } } as MessageEvent);
      });
    },
  };
  return self;
}

const units = { length: "thou", torque: "lbf.ft" } as const;
const ask = { build: "b-one", units, now: 0 };

describe("the kernel's door", () => {
  it("turns a refusal into an error with the kernel's sentence", async () => {
    const door = await startKernel(() => worker(() => ({ error: "No such build is open." }), []));
    await expect(door.review(ask)).rejects.toThrow(KernelRefusal);
    await expect(door.review(ask)).rejects.toThrow("No such build is open.");
  });

  it("keeps weigh's own error as a field", async () => {
    const door = await startKernel(() => worker(() => ({ ask: "", shown: "", other: "", error: "Not a number." }), []));
    const weighed = await door.weigh({ build: "b-one", draft: { type: "reading", body: {} }, units });
    expect(weighed.error).toBe("Not a number.");
  });

  it("replaces a worker that died, opens the builds again, then answers everyone", async () => {
    const log: string[] = [];
    let made = 0;
    const door = await startKernel(() => {
      const first = ++made === 1;
      return worker(() => (first ? "die" : { findings: [] }), log);
    });
    door.onRestart(async () => [{ build: "b-one", procedure: {}, events: [], people: {} }]);
    const answers = await Promise.all([door.review(ask), door.review(ask)]);
    expect(answers).toEqual([{ findings: [] }, { findings: [] }]);
    expect(made).toBe(2);
    expect(log.filter((op) => op === "open")).toHaveLength(1);
    expect(log.slice(-3)).toEqual(["open", "review", "review"]);
  });

  it("says so in words when the second worker dies too", async () => {
    const door = await startKernel(() => worker(() => "die", []));
    await expect(door.review(ask)).rejects.toThrow("Your readings are kept");
  });

  it("gives up on a worker that hangs", async () => {
    vi.useFakeTimers();
    let made = 0;
    const door = await startKernel(() => {
      const hangs = ++made === 1;
      const one = worker(() => ({ findings: [] }), []);
      if (hangs) one.postMessage = () => {};
      return one;
    });
    const answer = door.review(ask);
    await vi.advanceTimersByTimeAsync(31_000);
    await expect(answer).resolves.toEqual({ findings: [] });
    vi.useRealTimers();
  });
});
